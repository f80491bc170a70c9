// The portable tanks in line: what each holds, which of them count, and what the draft can have.
#include <algorithm>
#include <string>

#include <fmt/format.h>

#include "reports/explain/explanation.h"
#include "reports/text/plain_text.h"

namespace farwater::reports {
namespace {

using supply::ShuttleWorking;
using supply::TankLine;

// Feet of road there, and what makes the number.
std::string why_room(const Explained& explained, const ShuttleWorking& look,
                     const DumpSiteCandidate& site) {
    const District& district = explained.district();
    const Assumptions& assumptions = district.assumptions;
    switch (look.scene.room.by) {
        case supply::RoomBy::officer:
            return "as the officer says";
        case supply::RoomBy::unknown:
            return site.straight ? "the width of the road is not known"
                                 : "off the road: nobody says how many fit";
        case supply::RoomBy::width:
            return fmt::format(
                "{} ft wide: tanks in line take {} and a lane beside them {}",
                in_plain_feet(at(district.roads, site.road).width.value_or(Length{})),
                in_plain_feet(assumptions.portable_tank_width),
                in_plain_feet(assumptions.free_lane));
        case supply::RoomBy::length:
            return fmt::format(
                "{} ft straight and level: the engine takes {}, a tank {}; {} ft wide",
                in_plain_feet(site.straight.value_or(Length{})),
                in_plain_feet(assumptions.draft_engine_length),
                in_plain_feet(assumptions.portable_tank_length),
                in_plain_feet(at(district.roads, site.road).width.value_or(Length{})));
    }
    return {};
}

void room_line(const Explained& explained, const ShuttleWorking& look, WorkedPage& page) {
    const DumpSiteCandidate& site =
        at(explained.findings.seasons.front().trips.dump_sites, look.lay.dump_site);
    page.rests_on({"portable_tanks_where_unknown", "portable_tank_length_ft",
                   "portable_tank_width_ft", "draft_engine_ft", "free_lane_ft"});
    page.number("portable tanks that fit in line", look.scene.room.tanks, Digits::none, "tanks",
                why_room(explained, look, site));
    if (!look.scene.line.left.empty()) {
        page.number("tanks that came and find no room",
                    static_cast<double>(look.scene.line.left.size()), Digits::none, "tanks");
    }
}

void tanks_of_units(const Explained& explained, const ShuttleWorking& look, WorkedPage& page) {
    const District& district = explained.district();
    const Assumptions& assumptions = district.assumptions;
    const DumpSiteCandidate& site =
        at(explained.findings.seasons.front().trips.dump_sites, look.lay.dump_site);
    bool first = true;
    for (const supply::TanksSetUp& tanks : look.scene.tanks) {
        const Unit& unit = at(district.units, tanks.unit);
        const double nominal =
            in_gallons(unit.portable_tank) * tanks.tanks / std::max(1, unit.portable_tanks);
        page.sum(fmt::format("{} portable tank{} of {}", tanks.tanks, tanks.tanks == 1 ? "" : "s",
                             on_one_line(unit.id)),
                 fmt::format("{} gal x (1 - {} / {} - {} x {})", plain(nominal, 1),
                             plain(in_inches(assumptions.portable_tank_heel)),
                             plain(in_inches(assumptions.portable_tank_depth)),
                             plain(assumptions.portable_tank_slope_loss, 3),
                             plain(site.grade_pct.value_or(0.0))),
                 in_gallons(tanks.usable), Digits::none, "gal",
                 fmt::format("up at minute {}{}", plain(tanks.up),
                             first ? "; heel over depth in inches, loss x grade in %" : ""));
        first = false;
    }
    page.rests_on({"portable_tank_heel_in", "portable_tank_depth_in", "portable_tank_slope_loss",
                   "most_portable_tanks", "start_after_arrival_min"});
}

std::string sum_of(std::span<const Volume> tanks) {
    std::string text;
    for (const Volume tank : tanks) {
        text += (text.empty() ? "" : " + ") + plain(in_gallons(tank), 1);
    }
    return text;
}

std::string why_so_many(const TankLine& line) {
    if (line.used == line.tanks.size()) {
        return "up by the start, as many as fit";
    }
    return line.siphons == 0 ? "the draft tank alone: no siphon comes that would move more"
                             : "a shorter line: what the siphon moves would hold the draft down";
}

// "800 x (2332 + 2332) / (1 x 2332)" for every tank from which on all may be full, the least of
// them.
std::string transfer_sum(const TankLine& line) {
    const auto used = std::span(line.tanks).first(line.used);
    std::string parts;
    for (std::size_t first = 1; first < used.size(); ++first) {
        std::string moves;
        for (std::size_t tank = first; tank < used.size(); ++tank) {
            moves += fmt::format("{}{} x {}", moves.empty() ? "" : " + ", tank,
                                 plain(in_gallons(used[tank]), 1));
        }
        parts +=
            fmt::format("{}{} x ({} + {}) / ({})", parts.empty() ? "" : ", ",
                        plain(line.siphon * static_cast<double>(line.siphons)),
                        plain(in_gallons(used.front()), 1), sum_of(used.subspan(first)), moves);
    }
    return "least(" + parts + ")";
}

void transfer_lines(const Explained& explained, const ShuttleWorking& look, const TankLine& line,
                    WorkedPage& page) {
    const supply::DrawnLine drawn = supply::drawn_from(line);
    if (!drawn.transfer) {
        return;
    }
    page.rests_on({"siphon_drive_gpm"});
    const Unit& carrier = at(explained.district().units, look.scene.siphon_of);
    if (!carrier.siphon) {
        page.rests_on({"siphon_gpm"});
    }
    page.words(
        "siphon", fmt::format("of {}, {} gpm", on_one_line(carrier.id), plain(line.siphon)),
        carrier.siphon ? "timed; one runs at a time" : "nobody timed it; one runs at a time");
    page.sum(
        "what it moves lets the draft have", transfer_sum(line), in_gpm(*drawn.transfer),
        Digits::one, "gpm",
        "loads go into the draft tank first; a gallon in the second tank is moved once, in the "
        "third twice");
    page.sum("the draft gives the fire at most",
             fmt::format("least({}, {} - {})", plain(*drawn.transfer), plain(*line.draft),
                         plain(line.drive_water)),
             in_gpm(*drawn.cap()), Digits::one, "gpm",
             "transfer, or strainer and pump less the siphon's drive water");
}

void draft_line(const Explained& explained, const ShuttleWorking& look, WorkedPage& page) {
    const Assumptions& assumptions = explained.district().assumptions;
    const Unit& draft = at(explained.district().units, look.scene.engines[1].unit);
    page.rests_on({"strainer_gpm"});
    if (!draft.pump) {
        page.rests_on({"engine_pump_gpm"});
    }
    page.sum("strainer and pump give at most",
             fmt::format("least({}, {})", plain(assumptions.strainer),
                         plain(draft.pump.value_or(assumptions.engine_pump))),
             in_gpm(*look.scene.line.draft), Digits::one, "gpm",
             draft.pump ? "strainer, pump" : "strainer, pump (its rating is not known)");
}

}  // namespace

void explain_tank_line(const Explained& explained, const ShuttleWorking& look, WorkedPage& page) {
    room_line(explained, look, page);
    tanks_of_units(explained, look, page);
    const TankLine& line = look.shuttle.line;
    if (line.used == 0) {
        return;
    }
    page.sum("room in portable tanks", sum_of(std::span(line.tanks).first(line.used)),
             in_gallons(supply::drawn_from(line).storage), Digits::none, "gal", why_so_many(line));
    if (look.scene.missing == Limit::none) {
        draft_line(explained, look, page);
        transfer_lines(explained, look, line, page);
    }
}

}  // namespace farwater::reports
