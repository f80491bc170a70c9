#include <algorithm>
#include <array>
#include <cmath>
#include <string>

#include <fmt/format.h>

#include "reports/explain/explanation.h"
#include "reports/shuttle_page.h"

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
    page.number("plan on", planned_gpm(supply.cautious), Digits::none, "gpm",
                "the cautious flow rounded down");
    page.number("needed", in_gpm_of(supply.needed), Digits::one, "gpm",
                fmt::format("for {} min", plain(supply::duration_of(supply.duration))));
    page.number("cautious flow", in_gpm_of(supply.cautious), Digits::one, "gpm",
                "the state is judged on it");
    page.number("sustained flow", in_gpm_of(supply.sustained), Digits::one, "gpm");
    const int shortfall = std::max(0, in_tenths(supply.needed) - in_tenths(supply.cautious));
    page.sum("shortfall",
             fmt::format("most(0, {:.1f} - {:.1f})", in_gpm_of(supply.needed),
                         in_gpm_of(supply.cautious)),
             shortfall / 10.0, Digits::one, "gpm");
    page.number("one tanker out", in_gpm_of(supply.one_tanker_out), Digits::one, "gpm",
                "cautious, without the tanker that is missed most");
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

std::string_view sure_words(Sure sure) {
    switch (sure) {
        case Sure::high:
            return "can be defended";
        case Sure::medium:
            return "fairly sure";
        case Sure::low:
            break;
    }
    return "hardly sure";
}

// As many as the number has, three at most.
Digits digits_of(double value) {
    const std::string text = plain(value, 3);
    const std::size_t point = text.find('.');
    return point == std::string::npos ? Digits::none
                                      : Digits{static_cast<int>(text.size() - point - 1)};
}

std::string unit_of_key(std::string_view key) {
    constexpr std::array units{"min", "mi", "ft", "in",  "gal", "gpm",
                               "mph", "lb", "hp", "psi", "pct"};
    for (const std::string_view unit : units) {
        if (key.ends_with(unit) && key.size() > unit.size() &&
            key[key.size() - unit.size() - 1] == '_') {
            return std::string(unit);
        }
    }
    return {};
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
               "the weakest of source, tanker rates and need");
    answer_flows(supply, page);
    answer_margin(explained, page);
    answer_clocks(supply, page);
    answers_elsewhen(explained, page);
}

void explain_assumptions(const Explained& explained, WorkedPage& page) {
    const Assumptions& values = explained.district().assumptions;
    if (page.assumptions().empty()) {
        return;
    }
    page.part("Assumptions used");
    for (const AssumptionRow& row : assumption_rows()) {
        if (!page.assumptions().contains(row.key)) {
            continue;
        }
        const bool given = values.is_given(row.key);
        const double value = value_in_key_unit(values, row);
        page.number(std::string(row.key), value, digits_of(value), unit_of_key(row.key),
                    given ? std::string("given by the district")
                          : fmt::format("default, {}: {}", sure_words(row.sure), row.source));
    }
}

const Season& season_at(const Explained& explained) {
    return at(explained.district().seasons, explained.working.variant.season);
}

std::string unit_words(const District& district, UnitIndex unit) {
    const Unit& it = at(district.units, unit);
    return on_one_line(it.id) + " of " + on_one_line(at(district.stations, it.station).id);
}

std::string source_words(const District& district, SourceIndex source) {
    const WaterSource& it = at(district.sources, source);
    return fmt::format("{}{}{}, {}", on_one_line(it.id), it.name.empty() ? "" : " ",
                       on_one_line(it.name), word(it.kind));
}

std::string_view hose_words(hydraulics::HoseSize size) {
    constexpr std::array<std::string_view, 4> words{"2 1/2-in", "3-in", "4-in", "5-in"};
    return words[static_cast<std::size_t>(size)];
}

std::string rolling_sum(const Explained& explained, UnitIndex unit, Duration leaves) {
    const Assumptions& assumptions = explained.district().assumptions;
    const auto& responders = explained.working.responders;
    const auto responder = std::ranges::find(responders, unit, &supply::Responder::unit);
    if (responder == responders.end()) {
        return plain(leaves);
    }
    if (responder->on_request) {
        const Duration asked = leaves - responder->rolls - assumptions.request_delay;
        return fmt::format("{} + {} asked + {} turnout", plain(asked),
                           plain(assumptions.request_delay), plain(responder->rolls));
    }
    return fmt::format("{} handling + {} turnout", plain(assumptions.alarm_handling),
                       plain(responder->rolls - assumptions.alarm_handling));
}

void rest_on_turnout(const Explained& explained, UnitIndex unit, WorkedPage& page) {
    const Assumptions& assumptions = explained.district().assumptions;
    const auto& responders = explained.working.responders;
    const auto responder = std::ranges::find(responders, unit, &supply::Responder::unit);
    if (responder == responders.end()) {
        return;
    }
    const Duration turnout =
        responder->on_request ? responder->rolls : responder->rolls - assumptions.alarm_handling;
    const auto is = [&](Duration assumed) {
        return std::abs(in_minutes(turnout - assumed)) < 1e-9;
    };
    if (responder->on_request) {
        page.rests_on({"request_delay_min"});
    }
    const bool staffed =
        at(explained.district().stations, at(explained.district().units, unit).station).staffed;
    if (responder->on_request && is(assumptions.mutual_turnout)) {
        page.rests_on({"mutual_turnout_min"});
    } else if (staffed && is(assumptions.turnout_staffed)) {
        page.rests_on({"turnout_staffed_min"});
    } else if (!staffed && is(assumptions.turnout_volunteer)) {
        page.rests_on({"turnout_volunteer_min"});
    }
}

}  // namespace farwater::reports
