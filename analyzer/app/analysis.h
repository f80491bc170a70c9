// The way of the data, from a District to everything that is reported: each line one stage.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/district/need.h"
#include "analyzer/district/routes.h"
#include "analyzer/supply/assessment.h"
#include "analyzer/supply/water_review.h"
#include "analyzer/work/work.h"
#include "reports/findings.h"

namespace farwater::app {

struct Analysis {
    std::vector<Profile> profiles;
    supply::WaterReview water;
    std::vector<std::optional<Need>> needs;
    std::vector<AccessPoint> access;  // per parcel, then per target
    std::vector<reports::SeasonFindings> seasons;
    supply::Assessment assessment;
    RoadTimes road_times;
    RoutesInUse routes;
    std::vector<Problem> problems;  // of reading, then of each stage

    reports::Findings findings(const District& district) const {
        return {district, profiles,   water,      needs,  access,
                seasons,  assessment, road_times, routes, problems};
    }
};

// Called when a stage begins.
using StageBegins = std::function<void(std::string_view stage)>;

// `needs` are those of the district (app/reading.h). None when `work` was stopped.
std::optional<Analysis> analyse(const District& district, std::vector<std::optional<Need>> needs,
                                const Work& work, const StageBegins& begins);

// Only what `check` asks: do the roads connect, does everything reach a road, which water counts.
std::optional<std::vector<Problem>> check_district(const District& district, const Work& work,
                                                   const StageBegins& begins);

}  // namespace farwater::app
