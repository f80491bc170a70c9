// What is chosen dealt into years: one table and one text for sources and for improvements.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "analyzer/planning/choice_problem.h"
#include "analyzer/planning/gains.h"
#include "io/feature_table.h"

namespace farwater::reports {

// A year that buys something.
struct BuildYear {
    std::int64_t year = 0;               // from 1
    std::string what;                    // ids or names
    std::string ranks;                   // of them, where names are long; else empty
    double cost = 0.0;                   // of it
    double upkeep = 0.0;                 // paid in it and later for all that stands by then
    double put_by = 0.0;                 // left at its end for the next
    planning::Gain tenths = 0;           // of a gpm, added to the years before
    planning::Gain tenths_together = 0;  // with them
    std::int64_t newly_held = 0, newly_held_together = 0;
    double weighted = 0.0, weighted_together = 0.0;

    // One more thing that it buys: what that adds to all before it, and what they are together.
    void add_gain(const planning::Weights& weights, const planning::GainSum& added,
                  const planning::GainSum& together);
};

// How a table of years is called, and what its column of the things that are bought says.
struct YearTable {
    std::string name, description;
    std::string column, about_column;
};
io::FeatureTable year_table(const YearTable& called, std::vector<BuildYear> years);

// Lines of text, the budget first.
std::string years_text(double yearly_budget, const std::vector<BuildYear>& years);

}  // namespace farwater::reports
