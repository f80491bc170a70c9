// Which water counts: what is not known never helps. A source counts in a supply state only when
// somebody tested or declared it, its volume is known (or unlimited in so many words), and, where
// it is for one parcel alone, it is told which. Everything else is a problem row or a row of the
// worklist.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/district/problem.h"
#include "analyzer/district/round_trips.h"
#include "analyzer/supply/source_rate.h"

namespace farwater::supply {

// A source as the incident run takes it, every blank filled in.
struct CountedSource {
    SourceIndex source;
    Evidence evidence = Evidence::assumed;  // tested, declared; assumed where a default stands in
    Flow rate;                              // into any pump
    double pump_share = 1;                  // of a pump's rating at the lift there
    RateLimit limit = RateLimit::standard;
    std::optional<SuctionFinding> suction;  // of suction points
    std::optional<Length> usable_depth;     // that can be drawn down, where it was worked out
    std::vector<std::string_view> assumed;  // columns for which a stated value stands
    std::optional<Volume> usable;           // none = unlimited
    Flow inflow;
    int places = 1;
    bool needs_engine = true;  // a suction point does, a hydrant does not
    Duration setup;
    std::uint8_t strength_class = 0;  // 0 weak .. 3 strong, in rate and volume
    ParcelIndex only_for;             // FillSitePlace::only_for

    // What tankers are filled with by an engine of that rating: the smaller of what the source
    // gives and what the pump does at that lift, never their product. Where no engine is needed,
    // the rate.
    Flow with_pump(Flow rated) const;

    bool is_for_all() const { return !only_for.valid(); }
    // The row of a parcel, or of a target behind the parcels.
    bool is_for(std::size_t row) const { return is_for_all() || only_for.position() == row; }
};

// Limits that the sources of one system share for an incident (water_systems.h).
struct WaterSystem {
    std::string name;
    std::vector<SourceIndex> members;  // those that count for every place, ascending
    std::optional<Volume> usable;      // none = unlimited
    Flow inflow;
    Flow rate;
};

struct WaterReview {
    std::vector<CountedSource> counted;  // by ascending source index
    std::vector<bool> counts;            // per source of the district
    std::vector<WaterSystem> systems;    // by name
    std::vector<Problem> problems;       // why the others do not count, and what was assumed
};

WaterReview review_water(const District& district);

// What the dates say of a source's test.
enum class TestAge : std::uint8_t {
    none,        // it is not called tested
    undated,     // nobody says when
    not_judged,  // no data_date: how old it is cannot be told
    lapsed,      // older than its validity
    valid,
};
// Precondition: no date is after data_date; io reads those as not known.
TestAge test_age(const WaterSource& source, const District& district);

// Does it count as measured? One whose age cannot be judged does, and is a problem row; all others
// that are not valid are declarations.
inline bool counts_as_tested(TestAge age) {
    return age == TestAge::valid || age == TestAge::not_judged;
}

// The counted sources that are open in a season, as places for routing; indices of the list are the
// season's FillSiteIndex. Out in a season: kinds that it names, sources not open in all of its
// months, and in ice seasons draft sites without freeze provision.
std::vector<FillSitePlace> fill_site_places(const District& district, const WaterReview& review,
                                            const Season& season);

// Precondition: the source counts.
const CountedSource& counted_source(const WaterReview& review, SourceIndex source);

}  // namespace farwater::supply
