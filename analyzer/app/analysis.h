// The way of the data, from a District to everything that is reported: each line one stage.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "analyzer/app/season_supply.h"
#include "analyzer/app/stages.h"
#include "analyzer/district/district.h"
#include "analyzer/district/need.h"
#include "analyzer/district/routes.h"
#include "analyzer/parallel/work.h"
#include "analyzer/rating/rated_district.h"
#include "analyzer/supply/assessment.h"
#include "reports/findings.h"

namespace farwater::app {

struct Analysis {
    SupplyAsked asked;
    std::vector<AccessPoint> access;  // per parcel, then per target
    // Per parcel, then per target: road miles from the nearest station in the season with the
    // longest way; none where a season has no way.
    std::vector<std::optional<float>> station_miles;
    std::vector<reports::SeasonFindings> seasons;
    supply::Assessment assessment;
    RoadTimes road_times;
    RoutesInUse routes;
    std::optional<rating::Rating> rating;  // where the district names terms
    std::vector<Problem> problems;         // of reading, then of each stage

    reports::Findings findings(const District& district) const {
        return {district,   asked.profiles, asked.water, asked.needs,
                access,     station_miles,  seasons,     assessment,
                road_times, routes,         problems,    rating ? &*rating : nullptr};
    }
};

// `needs` are those of the district (app/reading.h). Where rows (parcels, then targets) are named,
// supply is worked out for them alone, from the same dump sites, and the needs of the others are
// let go of. None when `work` was stopped.
std::optional<Analysis> analyse(const District& district, std::vector<std::optional<Need>> needs,
                                const Work& work, const StageBegins& begins,
                                const Onlooker& onlooker = {},
                                std::span<const std::size_t> only_rows = {});

// The same state, flow and rating of every place, without what else is told of them, road times
// and routes: for districts that are only compared.
std::optional<Analysis> analyse_flow(const District& district,
                                     std::vector<std::optional<Need>> needs, const Work& work);

// Only what `check` asks: do the roads connect, does everything reach a road, which water counts.
std::optional<std::vector<Problem>> check_district(const District& district, const Work& work,
                                                   const StageBegins& begins);

}  // namespace farwater::app
