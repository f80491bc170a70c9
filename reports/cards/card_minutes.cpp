// Flow by minute, the gap, what limits the flow, what to call for.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "analyzer/supply/build_up.h"
#include "analyzer/supply/incident_run.h"
#include "reports/cards/card_view.h"
#include "reports/cards/card_words.h"
#include "reports/text/number_words.h"

namespace farwater::reports {
namespace {

// What the shuttle holds from minutes after the first engine's arrival on, through the house's
// line: the cautious flow, as `run` judges it at the start.
SheetTable build_up_table(const CardView& view, const supply::ShuttleWorking& look) {
    const Duration arrival =
        look.shuttle.window.start - view.district().assumptions.start_after_arrival;
    SheetTable table{.headers = {"After arrival, min"},
                     .rows = {{fmt::format("Gpm from then, {:.0f} min",
                                           in_minutes(look.shuttle.window.duration))}}};
    std::vector<HeldFlow> flows;
    for (const int minute : supply::build_up_minutes) {
        const supply::Window window{arrival + minutes(minute), look.shuttle.window.duration};
        HeldFlow flow = supply::sustained_flow(look.shuttle.slow, window);
        flow = std::min(flow, look.line ? held(look.line->flow) : HeldFlow{});
        table.headers.push_back(fmt::format("#{}", minute));
        flows.push_back(flow);
    }
    // The attack draws on the same water until the window begins: a window that begins a little
    // sooner may hold what a later one does not. Before the start the lesser counts.
    for (std::size_t i = flows.size() - 1; i-- > 0;) {
        if (minutes(supply::build_up_minutes[i]) <
            view.district().assumptions.start_after_arrival) {
            flows[i] = std::min(flows[i], flows[i + 1]);
        }
    }
    for (const HeldFlow flow : flows) {
        table.rows.front().push_back(fmt::format("{}", planned_gpm(flow)));
    }
    return table;
}

std::string nurse_words(const CardView& view) {
    const supply::ParcelSupply& supply = view.supply();
    return supply.nurse.valid() ? fmt::format(" {} NURSES the attack engine until {}.",
                                              unit_name(view.district(), supply.nurse),
                                              supply.mode == SupplyMode::shuttle ? "the draft is up"
                                                                                 : "the hose lies")
                                : std::string();
}

std::string gap_words(const CardView& view) {
    const supply::ParcelSupply& supply = view.supply();
    const double attack = in_gpm(view.district().assumptions.initial_attack);
    if (!supply.continuous) {
        return fmt::format(
            "Tank water runs out at {:.0f} gpm and no supply takes over that goes "
            "on.",
            attack);
    }
    if (supply.gap && supply::in_tenths(*supply.gap) > 0) {
        std::string text = fmt::format(
            "GAP: at {:.0f} gpm tank water ends {} min before supply begins (minute {}). {} gal "
            "more on the first engines bridge it.",
            attack, minute_words(supply.gap), minute_words(supply.continuous),
            in_thousands(std::ceil(attack * supply::in_tenths(*supply.gap) / 10.0)));
        text += nurse_words(view);
        if (supply.gap_nursing) {
            text +=
                fmt::format(" With a tanker that feeds the engine first: {}, then {} gpm.",
                            supply::in_tenths(*supply.gap_nursing) == 0
                                ? std::string("no gap")
                                : minute_words(supply.gap_nursing) + " min without water",
                            planned_gpm(tenths_of_gpm(supply::in_gpm(supply.nursing_flow) * 10)));
        }
        return text;
    }
    return fmt::format("No gap: at {:.0f} gpm tank water lasts until supply begins (minute {}).",
                       attack, minute_words(supply.continuous)) +
           nurse_words(view);
}

std::string wheels_words(const CardView& view) {
    const auto* look = view.look();
    if (look == nullptr) {
        return {};
    }
    const Flow attack = view.district().assumptions.initial_attack;
    std::string text = fmt::format("On wheels by minute {:.0f}: {}",
                                   in_minutes(view.district().assumptions.late_horizon),
                                   gallon_words(look->scene.on_wheels));
    if (attack > gpm(0)) {
        text += fmt::format(", {:.0f} min at {:.0f} gpm",
                            std::floor(in_minutes(look->scene.on_wheels / attack)), in_gpm(attack));
    }
    return text + ".";
}

std::string_view one_more(Limit limit) {
    switch (limit) {
        case Limit::fleet:
            return "one more like the largest";
        case Limit::fill_site:
            return "one more fill place, with pump";
        case Limit::source_volume:
            return "twice the water in the source";
        case Limit::draft:
            return "a second drafting engine";
        case Limit::storage:
            return "one more portable tank";
        case Limit::transfer:
            return "one more jet siphon";
        case Limit::road_room:
            return "room for another portable tank";
        case Limit::offload:
            return "one more offload slot";
        case Limit::readiness:
            return "all set up 5 min sooner";
        case Limit::crew:
            return "people for one more fill site";
        default:
            return word(limit);
    }
}

// The best two.
std::string gains_in_words(const CardView& view) {
    const auto* look = view.look();
    if (look == nullptr) {
        return {};
    }
    struct Named {
        std::string_view what;
        HeldFlow flow;
    };
    std::vector<Named> gains;
    for (const supply::Gain& gain : look->shuttle.gains) {
        gains.push_back({one_more(gain.limit), gain.flow});
    }
    gains.push_back({"one more engine, with the others",
                     tenths_of_gpm(supply::in_gpm(view.working().supply.gain_engine) * 10)});
    std::ranges::stable_sort(gains, std::greater<>{}, &Named::flow);
    std::string text;
    for (std::size_t i = 0; i < std::min<std::size_t>(2, gains.size()); ++i) {
        if (in_tenths(gains[i].flow) == 0) {
            break;
        }
        const int gain = planned_gpm(gains[i].flow);
        text += fmt::format("{}{}: {}", text.empty() ? "" : "; ", gains[i].what,
                            gain == 0 ? "under 25 gpm" : fmt::format("+{} gpm", gain));
    }
    return text;
}

std::string_view call_for(Limit limit) {
    switch (limit) {
        case Limit::fleet:
            return "tankers";
        case Limit::fill_site:
            return "an engine or pump for another fill place";
        case Limit::source_volume:
        case Limit::source_hydraulics:
        case Limit::no_source:
            return "an engine to open another source";
        case Limit::draft:
        case Limit::engines:
            return "engines";
        case Limit::readiness:
            return "people to set up and to lay hose";
        case Limit::storage:
            return "portable tanks";
        case Limit::transfer:
            return "a jet siphon";
        case Limit::offload:
            return "people and spotters for a second offload place";
        case Limit::crew:
            return "people for another fill site";
        case Limit::supply_line:
        case Limit::hose:
            return "an engine with large hose";
        default:
            return "an engine and a tanker";
    }
}

// Engines and tankers of the list that nobody sends there at that hour.
std::string not_sent(const CardView& view) {
    constexpr std::size_t most = 10;
    std::size_t count = 0;
    std::string text;
    for (std::size_t i = 0; i < view.district().units.size(); ++i) {
        const UnitIndex unit(i);
        const bool sent =
            std::ranges::find(view.working().responders, unit, &supply::Responder::unit) !=
            view.working().responders.end();
        if (sent || view.district().units[i].kind == UnitKind::other) {
            continue;
        }
        if (++count <= most) {
            text += (text.empty() ? "" : ", ") + unit_name(view.district(), unit);
        }
    }
    return count > most ? fmt::format("{} and {} more", text, count - most) : text;
}

bool is_asked_for(const supply::Responder& responder) { return responder.on_request; }

std::string when_to_call(const CardView& view) {
    const supply::ParcelSupply& supply = view.supply();
    const bool enough = supply.state == SupplyState::held && supply.margin == Margin::firm;
    std::string text =
        enough ? "Enough as planned. If one unit fails to roll, call for "
               : "CALL ON ARRIVAL (minute " + minute_words(supply.first_engine) + ") for ";
    return text + std::string(call_for(supply.limit)) + ".";
}

}  // namespace

SheetPart first_minutes_part(const CardView& view) {
    SheetPart part{.heading = "FLOW BY MINUTE", .column = SheetColumn::right, .items = {}};
    const auto* look = view.look();
    if (view.has_shuttle()) {
        part.items.push_back(build_up_table(view, *look));
    }
    part.items.push_back(SheetText{gap_words(view), true});
    if (std::string wheels = wheels_words(view); !wheels.empty()) {
        part.items.push_back(
            SheetText{fmt::format("{} Rests on {} values.", wheels, word(view.supply().evidence))});
    }
    const supply::ParcelSupply& supply = view.supply();
    if (supply.state == SupplyState::late && supply.earliest_start) {
        part.items.push_back(SheetText{fmt::format("The needed {:.0f} gpm from minute {} on.",
                                                   in_gpm(flow_of(supply.needed)),
                                                   minute_words(supply.earliest_start))});
    }
    return part;
}

SheetPart limits_part(const CardView& view) {
    SheetPart part{
        .heading = "WHAT LIMITS IT, WHAT TO CALL FOR", .column = SheetColumn::right, .items = {}};
    part.items.push_back(
        SheetText{"Limit: " + std::string(limit_sentence(view.supply().limit)) + ".", true});
    if (std::string gains = gains_in_words(view); !gains.empty()) {
        part.items.push_back(SheetText{"Would add: " + gains + "."});
    }
    part.items.push_back(SheetText{when_to_call(view), true});
    std::string asked;
    for (const supply::Responder& responder : view.working().responders) {
        if (is_asked_for(responder)) {
            asked += (asked.empty() ? "" : ", ") + unit_name(view.district(), responder.unit);
        }
    }
    if (!asked.empty()) {
        part.items.push_back(
            SheetText{fmt::format("On request, counted from minute {} on: {}.",
                                  minute_words(duration_of(view.working().first_arrival) +
                                               view.district().assumptions.request_delay),
                                  asked)});
    }
    if (std::string others = not_sent(view); !others.empty()) {
        part.items.push_back(SheetText{"Not sent here at that hour: " + others + "."});
    }
    part.items.push_back(LinesToFill{{"Next to call, by radio"}});
    return part;
}

}  // namespace farwater::reports
