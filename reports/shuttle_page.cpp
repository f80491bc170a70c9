#include "reports/shuttle_page.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "reports/cautions.h"
#include "reports/text/number_words.h"
#include "reports/text/plain_text.h"

namespace farwater::reports {
namespace {

using supply::Gain;
using supply::ShuttleAnswer;

// Whole gpm, rounded down.
int whole(HeldFlow flow) { return in_tenths(flow) / 10; }
int whole(Flow flow) { return static_cast<int>(std::floor(in_gpm(flow) + 1e-6)); }

std::string figure_line(std::string_view name, int flow, std::string_view what) {
    return fmt::format("  {:<16} {:>6} gpm   {}\n", name, flow, what);
}

std::string window_words(const supply::Window& window) {
    return fmt::format("from minute {:g} for {:g} min", in_minutes(window.start),
                       in_minutes(window.duration));
}

std::string heading(const ShuttlePage& page) {
    const std::size_t tankers = page.typed.tankers.size();
    const std::size_t sites = page.typed.fill_sites.size();
    return fmt::format(
        "{}: {} tanker{}, {} fill site{}\nMinutes count from the alarm. The flow has to hold "
        "{}.\n\n",
        on_one_line(page.file), tankers, tankers == 1 ? "" : "s", sites, sites == 1 ? "" : "s",
        window_words(page.typed.window));
}

std::string flows(const ShuttlePage& page) {
    const ShuttleAnswer& answer = page.answer;
    const std::string held = window_words(page.typed.window);
    std::string text = figure_line("Plan on", planned_gpm(answer.cautious),
                                   "the cautious flow rounded down, " + held);
    text += figure_line("Cautious flow", whole(answer.cautious),
                        "every stage 1.07 times as long: holds in about nine shuttles of ten");
    text += figure_line("Sustained flow", whole(answer.sustained),
                        "every stage in its stated time, never running dry");
    if (const auto worst = supply::worst_out(answer)) {
        text += figure_line("One tanker out", whole(answer.without[*worst]),
                            fmt::format("sustained without {}, the one that is missed most",
                                        on_one_line(page.typed.tankers[*worst])));
    }
    return text + "\n";
}

std::string_view state_words(SupplyState state) {
    switch (state) {
        case SupplyState::held:
            return "met by the cautious flow";
        case SupplyState::late:
            return "late: met from a later start only";
        case SupplyState::short_flow:
            return "short: not met from any start within the horizon";
        default:
            return "tank water only: no refilled load adds to what the vehicles bring";
    }
}

std::string need(const ShuttlePage& page) {
    if (!page.answer.need) {
        return {};
    }
    const supply::NeedAnswer& need = *page.answer.need;
    std::string text =
        fmt::format("Needed {:g} gpm: {}. Margin {}.\n", in_gpm(flow_of(need.needed)),
                    state_words(need.state), word(need.margin));
    text += need.earliest_start
                ? fmt::format("  earliest start from which it holds that long: minute {:.1f}\n",
                              in_minutes(*need.earliest_start))
                : std::string();
    text += need.holds_beyond
                ? fmt::format("  from minute {:g} on it does not run dry within a day\n",
                              in_minutes(page.typed.window.start))
                : fmt::format("  from minute {:g} on it lasts {:.0f} min\n",
                              in_minutes(page.typed.window.start),
                              std::floor(in_minutes(need.holds_for)));
    return text + "  (judged on the cautious flow)\n\n";
}

std::string_view limit_words(Limit limit) {
    switch (limit) {
        case Limit::none:
            return "nothing that one more of any one thing would lift";
        case Limit::fleet:
            return "the tankers there are";
        case Limit::fill_site:
            return "the fill site: its places, flow lines and pump";
        case Limit::source_volume:
            return "the water in the source";
        case Limit::draft:
            return "the flow cap: strainer, pump or supply line";
        case Limit::storage:
            return "the room in portable tanks";
        case Limit::transfer:
            return "the transfer of water between portable tanks";
        case Limit::offload:
            return "the offload slot";
        case Limit::readiness:
            return "how soon dump site and fill site are ready";
        default:
            return word(limit);
    }
}

std::string limits(const ShuttleAnswer& answer) {
    std::string text = fmt::format("What limits it: {} ({}).\n  Sustained flow gained by\n",
                                   limit_words(answer.limit), word(answer.limit));
    for (const GainWords& gain : gain_words(answer)) {
        const int more = whole(gain.gain);
        text += fmt::format("    {:<52} {:>8}\n", gain.words,
                            in_tenths(gain.gain) == 0 ? "nothing"
                            : more == 0               ? "under 1"
                                                      : fmt::format("+{} gpm", more));
    }
    return text + "\n";
}

std::size_t longest(const std::vector<std::string>& names) {
    std::size_t most = 0;
    for (const std::string& name : names) {
        most = std::max(most, letters(name_words(name)));
    }
    return most;
}

std::string tankers(const ShuttlePage& page) {
    const ShuttleAnswer& answer = page.answer;
    const std::size_t width = std::max<std::size_t>(longest(page.typed.tankers), 6);
    const std::size_t site_width = std::max<std::size_t>(longest(page.typed.fill_sites), 8);
    std::string text = "Where each tanker fills";
    text += !answer.allocated          ? ", as given:\n"
            : answer.allocation_proved ? ", the best that was found:\n"
                                       : ", the best that was found; the search was cut short:\n";
    text +=
        fmt::format("  {:<{}}  gal a load  there at  {:<{}}  min empty  loaded  gpm without it\n",
                    "tanker", width, "fills at", site_width);
    for (std::size_t t = 0; t < page.typed.tankers.size(); ++t) {
        const supply::Tanker& tanker = answer.incident.tankers[t];
        text += fmt::format(
            "  {}  {:>10.0f}  {:>8.4g}  {}  {:>9.4g}  {:>6.4g}  {:>14}\n",
            padded(page.typed.tankers[t], width), in_gallons(tanker.delivered),
            in_minutes(tanker.arrives), padded(page.typed.fill_sites[tanker.fill_site], site_width),
            in_minutes(tanker.leg.empty), in_minutes(tanker.leg.loaded), whole(answer.without[t]));
    }
    if (const auto idle = supply::better_without(answer)) {
        text += fmt::format("  {} holds the others up: let it stand by, and {} gpm can be held.\n",
                            on_one_line(page.typed.tankers[*idle]), whole(answer.without[*idle]));
    }
    return text + "\n";
}

std::string first_minutes(const ShuttlePage& page) {
    const supply::FirstMinutes& first = page.answer.first_minutes;
    const supply::InitialAttack& attack = page.answer.incident.initial_attack;
    std::string text =
        fmt::format("First minutes: tank water at minute {:.1f}; ", in_minutes(first.tank_water));
    text += first.continuous ? fmt::format("water that goes on from minute {:.1f}",
                                           in_minutes(*first.continuous))
                             : std::string("no water that goes on to the end");
    if (attack.flow > Flow{}) {
        text += first.dry > Duration{}
                    ? fmt::format(
                          "; the tank runs out before, {:.1f} min without water for the "
                          "attack of {:g} gpm",
                          in_minutes(first.dry), in_gpm(attack.flow))
                    : fmt::format("; the attack of {:g} gpm never runs dry", in_gpm(attack.flow));
    }
    return text + fmt::format(
                      ".\n  On wheels by the start: {:.0f} gal delivered and in the "
                      "engine.\n\n",
                      std::floor(in_gallons(page.answer.on_wheels)));
}

std::string build_up(const ShuttlePage& page) {
    std::string starts, sustained, cautious;
    for (const supply::HeldFrom& from : page.answer.build_up) {
        starts += fmt::format("{:>6g}", in_minutes(from.start));
        sustained += fmt::format("{:>6}", whole(from.sustained));
        cautious += fmt::format("{:>6}", whole(from.cautious));
    }
    return fmt::format(
        "Build-up: gpm that can be held for {:g} min from minute\n  {:<10}{}\n  {:<10}{}\n  "
        "{:<10}{}\n\n",
        in_minutes(page.typed.window.duration), "", starts, "sustained", sustained, "cautious",
        cautious);
}

std::string beside(const ShuttleAnswer& answer, const std::string& held) {
    return "Quoted beside it, not to plan on:\n" +
           figure_line("Handbook sum", whole(answer.handbook),
                       "each tanker alone: no queue, no storage, no start; rating sheets") +
           figure_line("Upper bound", whole(answer.bound),
                       "no order of dispatch holds more " + held) +
           figure_line("Long-run bound", whole(answer.long_run),
                       "no order of dispatch holds more in a shuttle that goes on and on") +
           figure_line("Disorder", whole(answer.disorder),
                       "long run, every stage as irregular as it well can be") +
           "\n";
}

std::string spelled(const supply::AssumedValue& value) {
    return std::visit(
        [](const auto& amount) {
            if constexpr (std::is_same_v<std::decay_t<decltype(amount)>, double>) {
                return fmt::format("{:g}", amount);
            } else {
                return fmt::format("{:g}", amount.in_base());
            }
        },
        value);
}

// Whose value it is; nothing where it is the only one of its kind.
std::string of_whom(const std::vector<std::string>& names, const supply::TypedShuttle& typed) {
    if (names.empty()) {
        return {};
    }
    const bool all = names == typed.tankers || names == typed.fill_sites;
    if (all && names.size() > 1) {
        return " (each)";
    }
    std::string text;
    for (const std::string& name : names) {
        text += (text.empty() ? "" : ", ") + on_one_line(name);
    }
    return " (" + text + ")";
}

// Equal values of several tankers or fill sites in one line.
std::string assumed(const supply::TypedShuttle& typed) {
    struct Line {
        std::string head;
        std::string_view why;
        std::vector<std::string> names;
    };
    std::vector<Line> lines;
    for (const supply::Assumed& one : typed.assumed) {
        const std::string head = fmt::format("{} = {}", one.key, spelled(one.value));
        auto found = std::ranges::find(lines, head, &Line::head);
        if (found == lines.end()) {
            found = lines.insert(found, {head, one.why, {}});
        }
        if (!one.of.empty()) {
            found->names.push_back(one.of);
        }
    }
    std::string text = "Assumed, for the scenario does not say:\n";
    for (const Line& one : lines) {
        text += fmt::format("  {:<26} {}{}\n", one.head, one.why, of_whom(one.names, typed));
    }
    return text + "\n";
}

// What a line of portable tanks makes of storage and cap; nothing where they are one pool.
std::string tank_line(const ShuttleAnswer& answer) {
    const supply::TankLine& line = answer.line;
    if (line.used == 0) {
        return {};
    }
    const supply::DrawnLine drawn = supply::drawn_from(line);
    std::string text =
        fmt::format("Portable tanks: {} of {} in line used, {:.0f} gal.\n", line.used,
                    line.tanks.size(), std::floor(in_gallons(drawn.storage)));
    if (line.siphons == 0 && line.tanks.size() > 1) {
        text += "  Without a jet siphon no water comes from a tank behind the draft tank.\n";
    }
    if (drawn.transfer) {
        text += fmt::format(
            "  A siphon that moves {:g} gpm, one move at a time, lets the draft have {} gpm; its "
            "drive\n  water, {:g} gpm, comes off the flow cap. Dump into the draft tank first.\n",
            in_gpm(line.siphon), whole(*drawn.transfer), in_gpm(line.drive_water));
    }
    return text + "\n";
}

std::string closing() {
    std::string text = "Not modelled:\n";
    for (const std::string_view what : shuttle_not_modelled()) {
        text += fmt::format("  {}\n", what);
    }
    text += "\n";
    for (const std::string_view caution : cautions) {
        text += fmt::format("{}\n", caution);
    }
    return text;
}

}  // namespace

std::vector<GainWords> gain_words(const ShuttleAnswer& answer) {
    std::vector<GainWords> list{
        {"tanker", "one more tanker like the largest", {}},
        {"fill_place", "one more fill place, with its share of the pump", {}},
        {"flow_line", "one more flow line where their number is given", answer.flow_line_gain},
        {"source_doubled", "twice the water in the sources", {}},
        {"cap_lifted", "the draft without its flow cap", {}},
        {"portable_tank", "one more portable tank of 2,500 gal", {}},
        {"siphon", "one more jet siphon that runs between portable tanks", {}},
        {"offload_slot", "one more offload slot", {}},
        {"ready_5_min_earlier", "dump site and fill sites ready 5 minutes earlier", {}},
    };
    constexpr std::array limits{Limit::fleet,         Limit::fill_site, Limit::none,
                                Limit::source_volume, Limit::draft,     Limit::storage,
                                Limit::transfer,      Limit::offload,   Limit::readiness};
    for (const Gain& gain : answer.gains) {
        const auto* at = std::ranges::find(limits, gain.limit);
        if (at != limits.end()) {
            list[static_cast<std::size_t>(at - limits.begin())].gain = gain.flow;
        }
    }
    return list;
}

std::vector<std::string_view> shuttle_not_modelled() {
    return {"roads, weights and grades: travel times are as typed", "crews and engines by job",
            "pump curves: flow_cap_gpm stands for them", "backflow and contamination",
            "several fires at once"};
}

std::string shuttle_text(const ShuttlePage& page) {
    return heading(page) + flows(page) + need(page) + limits(page.answer) + tank_line(page.answer) +
           tankers(page) + first_minutes(page) + build_up(page) +
           beside(page.answer, window_words(page.typed.window)) + assumed(page.typed) + closing();
}

}  // namespace farwater::reports
