// What is kept of a district that is asked what further sources would change (what_if.h), and how
// answers are worked out anew. Known to what_if*.cpp alone.
#pragma once

#include <algorithm>
#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <vector>

#include "analyzer/app/road_work.h"
#include "analyzer/app/what_if.h"
#include "analyzer/district/sorted_once.h"
#include "analyzer/supply/kept_choices.h"
#include "analyzer/supply/situation.h"
#include "routing/dump_sites.h"
#include "routing/kept_trips.h"

namespace farwater::app {

struct WhatIf::State {
    // Of one season and period, as the district is.
    struct PeriodKept {
        std::vector<DriveTime> first_arrivals;
        std::vector<supply::ParcelSupply> supplies;
    };
    struct SeasonKept {
        routing::KeptTrips trips;
        std::vector<PeriodKept> periods;
    };

    // Of one season, with further sources: the parcels that see other trips, by row, and those of
    // their answers that were worked out.
    struct SeasonAnew {
        RoundTrips trips;  // as they see them
        std::vector<FillSitePlace> places;
        std::vector<std::uint32_t> rows;
        std::vector<std::vector<std::optional<supply::ParcelSupply>>>
            periods;  // per item of `rows`

        std::optional<std::size_t> item_of(std::uint32_t row) const {
            const auto found = std::ranges::lower_bound(rows, row);
            return found != rows.end() && *found == row
                       ? std::optional(static_cast<std::size_t>(found - rows.begin()))
                       : std::nullopt;
        }
        // Null: as it was.
        const supply::ParcelSupply* answer(std::size_t period, std::uint32_t row) const {
            const auto item = item_of(row);
            return item && periods[period][*item] ? &*periods[period][*item] : nullptr;
        }
    };

    struct Anew {
        std::vector<std::uint32_t> sources;  // that were offered
        supply::WaterReview review;
        std::vector<SeasonAnew> seasons;
    };

    // A source that may be asked about.
    struct Offered {
        WaterSource source;
        routing::RoadSpot spot;
        std::vector<std::optional<FillSitePlace>> places;       // per season in which it counts
        std::vector<std::optional<routing::FoundTrips>> found;  // per season, once asked for
        bool all_anew = false;
    };

    District district;
    std::vector<std::optional<Need>> needs;
    std::vector<Profile> profiles;
    supply::WaterReview water;
    RoadWork roads;
    routing::DumpSites dump_sites;
    std::vector<SeasonKept> seasons;
    supply::Assessment worst;
    std::vector<Offered> offered;
    std::vector<Anew> kept;  // each of the sources of the one before and more

    // Which tankers are best at a fill site depends on that site and the case, not on further ones.
    std::unique_ptr<supply::KeptChoices> choices;

    routing::RoadSystem system() const { return {district, roads.network, roads.access, profiles}; }

    // The supply of one season and period, of the parcels that have a need in `asked`.
    std::vector<supply::ParcelSupply> assessed(const supply::WaterReview& review,
                                               const RoundTrips& trips,
                                               std::span<const FillSitePlace> places,
                                               PeriodIndex period,
                                               const std::vector<std::optional<Need>>& asked,
                                               supply::Told told, const Work& work) const;

    void assess_all(const Work& work, const StageBegins& begins);

    void assess_rows(SeasonAnew& anew, const supply::WaterReview& review, const SeasonAnew* known,
                     const Work& work) const;
    void assess_items(SeasonAnew& anew, const supply::WaterReview& review, std::size_t period,
                      const std::vector<std::size_t>& items, const Work& work) const;
    void search(std::uint32_t source, const Work& work);
    bool all_anew(std::span<const std::uint32_t> sources, const Work& work);
    const Anew* longest_known(std::span<const std::uint32_t> sources);
    Anew seen_beside(std::span<const std::uint32_t> sources, const Work& work);
    Anew anew_beside(std::span<const std::uint32_t> sources, const Work& work);
    void assess_while_worst(Anew& anew, const Work& work) const;
    Anew wholly_anew(std::span<const std::uint32_t> sources, const Work& work);
    struct Answer {
        std::size_t season = 0, period = 0;
        const supply::ParcelSupply* supply = nullptr;
        bool anew = false;
    };
    Answer worst_of(std::uint32_t row, const Anew& anew) const;
    std::vector<planning::Change> changes(const Anew& anew) const;

    // Of the parcels, those that see other trips in some season.
    static std::vector<std::uint32_t> rows_of(const Anew& anew) {
        std::vector<std::uint32_t> rows;
        for (const SeasonAnew& season : anew.seasons) {
            rows.insert(rows.end(), season.rows.begin(), season.rows.end());
        }
        return sorted_once(std::move(rows));
    }

    // With some of the offered sources behind the others, as long as it stands.
    class Grown {
    public:
        Grown(State& state, std::span<const std::uint32_t> more)
            : sources_(state.district.sources),
              before_(static_cast<std::ptrdiff_t>(sources_.size())) {
            for (const std::uint32_t source : more) {
                sources_.push_back(state.offered[source].source);
            }
        }
        ~Grown() { sources_.erase(sources_.begin() + before_, sources_.end()); }
        Grown(const Grown&) = delete;
        Grown& operator=(const Grown&) = delete;

    private:
        std::vector<WaterSource>& sources_;
        std::ptrdiff_t before_;
    };
};

}  // namespace farwater::app
