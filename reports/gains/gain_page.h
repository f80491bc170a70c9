// One thing that could be done, on a page to print: what it gains, for whom, what it costs, and
// what must be asked, settled and proved first.
#pragma once

#include <span>
#include <string>
#include <utility>
#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/planning/gains.h"
#include "analyzer/planning/weights.h"
#include "reports/build_years.h"
#include "reports/explain/worked_page.h"
#include "reports/print/sheet_blocks.h"

namespace farwater::reports {

// Only a view of the changes.
struct GainPage {
    std::string anchor;     // ours: letters, digits and hyphens
    std::string title;      // "1. Dry hydrant at Millrace Pond"
    std::string statement;  // what it does, in one sentence
    std::vector<std::pair<std::string, std::string>> facts;
    std::span<const planning::Change> changes;
    const WaterSource* place = nullptr;  // null: it is at no place of its own
    std::vector<std::string> to_settle;  // clauses
    std::vector<std::string> to_fill;    // lines for somebody's hand
    std::vector<WorkedPart> worksheet;   // may be empty
};

// Who gains and who loses, at their houses, and the place.
Drawing gain_map(const District& district, const GainPage& page);

// Adds a section on a page of its own.
void add_gain_page(SheetBlocks& sheet, const District& district, const GainPage& page);

// A table of what each year buys, with so much to spend, under a heading of its own.
void add_years(SheetBlocks& sheet, double yearly_budget, const std::vector<BuildYear>& years,
               const planning::Weights& weights);

// What several things gain together, one more at a time: total gpm by how many.
Drawing gain_curve(const std::vector<double>& total_gpm, const std::vector<std::string>& names);

// A whole document of such pages, front page first.
std::string gains_html(const std::string& title, const District& district,
                       const std::string& origin, const SheetBlocks& sheet);

}  // namespace farwater::reports
