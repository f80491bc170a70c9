#include <fmt/format.h>

#include "reports/improvements.h"
#include "reports/proposals.h"

namespace farwater::reports {

std::vector<BuildYear> build_years(const ImprovementFindings& findings) {
    std::vector<BuildYear> years;
    double upkeep = 0.0;   // of all that is bought
    double at_hand = 0.0;  // at the end of the last of the years
    std::int64_t last = 0;
    for (const BoughtImprovement& bought : findings.bought) {
        const WeighedImprovement& weighed = findings.weighed[bought.weighed];
        if (years.empty() || years.back().year != bought.year) {
            const auto passed = static_cast<double>(bought.year - last);
            at_hand += passed * (findings.yearly_budget.value_or(0.0) - upkeep);
            last = bought.year;
            years.emplace_back();
            years.back().year = bought.year;
        }
        BuildYear& year = years.back();
        const Spending& spending = weighed.improvement.spending;
        const double cost = spending.cost.value_or(0.0);
        const double more_upkeep = spending.upkeep_per_year.value_or(0.0);
        upkeep += more_upkeep;
        at_hand -= cost + more_upkeep;
        year.what += (year.what.empty() ? "" : "; ") + weighed.improvement.name;
        year.ranks += fmt::format("{}{}", year.ranks.empty() ? "" : ", ", bought.weighed + 1);
        year.cost += cost;
        year.upkeep = upkeep;
        year.put_by = at_hand;
        year.add_gain(findings.weights, bought.added, bought.together);
    }
    return years;
}

io::FeatureTable improvement_years(const ImprovementFindings& findings) {
    return year_table({"improvement_years",
                       "Improvements dealt into years by the yearly budget, worked out together, "
                       "each on top of those before it; what a year does not spend is put by for "
                       "the next.",
                       "improvements", "Their names."},
                      build_years(findings));
}

std::string not_bought_words(const ImprovementFindings& findings) {
    std::string words;
    const auto add = [&words](std::size_t count, std::string_view one, std::string_view many) {
        if (count > 0) {
            words += words.empty() ? "" : " ";
            words += count == 1 ? std::string(one) : fmt::format("{} {}", count, many);
        }
    };
    std::size_t unpriced = 0;
    std::size_t without_upkeep = 0;
    for (const WeighedImprovement& weighed : findings.weighed) {
        unpriced += !weighed.improvement.spending.cost && weighed.sum.weighted > 0 ? 1U : 0U;
    }
    for (const BoughtImprovement& bought : findings.bought) {
        const Spending& spending = findings.weighed[bought.weighed].improvement.spending;
        without_upkeep += spending.upkeep_per_year ? 0U : 1U;
    }
    add(unpriced, "1 that gains something has no cost, and no budget buys it.",
        "that gain something have no cost, and no budget buys them.");
    add(findings.beyond_budget, "1 costs more to keep up than a year leaves for it.",
        "cost more to keep up than a year leaves for them.");
    add(findings.idle, "1 would add nothing to those before it.",
        "would add nothing to those before them.");
    add(without_upkeep, "Of 1 that is bought nobody gave the upkeep: none is counted.",
        "that are bought have no upkeep given: none is counted.");
    return words;
}

}  // namespace farwater::reports
