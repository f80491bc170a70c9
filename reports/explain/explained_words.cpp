#include <algorithm>
#include <array>
#include <cmath>
#include <string>

#include <fmt/format.h>

#include "reports/explain/explanation.h"
#include "reports/text/plain_text.h"

namespace farwater::reports {

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

const supply::ShuttleWorking* shuttle_of(const supply::Working& working) {
    const supply::ShuttleWorking* best = nullptr;
    for (const supply::ShuttleWorking& look : working.looked) {
        if (best == nullptr || supply::worse(supply::PlanOrder{}, best->supply, look.supply)) {
            best = &look;
        }
    }
    return best;
}

}  // namespace farwater::reports
