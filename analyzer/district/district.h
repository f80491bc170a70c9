// Everything that was read, checked and repaired: the one value that the stages start from.
#pragma once

#include <algorithm>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "analyzer/district/apparatus.h"
#include "analyzer/district/assumptions.h"
#include "analyzer/district/building.h"
#include "analyzer/district/calendar.h"
#include "analyzer/district/elevation.h"
#include "analyzer/district/elevation_gaps.h"
#include "analyzer/district/need_rules.h"
#include "analyzer/district/parcel.h"
#include "analyzer/district/problem.h"
#include "analyzer/district/proposal.h"
#include "analyzer/district/rating_rules.h"
#include "analyzer/district/road.h"
#include "analyzer/district/water.h"

namespace farwater {

struct District {
    std::string name;
    std::string tanker_word = "tanker";  // the district's word: tanker or tender
    TravelTime travel_time = TravelTime::road_speeds;
    SuctionFriction suction_friction = SuctionFriction::conservative;
    std::optional<Date> data_date;  // what "today" means for the age of tests; no clock is read

    std::vector<Road> roads;
    std::vector<Parcel> parcels;
    std::vector<Building> buildings;  // of the parcels, in their order; only where needs go by them
    std::vector<Target> targets;
    std::vector<WaterSource> sources;
    std::size_t what_if_sources = 0;  // of them, the last ones: not there yet
    std::vector<MappedWater> mapped_water;
    std::vector<ProposedSource> proposals;  // the officer's own; they count nowhere
    std::vector<Station> stations;
    std::vector<Unit> units;
    std::vector<Staffing> staffing;
    std::vector<ResponseRule> response_rules;
    std::vector<DumpSitePlace> dump_site_places;
    std::vector<Turnaround> turnarounds;
    ElevationGrid elevation;
    ElevationGaps elevation_gaps;  // as read

    std::vector<Season> seasons;  // at least one ("all_year" where the file names none)
    std::vector<Period> periods;  // at least one ("any_time" where the file names none)
    Assumptions assumptions;
    NeedRules need;
    std::optional<RatingRules> rating;  // none = no rating was asked for
    bool buildings_known = false;       // some layer or column says which parcels have a building

    std::vector<Problem> problems;     // in the order of reading
    std::vector<RecordCount> records;  // one row per input layer

    bool is_there(SourceIndex source) const {
        return source.position() + what_if_sources < sources.size();
    }
};

// A unit comes no sooner than its station's aid does: the farther one of the two.
inline Aid aid_of(const District& district, const Unit& unit) {
    return std::max(unit.aid, at(district.stations, unit.station).aid);
}

// Of a row, which is that of a parcel or, behind them, of a target.
inline Point house_of(const District& district, std::size_t row) {
    const std::size_t parcels = district.parcels.size();
    return row < parcels ? district.parcels[row].house : district.targets[row - parcels].place;
}
inline const std::string& id_of(const District& district, std::size_t row) {
    const std::size_t parcels = district.parcels.size();
    return row < parcels ? district.parcels[row].id : district.targets[row - parcels].id;
}
// The response zone; targets have none.
inline std::string_view zone_of(const District& district, std::size_t row) {
    return row < district.parcels.size() ? std::string_view(district.parcels[row].zone)
                                         : std::string_view();
}

}  // namespace farwater
