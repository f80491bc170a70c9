// The way of the data, from a District to everything that is reported: each line one stage.
#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "analyzer/app/stages.h"
#include "analyzer/district/district.h"
#include "analyzer/district/need.h"
#include "analyzer/district/routes.h"
#include "analyzer/parallel/work.h"
#include "analyzer/rating/rated_district.h"
#include "analyzer/supply/assess.h"
#include "analyzer/supply/assessment.h"
#include "analyzer/supply/plan_order.h"
#include "analyzer/supply/situation.h"
#include "analyzer/supply/water_review.h"
#include "reports/findings.h"
#include "routing/drive_times.h"

namespace farwater::app {

struct Analysis {
    std::vector<Profile> profiles;
    supply::WaterReview water;
    std::vector<std::optional<Need>> needs;
    supply::PlanOrder order;  // by which plans are chosen
    supply::Told told = supply::Told::everything;
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
        return {district, profiles,   water,      needs,  access,   station_miles,
                seasons,  assessment, road_times, routes, problems, rating ? &*rating : nullptr};
    }
};

// What an onlooker sees of one season and period, while all lists that its answers were worked out
// from are there. Only a view.
struct VariantSeen {
    const routing::RoadSystem& roads;
    const supply::Situation& situation;
    const std::vector<std::optional<Need>>& needs;
    const std::vector<DriveTime>& first_arrivals;
};

// Somebody who wants to see how answers come about. Where `wanted` is given, only those seasons and
// periods are assessed for which it says so; it must say so at least once. Of each of them
// `takes` is given the answers, some rows at a time, then `sees` what they were worked out from.
struct Onlooker {
    std::function<bool(SeasonIndex, PeriodIndex)> wanted;
    supply::TakeAnswers takes;
    std::function<void(const VariantSeen&)> sees;
};

// `needs` are those of the district (app/reading.h). None when `work` was stopped.
std::optional<Analysis> analyse(const District& district, std::vector<std::optional<Need>> needs,
                                const Work& work, const StageBegins& begins,
                                const Onlooker& onlooker = {});

// The same state, flow and rating of every place, without what else is told of them, road times
// and routes: for districts that are only compared.
std::optional<Analysis> analyse_flow(const District& district,
                                     std::vector<std::optional<Need>> needs, const Work& work);

// Only what `check` asks: do the roads connect, does everything reach a road, which water counts.
std::optional<std::vector<Problem>> check_district(const District& district, const Work& work,
                                                   const StageBegins& begins);

}  // namespace farwater::app
