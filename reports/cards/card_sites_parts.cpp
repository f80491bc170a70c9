// The dump site and the fill sites of a card: how they are laid out and set up.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "analyzer/supply/road_room.h"
#include "reports/cards/card_view.h"
#include "reports/cards/card_words.h"
#include "reports/text/number_words.h"

namespace farwater::reports {
namespace {

using supply::ShuttleWorking;

std::string lane_words(const CardView& view, LaneClass lane) {
    std::string text = lane == LaneClass::through
                           ? "DRIVE THROUGH: no backing with the hose down."
                           : "BACK OR TURN: a spotter behind every tanker that backs.";
    if (view.place().single_file) {
        text += " SINGLE FILE: two cannot meet; one in, the next when it is out.";
    }
    if (const auto way = view.supply().single_file; supply::in_tenths(way) > 0) {
        text += fmt::format(" Next one waits {} min away.", minute_words(way));
    }
    return text;
}

std::string loop_words(const CardView& view) {
    if (view.site().worst >= view.book.routes.of.size()) {
        return {};
    }
    const RoutesInUse::OfPlace& of = view.book.routes.of[view.site().worst];
    std::string text =
        of.goes_round ? "The straight way runs over the hose: tankers go round. " : "";
    const LoopDetour* loop = view.book.routes.loop(of.loop);
    if (loop != nullptr && loop->found) {
        text += fmt::format("One way round is possible: {:.1f} min more a trip, nobody meets.",
                            in_minutes(duration_of(loop->longer)));
    }
    return text;
}

// One is never more than the people who are there; those that wait have their minute.
std::string slots_in_words(const CardView& view, const ShuttleWorking& look) {
    const supply::DumpSite& site =
        look.shuttle.incident.tankers.empty() ? look.scene.set_up : look.shuttle.incident.dump_site;
    std::string text = fmt::format("Offload slots: {}", site.offload_slots);
    for (int slot = 2; slot <= site.offload_slots; ++slot) {
        const Duration from = site.further_slots_from[static_cast<std::size_t>(slot) - 2];
        if (from > site.tanks_ready) {
            text += fmt::format(", number {} from minute {}", slot, minute_words(from));
        }
    }
    const int wanted = view.district().assumptions.offload_slots;
    return text + (site.offload_slots < wanted
                       ? fmt::format("; no people for {} more.", wanted - site.offload_slots)
                       : ".");
}

void add_tanks(const CardView& view, const ShuttleWorking& look, SheetPart& part) {
    if (look.scene.tanks.empty()) {
        part.items.push_back(SheetText{"NO PORTABLE TANK comes in time.", true});
        return;
    }
    std::string text;
    for (const supply::TanksSetUp& tanks : look.scene.tanks) {
        text += fmt::format("{}{}{} {} (minute {})", text.empty() ? "" : ", ",
                            unit_name(view.district(), tanks.unit),
                            tanks.tanks > 1 ? fmt::format(" {} tanks", tanks.tanks) : "",
                            gallon_words(tanks.usable), minute_words(tanks.up));
    }
    part.items.push_back(
        SheetText{fmt::format("Portable tanks, usable: {}. {}", text, slots_in_words(view, look))});
    if (!look.scene.line.left.empty()) {
        part.items.push_back(
            SheetText{fmt::format("Room for {} in line; {} more there stay on the trucks.",
                                  plural(static_cast<std::size_t>(look.scene.room.tanks), "tank"),
                                  look.scene.line.left.size()),
                      false});
    }
    const supply::TankLine& line = look.shuttle.line;
    if (line.tanks.size() > 1) {
        part.items.push_back(SheetText{
            line.used > 1 ? "Dump into the draft tank first; the siphon moves water towards it."
            : line.siphons > 0 ? "Draft from the first tank alone: the siphon would hold it down."
                               : "No siphon comes: only the first tank counts.",
            false});
    }
}

// "2 jet siphons (T1, T3)", of the units that come.
std::string carried(const CardView& view, const ShuttleWorking& look, int Unit::* count,
                    std::string_view what) {
    std::size_t sum = 0;
    std::string on;
    for (const auto* list : {&look.scene.engines, &look.scene.tankers}) {
        for (const supply::Arrival& arrival : *list) {
            const int here = at(view.district().units, arrival.unit).*count;
            if (here > 0) {
                sum += static_cast<std::size_t>(here);
                on += (on.empty() ? "" : ", ") + unit_name(view.district(), arrival.unit);
            }
        }
    }
    return sum == 0 ? std::string() : fmt::format("{} ({})", plural(sum, what), on);
}

std::string kit_words(const CardView& view, const ShuttleWorking& look) {
    const std::string siphons = carried(view, look, &Unit::jet_siphons, "jet siphon");
    const std::string strainers =
        carried(view, look, &Unit::low_level_strainers, "low-level strainer");
    return siphons + (siphons.empty() || strainers.empty() ? "" : ", ") + strainers;
}

// "Hard suction: 20 ft (E1), 15 ft (T3).", of the units that come; empty where none is listed.
std::string hard_suction_words(const CardView& view, const ShuttleWorking& look) {
    std::string carried;
    for (const auto* list : {&look.scene.engines, &look.scene.tankers}) {
        for (const supply::Arrival& arrival : *list) {
            const auto& suction = at(view.district().units, arrival.unit).hard_suction;
            if (suction && in_feet(*suction) > 0.0) {
                carried += fmt::format("{}{:.0f} ft ({})", carried.empty() ? "" : ", ",
                                       std::floor(in_feet(*suction) + 1e-6),
                                       unit_name(view.district(), arrival.unit));
            }
        }
    }
    return carried.empty() ? carried : "Hard suction: " + carried + ".";
}

void add_nursing(const CardView& view, const ShuttleWorking& look, SheetPart& part) {
    const supply::Incident& incident = look.shuttle.incident;
    if (!view.has_shuttle()) {
        return;
    }
    const supply::Tanker* nurse = supply::first_to_nurse(incident);
    const std::string first =
        unit_name(view.district(), (nurse != nullptr ? *nurse : incident.tankers.front()).unit);
    part.items.push_back(SheetText{
        nurse != nullptr
            ? fmt::format("{} NURSES the attack engine until the draft is up (minute {}).", first,
                          minute_words(incident.dump_site.draft_ready))
            : fmt::format("First in, {}, DUMPS into the portable tank. Draft up at minute {}.",
                          first, minute_words(incident.dump_site.draft_ready)),
        true});
}

// What is known of how the water gets to the pump.
std::string suction_words(const WaterSource& source, const supply::CountedSource& counted) {
    std::string text;
    if (source.suction.lift) {
        text += fmt::format("Lift {:.0f} ft. ", in_feet(*source.suction.lift));
    } else if (counted.suction) {
        text += fmt::format("Lift not measured, counted as {:.0f} ft. ",
                            in_feet(counted.suction->lift));
    }
    if (source.suction.hose) {
        text += fmt::format("Hard suction {}. ", feet_words(*source.suction.hose));
    }
    return text;
}

std::string evidence_words(const WaterSource& source, const supply::CountedSource& counted) {
    std::string text = fmt::format("Rests on: {}", word(counted.evidence));
    text += source.standing_by.empty() ? "" : ", " + name_words(source.standing_by);
    text += source.tested_on ? ", " + day(source.tested_on) : "";
    return text + ".";
}

std::string runs_it(const CardView& view, const supply::FillUse& fill) {
    if (!fill.run_by.engine.valid()) {
        return "opened by the first tanker";
    }
    const std::string engine = unit_name(view.district(), fill.run_by.engine);
    return fill.run_by.opened_by_tanker ? "opened by the first tanker, then run by " + engine
                                        : "run by " + engine;
}

LaneClass lane_of_fill(const CardView& view, SourceIndex source) {
    const SeasonFindings& season = at(view.book.findings.seasons, view.working().variant.season);
    for (std::size_t i = 0; i < season.fill_places.size(); ++i) {
        if (season.fill_places[i].source == source && i < season.trips.fill_lanes.size()) {
            return season.trips.fill_lanes[i];
        }
    }
    return LaneClass::dead_end;
}

void add_fill(const CardView& view, const supply::FillUse& fill, std::size_t number,
              SheetPart& part) {
    const District& district = view.district();
    const WaterSource& source = at(district.sources, fill.source);
    const auto& counted = supply::counted_source(view.book.findings.water, fill.source);
    const supply::Incident& incident = view.look()->shuttle.incident;
    const auto first =
        std::ranges::find(incident.tankers, fill.first_tanker, &supply::Tanker::unit);
    part.items.push_back(
        SheetText{fmt::format("{}  {}, {}", number, source_name(district, fill.source),
                              spoken(word(source.kind))),
                  true});
    if (first != incident.tankers.end()) {
        const supply::FillSite& site = incident.fill_sites[first->fill_site];
        part.items.push_back(SheetText{fmt::format(
            "{} gpm, {} at a time, ready at minute {}, {}. {} of the shuttle here, {} first; {} "
            "min of driving a trip.",
            in_thousands(std::floor(in_gpm(site.pump))), site.flows.value_or(site.places),
            minute_words(site.ready), runs_it(view, fill), fill.tankers,
            unit_name(district, fill.first_tanker), minute_words(fill.round_trip))});
    }
    std::string more = suction_words(source, counted);
    more += counted.usable ? gallon_words(*counted.usable) + " usable. "
                           : "Volume: unlimited, as stated. ";
    more += lane_of_fill(view, fill.source) == LaneClass::through ? "Drive through. "
                                                                  : "Back or turn there. ";
    more += evidence_words(source, counted);
    part.items.push_back(SheetText{more});
    if (!source.note.empty()) {
        part.items.push_back(SheetText{"Note: " + source.note});
    }
    part.items.push_back(LinesToFill{{"Adapter, thread", "Key, gate, holder"}});
}

}  // namespace

SheetPart dump_site_part(const CardView& view) {
    SheetPart part{.heading = "DUMP SITE", .items = {}};
    const auto* look = view.look();
    const LaneClass lane = look != nullptr ? look->scene.lane
                                           : supply::lane_beside_tanks(
                                                 view.district(), view.place(), view.place().lane);
    part.items.push_back(SheetText{lane_words(view, lane), true});
    if (std::string loop = loop_words(view); !loop.empty()) {
        part.items.push_back(SheetText{std::move(loop)});
    }
    constexpr double worth_saying_pct = 3.0;
    if (view.place().grade_pct && *view.place().grade_pct >= worth_saying_pct) {
        part.items.push_back(
            SheetText{fmt::format("Steepest grade there {:.1f} %: tanks on the "
                                  "levellest spot.",
                                  *view.place().grade_pct)});
    }
    if (look != nullptr) {
        add_tanks(view, *look, part);
        add_nursing(view, *look, part);
        const std::string kit = kit_words(view, *look);
        if (!kit.empty()) {
            part.items.push_back(SheetText{"Transfer: " + kit + "."});
        }
        if (std::string suction = hard_suction_words(view, *look); !suction.empty()) {
            part.items.push_back(SheetText{std::move(suction)});
        }
    }
    part.items.push_back(LinesToFill{{"Empties wait at"}});
    part.items.push_back(LinesToFill{{look != nullptr && !kit_words(view, *look).empty()
                                          ? "Suction, strainer"
                                          : "Transfer device, suction",
                                      "Tanks set on"}});
    return part;
}

SheetPart fill_sites_part(const CardView& view) {
    SheetPart part{.heading = "FILL SITES, IN THIS ORDER", .items = {}};
    if (!view.has_shuttle()) {
        part.items.push_back(SheetText{"No shuttle can be run: no fill site in use.", true});
        part.items.push_back(LinesToFill{{"Nearest water that command opens"}});
        return part;
    }
    const auto& fills = view.look()->shuttle.fills;
    for (std::size_t i = 0; i < fills.size(); ++i) {
        add_fill(view, fills[i], i + 1, part);
    }
    return part;
}

}  // namespace farwater::reports
