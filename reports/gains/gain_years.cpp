#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "reports/gains/gain_page.h"
#include "reports/proposals.h"
#include "reports/text/number_words.h"

namespace farwater::reports {
namespace {

std::string gpm_words(planning::Gain tenths) {
    return in_thousands(static_cast<double>(tenths) / 10.0);
}

// Which columns have something to say.
struct YearColumns {
    bool upkeep = false, weighted = false, ranks = false;
};

SheetBlocks::Cells year_head(const YearColumns& with) {
    SheetBlocks::Cells head{"#Year", with.ranks ? "Ranks" : "What", "#Cost"};
    if (with.upkeep) {
        head.emplace_back("#Upkeep");
    }
    head.insert(head.end(), {"#Put by", "#Adds, gpm", "#Newly met", "#Total, gpm", "#Total met"});
    if (with.weighted) {
        head.insert(head.end(), {"#Weighted", "#Total weighted"});
    }
    return head;
}

SheetBlocks::Cells year_cells(const BuildYear& year, const YearColumns& with) {
    SheetBlocks::Cells cells{fmt::format("{}", year.year),
                             year.ranks.empty() ? year.what : year.ranks, in_thousands(year.cost)};
    if (with.upkeep) {
        cells.push_back(in_thousands(year.upkeep));
    }
    cells.insert(cells.end(), {in_thousands(year.put_by), gpm_words(year.tenths),
                               fmt::format("{}", year.newly_held), gpm_words(year.tenths_together),
                               fmt::format("{}", year.newly_held_together)});
    if (with.weighted) {
        cells.insert(cells.end(),
                     {in_thousands(year.weighted), in_thousands(year.weighted_together)});
    }
    return cells;
}

}  // namespace

void add_years(SheetBlocks& sheet, double yearly_budget, const std::vector<BuildYear>& years,
               const planning::Weights& weights) {
    sheet.subheading(
        fmt::format("What each year buys, with {} a year", in_thousands(yearly_budget)));
    if (years.empty()) {
        sheet.paragraph("Nothing that gains something can be paid.");
        return;
    }
    const YearColumns with{
        std::ranges::any_of(years, [](const BuildYear& year) { return year.upkeep > 0.0; }),
        weights.by != WeighBy::parcels, !years.front().ranks.empty()};
    std::vector<SheetBlocks::Cells> rows;
    for (const BuildYear& year : years) {
        rows.push_back(year_cells(year, with));
    }
    std::string note =
        "What a year leaves is put by for the next; a year that only puts money by has no row. "
        "Totals: with the years before, worked out together.";
    if (with.ranks) {
        note += " Ranks: of the table above.";
    }
    if (with.upkeep) {
        note += " Upkeep: of all that stands by then, paid from that year on.";
    }
    if (with.weighted) {
        note += fmt::format(" Weighted: gpm x {}.", weighing_unit(weights.by));
    }
    sheet.table(year_head(with), std::move(rows)).note(note);
}

}  // namespace farwater::reports
