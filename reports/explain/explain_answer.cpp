#include <algorithm>
#include <string>

#include <fmt/format.h>

#include "reports/explain/explanation.h"
#include "reports/text/number_words.h"
#include "reports/text/plain_text.h"

namespace farwater::reports {
namespace {

using supply::ParcelSupply;

double in_gpm_of(HeldFlow flow) { return in_gpm(flow_of(flow)); }

std::string why_words(const Explained& explained) {
    const ParcelSupply& supply = explained.supply();
    const Assumptions& assumptions = explained.district().assumptions;
    const std::string window = fmt::format("{} min", supply::in_tenths(supply.duration) / 10.0);
    switch (supply.state) {
        case SupplyState::held:
            return "the cautious flow meets the need, for " + window;
        case SupplyState::late:
            return "the need is met from a later start only";
        case SupplyState::short_flow:
            return fmt::format("some flow holds by minute {}, but not the need",
                               plain(std::max(assumptions.late_horizon, minutes(0))));
        case SupplyState::tank_only:
            return supply.limit == Limit::none
                       ? "no flow that goes on: only the water that the vehicles bring"
                       : fmt::format("no flow that goes on ({}): only the water on wheels",
                                     word(supply.limit));
        case SupplyState::unreached:
            return "no engine gets to the house";
        case SupplyState::no_building:
            return "there is no building, so nothing is needed";
        case SupplyState::unknown:
            return "something that the answer rests on is missing";
    }
    return {};
}

void answer_flows(const ParcelSupply& supply, WorkedPage& page) {
    page.number("plan on", planned_gpm(supply.cautious, supply.needed), Digits::none, "gpm",
                "the cautious flow rounded down, but not below a need that it meets");
    page.number("needed", in_gpm_of(supply.needed), Digits::one, "gpm",
                fmt::format("for {} min", plain(supply::duration_of(supply.duration))));
    page.number("cautious flow", in_gpm_of(supply.cautious), Digits::one, "gpm",
                "the state is judged on it");
    page.number("sustained flow", in_gpm_of(supply.sustained), Digits::one, "gpm");
    const HeldFlow from_start = supply::flow_from_start(supply);
    page.sum(
        "shortfall",
        fmt::format("most(0, {:.1f} - {:.1f})", in_gpm_of(supply.needed), in_gpm_of(from_start)),
        in_gpm_of(supply::shortfall_of(supply)), Digits::one, "gpm",
        from_start > supply.cautious ? "the other way holds that from the start" : "");
    page.number("one tanker out", in_gpm_of(supply.one_tanker_out), Digits::one, "gpm",
                "cautious, without the tanker that is missed most and what it carries");
    page.number("later", in_gpm_of(supply.later), Digits::one, "gpm",
                "cautious, from the late horizon on");
    if (supply.runner_up != SupplyMode::none) {
        page.number("runner-up: " + std::string(word(supply.runner_up)),
                    in_gpm_of(supply.runner_up_cautious), Digits::one, "gpm",
                    "cautious; worked out below as well");
    }
}

void answer_margin(const Explained& explained, WorkedPage& page) {
    const ParcelSupply& supply = explained.supply();
    page.rests_on({"firm_margin"});
    if (in_tenths(supply.needed) > 0) {
        page.sum(
            "cautious over needed",
            fmt::format("{:.1f} / {:.1f}", in_gpm_of(supply.cautious), in_gpm_of(supply.needed)),
            static_cast<double>(in_tenths(supply.cautious)) / in_tenths(supply.needed), Digits::two,
            "",
            fmt::format("firm from {} on, thin from 1 on",
                        plain(explained.district().assumptions.firm_margin)));
    }
}

void clock(WorkedPage& page, std::string what, const std::optional<supply::TenthsMinute>& time,
           std::string note) {
    if (time) {
        page.number(std::move(what), supply::in_tenths(*time) / 10.0, Digits::one, "min",
                    std::move(note));
    }
}

void answer_clocks(const ParcelSupply& supply, WorkedPage& page) {
    clock(page, "first engine at the house", supply.first_engine, "minutes count from the alarm");
    clock(page, "tank water on the fire", supply.tank_water, "the first engine's own tank");
    clock(page, "water that goes on, from", supply.continuous, "");
    clock(page, "gap without water", supply.gap, "between the two");
    clock(page, "earliest start for the need", supply.earliest_start, "cautious");
}

void answers_elsewhen(const Explained& explained, WorkedPage& page) {
    for (const AnswerIn& answer : explained.answers) {
        if (explained.answers.size() > 1) {
            const District& district = explained.district();
            page.number(fmt::format("in {}, {}: {}",
                                    on_one_line(at(district.seasons, answer.variant.season).name),
                                    on_one_line(at(district.periods, answer.variant.period).name),
                                    word(answer.state)),
                        in_gpm_of(answer.cautious), Digits::one, "gpm",
                        fmt::format("cautious, {}", word(answer.mode)));
        }
    }
}

}  // namespace

void explain_answer(const Explained& explained, WorkedPage& page) {
    const ParcelSupply& supply = explained.supply();
    page.part("The answer");
    page.words("state", std::string(word(supply.state)), why_words(explained));
    if (supply.state == SupplyState::no_building) {
        return;
    }
    if (supply.state == SupplyState::unknown) {
        if (supply.reason) {
            page.words("reason", std::string(name_of(*supply.reason)),
                       std::string(kind_of(*supply.reason).what) + " " +
                           std::string(kind_of(*supply.reason).mend));
        }
        return;
    }
    page.words("margin", std::string(word(supply.margin)));
    page.words("water comes by", std::string(word(supply.mode)));
    page.words("what limits it", std::string(word(supply.limit)));
    page.words("evidence", std::string(word(supply.evidence)),
               "the weakest of source, tanker rates, engines and need");
    answer_flows(supply, page);
    answer_margin(explained, page);
    answer_clocks(supply, page);
    answers_elsewhen(explained, page);
}

}  // namespace farwater::reports
