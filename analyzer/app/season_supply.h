// One season of a district: its round trips, then the supply of every place in each period.
#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "analyzer/app/stages.h"
#include "analyzer/district/need.h"
#include "analyzer/parallel/work.h"
#include "analyzer/supply/assess.h"
#include "analyzer/supply/assessment.h"
#include "analyzer/supply/plan_order.h"
#include "analyzer/supply/situation.h"
#include "analyzer/supply/water_review.h"
#include "reports/findings.h"
#include "routing/drive_times.h"
#include "routing/dump_sites.h"

namespace farwater::app {

// What supply is asked for, in every season alike.
struct SupplyAsked {
    std::vector<Profile> profiles;
    supply::WaterReview water;
    std::vector<std::optional<Need>> needs;  // per parcel, then per target
    supply::PlanOrder order;                 // by which plans are chosen
    supply::Told told = supply::Told::everything;
};

// What an onlooker sees of one season and period, while all lists that its answers were worked out
// from are there. Only a view.
struct VariantSeen {
    const routing::RoadSystem& roads;
    const supply::Situation& situation;
    const std::vector<std::optional<Need>>& needs;
    const std::vector<DriveTime>& first_arrivals;

    supply::Variant variant() const { return {situation.trips.season, situation.period}; }
};

// Somebody who wants to see how answers come about. Where `wanted` is given, only those seasons and
// periods are assessed for which it says so; it must say so at least once. Of each of them, where
// it is given, `sees` is shown what the answers were worked out from.
struct Onlooker {
    std::function<bool(supply::Variant)> wanted;
    std::function<void(const VariantSeen&)> sees;
};

// Whoever keeps the answers: each season and period begins, then come its answers, some rows at a
// time.
struct AnswerTaker {
    std::function<void(supply::Variant)> begins;
    supply::TakeAnswers takes;
};

// The season with all its lists; of no use when `work` was stopped.
reports::SeasonFindings assess_season(const SupplyAsked& asked, const routing::RoadSystem& roads,
                                      const routing::DumpSites& dump_sites, SeasonIndex season,
                                      const AnswerTaker& taker, const Onlooker& onlooker,
                                      const Work& work, const StageBegins& begins);

}  // namespace farwater::app
