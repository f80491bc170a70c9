// What a run could have found, for tests of what is said about it.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "reports/findings.h"

namespace farwater::reports::test {

inline supply::ParcelSupply answer(SupplyState state, int needed, int cautious) {
    supply::ParcelSupply supply;
    supply.state = state;
    supply.needed = tenths_of_gpm(needed * 10);
    supply.cautious = tenths_of_gpm(cautious * 10);
    supply.sustained = supply.cautious;
    supply.one_tanker_out = tenths_of_gpm(cautious * 8);
    supply.evidence = Evidence::declared;
    return supply;
}

// Four parcels: held, short, no building, unknown; the record between the second and third was set
// aside.
struct Found {
    District district;
    std::vector<Profile> profiles;
    supply::WaterReview water;
    std::vector<std::optional<Need>> needs;
    std::vector<AccessPoint> access;
    std::vector<std::optional<float>> station_miles;
    std::vector<SeasonFindings> seasons{1};
    supply::Assessment assessment;
    RoadTimes roads;
    RoutesInUse routes;
    std::vector<Problem> problems;

    Found() {
        district.name = "Alder <Notch>";
        district.seasons.push_back({.name = "all_year"});
        district.periods.push_back({.name = "any_time"});
        const std::uint32_t rows[] = {0, 1, 3, 4};
        for (std::size_t i = 0; i < 4; ++i) {
            district.parcels.push_back({.id = "P" + std::to_string(i), .row = rows[i]});
            access.emplace_back();
            station_miles.emplace_back();
        }
        district.parcels[2].improved = false;
        needs.assign(4, Need{.flow = tenths_of_gpm(5000)});
        needs[2] = std::nullopt;
        supply::ParcelSupply unknown;
        unknown.needed = tenths_of_gpm(5000);
        unknown.reason = ProblemId::parcel_no_road_in_reach;
        supply::ParcelSupply nothing;
        nothing.state = SupplyState::no_building;
        const std::array answers{answer(SupplyState::held, 500, 600),
                                 answer(SupplyState::short_flow, 1000, 400), nothing, unknown};
        assessment.keep({SeasonIndex(0), PeriodIndex(0)}, answers, answers.size());
    }
    Findings findings() const {
        return {district, profiles,   water, needs,  access,  station_miles,
                seasons,  assessment, roads, routes, problems};
    }
};

}  // namespace farwater::reports::test
