#include "reports/gains/gain_words.h"

#include <algorithm>
#include <cstdint>
#include <string_view>

#include <fmt/format.h>

#include "reports/headline.h"
#include "reports/proposals.h"
#include "reports/text/number_words.h"

namespace farwater::reports {
namespace {

std::string properties(std::size_t count) {
    return count == 1 ? "1 property" : in_thousands(static_cast<double>(count)) + " properties";
}

std::string improved_without(std::size_t count) {
    return count == 1
               ? "There is 1 improved property"
               : "There are " + in_thousands(static_cast<double>(count)) + " improved properties";
}

std::string newly_held_words(std::int64_t more) {
    if (more == 0) {
        return "none comes to meet its planned flow";
    }
    if (more < 0) {
        return fmt::format("{} fewer meet their planned flow", -more);
    }
    return more == 1 ? "one more meets its planned flow"
                     : fmt::format("{} more meet their planned flow", more);
}

std::string shortfall_words(const planning::GainSum& sum) {
    if (sum.tenths == 0) {
        return "It takes no shortfall away";
    }
    return sum.tenths > 0
               ? fmt::format("It takes {} gpm of shortfall away", in_thousands(sum.gpm()))
               : fmt::format("It leaves {} gpm more of shortfall", in_thousands(-sum.gpm()));
}

// Who loses is told where that is the more.
std::string holding_words(const planning::GainSum& sum) {
    const std::string more =
        sum.gaining == 0 ? "no property holds more of the flow needed"
                         : fmt::format("{} {} more of the flow needed", properties(sum.gaining),
                                       sum.gaining == 1 ? "holds" : "hold");
    return sum.tenths > 0 || sum.losing == 0
               ? more
               : fmt::format("{}, {} {} less", more, properties(sum.losing),
                             sum.losing == 1 ? "holds" : "hold");
}

constexpr std::string_view less_by_search =
    "not every choice of tankers and fill sites is tried; a crew would fill where it filled before";
constexpr std::string_view judged_earlier =
    "judged from an earlier minute, because the first engine is there sooner; no water is lost";

}  // namespace

std::string gained_words(const planning::GainSum& sum) {
    return fmt::format(
        "{} gpm over {}; {} newly meet their planned flow{}", in_thousands(sum.gpm()),
        properties(sum.gaining), sum.newly_held,
        sum.no_longer_held > 0 ? fmt::format(", {} no longer do", sum.no_longer_held) : "");
}

std::string lost_words(const planning::GainSum& sum) {
    const std::string head =
        fmt::format("{}, {} gpm in all, taken off the gain: ", properties(sum.losing),
                    in_thousands(sum.lost_gpm()));
    if (sum.losing_earlier == 0) {
        return head + std::string(less_by_search);
    }
    if (sum.losing_earlier == sum.losing) {
        return head + std::string(judged_earlier);
    }
    return head + fmt::format("{} of {} gpm {}; of the others {}", properties(sum.losing_earlier),
                              in_thousands(sum.lost_earlier_gpm()), judged_earlier, less_by_search);
}

std::string statement_of(const planning::GainSum& sum) {
    return fmt::format("{}: {}, {}, in the worst season and period of each.", shortfall_words(sum),
                       holding_words(sum), newly_held_words(sum.more_held()));
}

std::string now_words(const AsItIs& now) {
    return fmt::format(
        "Now {} of {} improved properties meet their planned flow ({}); what the others lack, each "
        "by itself, adds up to {} gpm.",
        in_thousands(static_cast<double>(now.held)),
        in_thousands(static_cast<double>(now.improved)), percent(now.held, now.improved),
        in_thousands(now.short_of_gpm));
}

std::string unpriced_words(std::size_t places) {
    return places == 0
               ? std::string()
               : fmt::format(
                     "{} no cost and cannot be bought by a budget: give cost in [proposals], "
                     "dry_hydrant_cost or cistern_cost.",
                     places == 1 ? "One place has"
                                 : in_thousands(static_cast<double>(places)) + " places have");
}

std::string counts_for_words(WeighBy by) {
    switch (by) {
        case WeighBy::parcels:
            return {};
        case WeighBy::building_area:
            return "the area of its buildings";
        case WeighBy::value:
            return "its value";
        case WeighBy::people:
            return "the people there";
    }
    return {};
}

std::string weighted_words(const planning::Weights& weights, const planning::GainSum& sum) {
    return weights.by == WeighBy::parcels
               ? std::string()
               : fmt::format("{} gpm x {}", in_thousands(weighted_gain(weights, sum)),
                             weighing_unit(weights.by));
}

std::string weights_statement(const planning::Weights& weights) {
    if (weights.by == WeighBy::parcels) {
        return {};
    }
    const std::string rule =
        fmt::format("By weight: what a property gains counts times {} (gpm x {}).",
                    counts_for_words(weights.by), weighing_unit(weights.by));
    return weights.not_known == 0 ? rule
                                  : fmt::format("{} {} without a figure, which {} for nothing.",
                                                rule, improved_without(weights.not_known),
                                                weights.not_known == 1 ? "counts" : "count");
}

std::string money_words(const std::optional<double>& money) {
    return money ? in_thousands(*money) : "-";
}

std::string cost_for_each(const std::optional<double>& cost, double gained) {
    return cost && gained > 0.0 ? in_thousands(*cost / gained) : "-";
}

std::vector<std::string> clauses(const std::string& text) {
    std::vector<std::string> list;
    std::size_t begin = 0;
    while (begin < text.size()) {
        const std::size_t end = std::min(text.find("; ", begin), text.size());
        list.push_back(text.substr(begin, end - begin));
        begin = end + 2;
    }
    return list;
}

}  // namespace farwater::reports
