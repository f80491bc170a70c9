#include <algorithm>

#include <fmt/format.h>

#include "analyzer/district/building_areas.h"
#include "analyzer/planning/improvement_words.h"
#include "reports/explain/source_worksheet.h"
#include "reports/gains/gain_page.h"
#include "reports/gains/gain_pages.h"
#include "reports/gains/gain_words.h"
#include "reports/origin.h"
#include "reports/proposals.h"
#include "reports/text/number_words.h"

namespace farwater::reports {
namespace {

std::string settle_words(const Improvement& improvement) {
    return improvement.to_prove.empty() ? std::string(planning::what_to_settle(improvement.kind))
                                        : improvement.to_prove;
}

// "12, of 25,000 sq ft, on properties worth 2,300,000".
std::string met_words(const NewlyMet& met) {
    std::string text = fmt::format("{}", met.buildings);
    if (met.area_sqft > 0.0) {
        text += fmt::format(", of {} sq ft", in_thousands(met.area_sqft));
    }
    if (met.value) {
        text += fmt::format(", on properties worth {}", money_words(met.value));
    }
    return text;
}

// "in year 3, where it adds 1,250 gpm over 12 properties; ..." or that it is not.
std::string bought_words(const ImprovementFindings& findings, std::size_t weighed) {
    const auto bought = std::ranges::find(findings.bought, weighed, &BoughtImprovement::weighed);
    return bought == findings.bought.end() ? std::string("not by this budget")
                                           : fmt::format("in year {}, where it adds {}",
                                                         bought->year, gained_words(bought->added));
}

std::vector<std::pair<std::string, std::string>> facts_of(const ImprovementFindings& findings,
                                                          std::size_t rank, const NewlyMet& met) {
    const WeighedImprovement& weighed = findings.weighed[rank];
    const Spending& spending = weighed.improvement.spending;
    const auto buildings = static_cast<double>(met.buildings);
    std::vector<std::pair<std::string, std::string>> facts{
        {"Gains", gained_words(weighed.sum)},
        {"Better state, worse state",
         fmt::format("{}, {}", weighed.sum.better_state, weighed.sum.worse_state)},
        {"Buildings newly met", met_words(met)},
        {"Cost, and yearly with upkeep",
         money_words(spending.cost) + ", " + money_words(spending.per_year())},
        {"The same for each building", cost_for_each(spending.cost, buildings) + ", " +
                                           cost_for_each(spending.per_year(), buildings)},
    };
    if (findings.weights.by != WeighBy::parcels) {
        facts.emplace_back("What the order goes by", weighted_words(findings.weights, weighed.sum));
    }
    if (findings.yearly_budget) {
        facts.emplace_back("Bought", bought_words(findings, rank));
    }
    if (weighed.rating) {
        facts.emplace_back("Rated with water by it, no longer",
                           fmt::format("{}, {}", weighed.rating->gained, weighed.rating->lost));
    }
    if (weighed.sum.losing > 0) {
        facts.emplace_back("Less by it", lost_words(weighed.sum));
    }
    return facts;
}

GainPage page_of(const ImprovementFindings& findings, std::size_t rank,
                 const std::vector<double>& areas) {
    const WeighedImprovement& weighed = findings.weighed[rank];
    const auto* added = std::get_if<NewSource>(&weighed.improvement.thing);
    return {.anchor = fmt::format("improvement-{}", rank + 1),
            .title = fmt::format("{}. {}", rank + 1, weighed.improvement.name),
            .statement = statement_of(weighed.sum),
            .facts = facts_of(findings, rank, newly_met(findings.district, weighed, areas)),
            .changes = weighed.changes,
            .place = added == nullptr ? nullptr : &added->source,
            .to_settle = clauses(settle_words(weighed.improvement)),
            .to_fill = {"Decided by, on", "Price from, on"},
            .worksheet = added == nullptr ? std::vector<WorkedPart>{}
                                          : source_worksheet(findings.district, added->source)};
}

void add_front(SheetBlocks& sheet, const ImprovementFindings& findings,
               const std::vector<double>& areas) {
    std::vector<std::vector<std::string>> rows;
    for (std::size_t rank = 0; rank < findings.weighed.size(); ++rank) {
        const WeighedImprovement& weighed = findings.weighed[rank];
        const Spending& spending = weighed.improvement.spending;
        const NewlyMet met = newly_met(findings.district, weighed, areas);
        rows.push_back(
            {fmt::format("{}", rank + 1), weighed.improvement.name, money_words(spending.cost),
             money_words(spending.per_year()), in_thousands(weighed.sum.gpm()),
             fmt::format("{}", weighed.sum.better_state),
             fmt::format("{}", weighed.sum.more_held()), fmt::format("{}", met.buildings),
             cost_for_each(spending.cost, static_cast<double>(met.buildings))});
        if (findings.weights.by != WeighBy::parcels) {
            rows.back().push_back(in_thousands(weighted_gain(findings.weights, weighed.sum)));
        }
    }
    SheetBlocks::Cells head{"#Rank",   "Improvement", "#Cost",      "#Yearly",   "#Gains, gpm",
                            "#Better", "#Newly met",  "#Buildings", "#Cost each"};
    sheet.begin_section("improvements", false)
        .heading("Side by side, in order of what they gain")
        .paragraph(now_words(findings.now));
    if (findings.weights.by != WeighBy::parcels) {
        sheet.paragraph(weights_statement(findings.weights));
        head.emplace_back("#Weighted");
    }
    sheet.table(std::move(head), std::move(rows))
        .note(
            "Each by itself, on top of the district as it is: two together may do more or less "
            "than both sums. A cost that nobody gave is -, and so is cost each where no building "
            "newly meets its planned flow.");
    if (findings.yearly_budget) {
        add_years(sheet, *findings.yearly_budget, build_years(findings), findings.weights);
        const std::string others = not_bought_words(findings);
        if (!others.empty()) {
            sheet.note(others);
        }
    }
    sheet.end_section();
}

}  // namespace

std::string improvement_pages(const ImprovementFindings& findings, const RunRecord& record) {
    const std::vector<double> areas = building_areas(findings.district);
    SheetBlocks sheet;
    add_front(sheet, findings, areas);
    for (std::size_t rank = 0; rank < std::min(findings.weighed.size(), most_gain_pages); ++rank) {
        add_gain_page(sheet, findings.district, page_of(findings, rank, areas));
    }
    return gains_html("What spending of each kind would do", findings.district,
                      origin_words(findings.district, record), sheet);
}

}  // namespace farwater::reports
