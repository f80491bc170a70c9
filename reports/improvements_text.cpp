#include <cmath>
#include <string_view>

#include <fmt/format.h>

#include "analyzer/district/building_areas.h"
#include "analyzer/planning/improvement_words.h"
#include "reports/cautions.h"
#include "reports/headline.h"
#include "reports/improvements.h"
#include "reports/proposals.h"

namespace farwater::reports {
namespace {

constexpr std::size_t widest_name = 46;

std::string money(const std::optional<double>& amount) {
    return amount ? fmt::format("{:.0f}", *amount) : "-";
}

std::string cut(const std::string& name) {
    if (name.size() <= widest_name) {
        return name;
    }
    std::size_t end = widest_name - 3;
    while (end > 0 && (static_cast<unsigned char>(name[end]) & 0xC0U) == 0x80U) {
        --end;  // at a whole character
    }
    return name.substr(0, end) + "...";
}

std::string heading(const ImprovementFindings& findings) {
    std::string text = fmt::format(
        "{}: what each improvement would do by itself, worst season and period of each parcel\n"
        "  Now {} of {} improved parcels meet their planned flow ({}); what the others lack, each "
        "by itself, adds up to {:.0f} gpm.\n",
        findings.district.name, findings.now.held, findings.now.improved,
        percent(findings.now.held, findings.now.improved), findings.now.short_of_gpm);
    if (findings.stock) {
        text +=
            "  The district file has no [[improvement]]: here is one more of each usual thing, "
            "without its cost.\n";
    }
    return text;
}

std::string row_of(std::size_t rank, const ImprovementFindings& findings,
                   const std::vector<double>& areas) {
    const WeighedImprovement& weighed = findings.weighed[rank];
    const Improvement& improvement = weighed.improvement;
    const Spending& spending = improvement.spending;
    const std::string head =
        fmt::format("  {:>4}  {:<46} {:>9} {:>8}", rank + 1, cut(improvement.name),
                    money(spending.cost), money(spending.per_year()));
    const NewlyMet met = newly_met(findings.district, weighed, areas);
    const std::optional<double> each =
        spending.cost && met.buildings > 0
            ? std::optional(*spending.cost / static_cast<double>(met.buildings))
            : std::nullopt;
    const std::string rating =
        weighed.rating ? fmt::format(" {:>7}", static_cast<std::int64_t>(weighed.rating->gained) -
                                                   static_cast<std::int64_t>(weighed.rating->lost))
                       : "";
    return head + fmt::format(" {:>9} {:>7} {:>6} {:>6} {:>9} {:>9}{}\n",
                              std::lround(weighed.sum.gpm()), weighed.sum.better_state,
                              weighed.sum.newly_held, weighed.sum.no_longer_held, met.buildings,
                              money(each), rating);
}

bool rated(const ImprovementFindings& findings) {
    return !findings.weighed.empty() && findings.weighed.front().rating.has_value();
}

std::string table_of(const ImprovementFindings& findings) {
    std::string text =
        fmt::format("\n  {:>4}  {:<46} {:>9} {:>8} {:>9} {:>7} {:>6} {:>6} {:>9} {:>9}{}\n", "rank",
                    "improvement", "cost", "yearly", "gain gpm", "better", "met", "unmet",
                    "buildings", "cost each", rated(findings) ? "  rating" : "");
    const std::vector<double> areas = building_areas(findings.district);
    for (std::size_t rank = 0; rank < findings.weighed.size(); ++rank) {
        text += row_of(rank, findings, areas);
    }
    text +=
        "  gain gpm: what more of the needed flow is held, over all parcels, less what is lost; "
        "better: parcels of a\n  better state; met, unmet: parcels that come to meet their planned "
        "flow, that no longer do; buildings:\n  those on them, the difference; cost each: cost by "
        "building, - where a cost is not given or none is met";
    text += rated(findings) ? ";\n  rating: parcels that come to be rated with water, less those "
                              "that no longer are\n"
                            : "\n";
    return text + "  Each by itself: two together may do more or less than both sums.\n";
}

std::string less_line(const WeighedImprovement& weighed, std::size_t count, double gpm,
                      std::string_view ending) {
    return count == 0
               ? std::string()
               : fmt::format(
                     "  {}: {} less by it, {:.0f} gpm in all{}.\n", weighed.improvement.name,
                     count == 1 ? std::string("1 answer is") : fmt::format("{} answers are", count),
                     gpm, ending);
}

// Said, for nobody would believe it: more of a thing lowers no flow.
std::string losses_of(const ImprovementFindings& findings) {
    std::string earlier;
    std::string by_search;
    for (const WeighedImprovement& weighed : findings.weighed) {
        const planning::GainSum& sum = weighed.sum;
        earlier += less_line(weighed, sum.losing_earlier, sum.lost_earlier_gpm(),
                             ", judged from an earlier minute");
        by_search += less_line(weighed, sum.losing - sum.losing_earlier,
                               sum.lost_gpm() - sum.lost_earlier_gpm(), "");
    }
    earlier += earlier.empty() ? ""
                               : "  There the first engine comes sooner, so that flow has to begin "
                                 "sooner, when fewer tankers may\n  have come: no water is lost. "
                                 "The gains are less these.\n";
    by_search += by_search.empty() ? ""
                                   : "  Where more lowers a flow, not every choice of tankers and "
                                     "fill sites was tried; a crew\n  would run it as before. The "
                                     "gains are less these.\n";
    return earlier + by_search;
}

// Likewise: a plan is chosen by what it holds, and may begin later than the one before.
std::string rating_losses_of(const ImprovementFindings& findings) {
    std::string text;
    for (const WeighedImprovement& weighed : findings.weighed) {
        if (weighed.rating && weighed.rating->lost > 0) {
            text +=
                fmt::format("  {}: {} come to be rated with water, {} no longer are.\n",
                            weighed.improvement.name, weighed.rating->gained, weighed.rating->lost);
        }
    }
    return text.empty()
               ? text
               : text +
                     "  Where more takes a rating away: the first engine comes sooner and flow is "
                     "judged from an earlier\n  minute, or plans are searched, not all of them "
                     "tried; a crew would begin as before.\n";
}

std::string weights_of(const ImprovementFindings& findings) {
    const planning::Weights& weights = findings.weights;
    return weights.by == WeighBy::parcels
               ? std::string()
               : fmt::format(
                     "  In the order of gpm x {}; {} improved parcels have no such figure and "
                     "count for nothing.\n",
                     weighing_unit(weights.by), weights.not_known);
}

std::string years_of(const ImprovementFindings& findings) {
    if (!findings.yearly_budget) {
        return {};
    }
    const std::string others = not_bought_words(findings);
    return years_text(*findings.yearly_budget, build_years(findings)) +
           (others.empty() ? "" : "  " + others + "\n");
}

std::string settle_of(const ImprovementFindings& findings) {
    std::string text = "\n  Before it helps:\n";
    for (const WeighedImprovement& weighed : findings.weighed) {
        const Improvement& improvement = weighed.improvement;
        text +=
            fmt::format("  {}: {}.\n", improvement.name,
                        improvement.to_prove.empty() ? planning::what_to_settle(improvement.kind)
                                                     : std::string_view(improvement.to_prove));
    }
    return text + "\n";
}

}  // namespace

std::string improvements_text(const ImprovementFindings& findings) {
    std::string text = heading(findings);
    if (findings.left_out > 0) {
        text += fmt::format(
            "  {} of your own [proposals] can be no source as they are; `farwater propose` says "
            "why.\n",
            findings.left_out);
    }
    if (findings.weighed.empty()) {
        return text + "\n  There is nothing to compare.\n";
    }
    text += table_of(findings) + weights_of(findings) + losses_of(findings) +
            rating_losses_of(findings) + years_of(findings) + settle_of(findings);
    for (const std::string_view caution : cautions) {
        text += fmt::format("{}\n", caution);
    }
    return text;
}

}  // namespace farwater::reports
