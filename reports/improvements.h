// What each improvement of a district would do, side by side, as tables and text.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/district/improvement.h"
#include "analyzer/planning/gains.h"
#include "analyzer/planning/weights.h"
#include "io/feature_table.h"
#include "reports/as_it_is.h"
#include "reports/build_years.h"

namespace farwater::reports {

// Parcels that come into a rating category with creditable water, and that fall out of one.
struct RatingShift {
    std::size_t gained = 0, lost = 0;
};

// Each by itself: the district as it is, and this one thing.
struct WeighedImprovement {
    Improvement improvement;
    std::vector<planning::Change> changes;
    planning::GainSum sum;
    std::optional<RatingShift> rating;  // none where no rating was asked for
};

// Of the parcels that come to meet their planned flow, less those that no longer do.
struct NewlyMet {
    std::int64_t buildings = 0;   // 1 where only that there is one is known
    double area_sqft = 0.0;       // of all buildings whose area is known
    std::optional<double> value;  // none: none of them has one
};

// One that the yearly budget buys, on top of those before it.
struct BoughtImprovement {
    std::size_t weighed = 0;  // which one
    std::int64_t year = 0;    // from 1, in which it is bought
    planning::GainSum added, together;
};

// Only a view of the district; the rest is its own.
struct ImprovementFindings {
    const District& district;
    std::vector<WeighedImprovement> weighed;  // in order of what they gain, then as they were named
    bool stock = false;                       // nobody named one: those that the program thinks of
    AsItIs now;
    std::size_t left_out = 0;  // own proposals that are no place to choose
    planning::Weights weights;
    std::optional<double> yearly_budget;
    std::vector<BoughtImprovement> bought;  // in order of buying; none without that budget
    std::size_t beyond_budget = 0;          // that no year can keep up beside what stands before
    std::size_t idle = 0;                   // that add nothing to what stands before
};

NewlyMet newly_met(const District& district, const WeighedImprovement& weighed,
                   const std::vector<double>& building_areas);

// improvements: a row for each, in order of what they gain.
io::FeatureTable improvements(const ImprovementFindings& findings);
// improvement_gains: a point for each property that an improvement changes, at its house.
io::FeatureTable improvement_gains(const ImprovementFindings& findings);

// None without a yearly budget.
std::vector<BuildYear> build_years(const ImprovementFindings& findings);
// improvement_years: what each year buys, worked out together; no rows without a yearly budget.
io::FeatureTable improvement_years(const ImprovementFindings& findings);
// Why the others are not bought: whole sentences; empty where all are.
std::string not_bought_words(const ImprovementFindings& findings);

std::string improvements_text(const ImprovementFindings& findings);
std::string improvements_json(const ImprovementFindings& findings);

}  // namespace farwater::reports
