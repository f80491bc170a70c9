#include <algorithm>
#include <array>
#include <string>

#include <fmt/format.h>

#include "reports/drive_words.h"
#include "reports/explain/explanation.h"
#include "reports/routes.h"

namespace farwater::reports {
namespace {

using supply::ShuttleWorking;

std::string_view house_words(HousePlace from) {
    switch (from) {
        case HousePlace::address_point:
            return "the address point";
        case HousePlace::building:
            return "the building that the need goes by, or the largest";
        case HousePlace::inside_point:
            break;
    }
    return "a point inside the parcel: no building or address is known";
}

void house_lines(const Explained& explained, WorkedPage& page) {
    const District& district = explained.district();
    page.words("the house is",
               explained.is_parcel()
                   ? std::string(house_words(district.parcels[explained.row].house_from))
                   : std::string("the target's point"));
    const AccessPoint& access = explained.findings.access[explained.row];
    page.rests_on({"access_reach_ft", "frontage_slack_ft"});
    if (!access.road.valid()) {
        page.words("road", "none in reach");
        return;
    }
    const Road& road = at(district.roads, access.road);
    page.words(
        "served from", road.name.empty() ? "a road without a name" : on_one_line(road.name),
        fmt::format(
            "class {}{}", word(road.kind),
            access.doubtful ? "; doubtful: far from the house, or closed to every tanker" : ""));
    page.number("from there straight to the house", in_feet(access.off_road), Digits::none, "ft");
}

void engine_line(const Explained& explained, const EngineToHouse& engine, WorkedPage& page) {
    const Duration there = duration_of(engine.there);
    page.sum(unit_words(explained.district(), engine.unit),
             fmt::format("{} + {} drive", rolling_sum(explained, engine.unit, engine.rolls),
                         plain(there - engine.rolls)),
             in_minutes(there), Digits::two, "min");
    rest_on_turnout(explained, engine.unit, page);
}

// Minutes before the tanks are up and the draft is.
void dump_site_clocks(const Explained& explained, const ShuttleWorking& look, WorkedPage& page) {
    const Assumptions& assumptions = explained.district().assumptions;
    const supply::DumpSite& site = look.scene.set_up;
    const Duration extra = season_at(explained).extra_setup;
    page.rests_on({"setup_portable_tank_min", "setup_draft_min", "strainer_gpm"});
    page.number("first portable tank up", in_minutes(site.tanks_ready), Digits::two, "min");
    page.sum("draft ready",
             fmt::format("most({}, {}) + {} + {} of the season", plain(site.tanks_ready),
                         plain(look.scene.engines[1].at_scene), plain(assumptions.setup_draft),
                         plain(extra)),
             in_minutes(site.draft_ready), Digits::two, "min",
             "tank up and draft engine there, then set-up");
    const Unit& draft = at(explained.district().units, look.scene.engines[1].unit);
    page.sum("the draft gives at most",
             fmt::format("least({}, {})", plain(assumptions.strainer),
                         plain(draft.pump.value_or(assumptions.engine_pump))),
             in_gpm(*site.flow_cap), Digits::one, "gpm",
             draft.pump ? "strainer, pump" : "strainer, pump (its rating is not known)");
    if (!draft.pump) {
        page.rests_on({"engine_pump_gpm"});
    }
}

void tank_lines(const Explained& explained, const ShuttleWorking& look,
                const DumpSiteCandidate& site, WorkedPage& page) {
    const District& district = explained.district();
    const Assumptions& assumptions = district.assumptions;
    std::string all;
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
                             all.empty() ? "; heel over depth in inches, loss x grade in %" : ""));
        all += (all.empty() ? "" : " + ") + plain(in_gallons(tanks.usable), 0);
    }
    page.rests_on({"portable_tank_heel_in", "portable_tank_depth_in", "portable_tank_slope_loss",
                   "most_portable_tanks", "start_after_arrival_min"});
    if (look.scene.set_up.storage) {
        page.sum("room in portable tanks", all, in_gallons(*look.scene.set_up.storage),
                 Digits::none, "gal", "up by the start, as many as fit");
    }
}

std::string_view job_of(std::size_t place) {
    switch (place) {
        case 0:
            return "attacks";
        case 1:
            return "drafts at the dump site";
        default:
            return "free: may run a fill site";
    }
}

void engines_there(const Explained& explained, const ShuttleWorking& look, WorkedPage& page) {
    for (std::size_t i = 0; i < look.scene.engines.size(); ++i) {
        const supply::Arrival& engine = look.scene.engines[i];
        page.sum(unit_words(explained.district(), engine.unit),
                 fmt::format("{} + {} drive", rolling_sum(explained, engine.unit, engine.leaves),
                             plain(engine.at_scene - engine.leaves)),
                 in_minutes(engine.at_scene), Digits::two, "min", std::string(job_of(i)));
        rest_on_turnout(explained, engine.unit, page);
    }
}

std::string why_this_lay(const Explained& explained, const ShuttleWorking& look) {
    const auto& lays = explained.working.lays;
    const auto place = std::ranges::find(lays, look.lay.dump_site, &HoseLay::dump_site);
    const DumpSiteCandidate& site =
        at(explained.findings.seasons.front().trips.dump_sites, look.lay.dump_site);
    const std::string order = fmt::format(
        "{} of {} in hose reach, the officer's own places first, "
        "then the nearest",
        place - lays.begin() + 1, lays.size());
    return (site.officers_place ? "the officer's own place; " : "") + order;
}

// Both lays where two were looked at.
void lays_looked_at(const Explained& explained, WorkedPage& page) {
    const auto names = dump_site_names(explained.findings);
    if (explained.working.looked.size() < 2) {
        return;
    }
    for (const ShuttleWorking& look : explained.working.looked) {
        page.number("cautious flow from " + on_one_line(at(names, look.lay.dump_site)),
                    in_gpm(flow_of(look.supply.cautious)), Digits::one, "gpm",
                    fmt::format("{}, {} ft of hose; the better answer is taken",
                                word(look.lay.lane), plain(in_feet(look.lay.length), 0)));
    }
}

// The roads by name, each once where it is driven on; long ways are cut in the middle.
std::string roads_driven(const District& district, const RouteLine& way) {
    constexpr std::size_t most_named = 8;
    std::vector<std::string> names;
    for (const RoadIndex road : way.roads) {
        const std::string& name = at(district.roads, road).name;
        const std::string said = name.empty() ? "(no name)" : on_one_line(name);
        if (names.empty() || names.back() != said) {
            names.push_back(said);
        }
    }
    std::string text;
    for (std::size_t i = 0; i < names.size(); ++i) {
        if (names.size() > most_named && i == most_named / 2) {
            const std::size_t left_out = names.size() - most_named;
            text += fmt::format(", {} more roads", left_out);
            i += left_out - 1;
            continue;
        }
        text += (i == 0 ? "" : ", ") + names[i];
    }
    return text;
}

// The planning speeds of the roads that have no posted limit.
void rest_on_speeds(const District& district, const RouteLine& way, WorkedPage& page) {
    constexpr std::array<std::string_view, 6> keys{"speed_state_mph",      "speed_paved_mph",
                                                   "speed_paved_lane_mph", "speed_gravel_mph",
                                                   "speed_narrow_mph",     "speed_drive_mph"};
    if (district.travel_time != TravelTime::road_speeds) {
        return;
    }
    page.rests_on({"empty_speed_factor", "speed_cap_mph"});
    for (const RoadIndex index : way.roads) {
        const Road& road = at(district.roads, index);
        if (!road.posted_speed) {
            page.rests_on({keys[static_cast<std::size_t>(road.kind)]});
        }
        if (road.surface == Surface::gravel) {
            page.rests_on({"speed_gravel_mph"});
        }
    }
}

void way_lines(const District& district, const RouteLine& way, std::string_view what,
               WorkedPage& page) {
    rest_on_speeds(district, way, page);
    page.number(std::string(what) + ", driving", in_minutes(duration_of(way.time)), Digits::two,
                "min");
    page.number(std::string(what) + ", road miles", in_miles(way.length), Digits::two, "mi");
    if (!way.roads.empty()) {
        page.words(std::string(what) + ", by", roads_driven(district, way));
    }
    if (!way.unposted_bridges.empty()) {
        page.number(std::string(what) + ", bridges not posted",
                    static_cast<double>(way.unposted_bridges.size()), Digits::none, "",
                    "without a weight limit in the data");
    }
}

// Of a shuttle that is the runner-up: its roads are not looked up.
void legs_only(const Explained& explained, const ShuttleWorking& look, WorkedPage& page) {
    if (look.shuttle.incident.tankers.empty()) {
        return;
    }
    const supply::Tanker& first = look.shuttle.incident.tankers.front();
    page.part("The way of the first tanker, " + unit_words(explained.district(), first.unit));
    page.sum("round trip, driving",
             fmt::format("{} empty + {} loaded", plain(first.leg.empty), plain(first.leg.loaded)),
             in_minutes(first.leg.empty + first.leg.loaded), Digits::two, "min",
             "roads and miles are told of the shuttle that is the answer");
}

}  // namespace

void explain_first_engine(const Explained& explained, WorkedPage& page) {
    page.part("The house and the first engine");
    house_lines(explained, page);
    const Assumptions& assumptions = explained.district().assumptions;
    page.rests_on(
        {"alarm_handling_min", "turnout_staffed_min", "turnout_volunteer_min", "trip_limit_min"});
    for (const EngineToHouse& engine : explained.engines) {
        engine_line(explained, engine, page);
    }
    if (!reachable(explained.working.first_arrival)) {
        page.words("first engine", "none gets there within the trip limit");
        return;
    }
    const Duration first = duration_of(explained.working.first_arrival);
    page.number("first engine at the house", in_minutes(first), Digits::two, "min",
                "the earliest of them");
    page.words("drive times", travel_time_sentence(explained.district()));
    const supply::ShuttleWorking* look = shuttle_of(explained.working);
    if (look == nullptr) {
        return;
    }
    page.rests_on({"start_after_arrival_min", "initial_attack_after_arrival_min"});
    page.number("counted as", in_minutes(look->scene.first_arrival), Digits::one, "min",
                "down to half a minute, so that no more time is given than there is");
    page.sum("the flow has to hold from",
             fmt::format("{} + {}", plain(look->scene.first_arrival),
                         plain(assumptions.start_after_arrival)),
             in_minutes(look->shuttle.window.start), Digits::two, "min");
}

void explain_dump_site(const Explained& explained, const ShuttleWorking& look, WorkedPage& page) {
    const auto names = dump_site_names(explained.findings);
    const DumpSiteCandidate& site =
        at(explained.findings.seasons.front().trips.dump_sites, look.lay.dump_site);
    page.part("The dump site, " + on_one_line(at(names, look.lay.dump_site)));
    page.words("why here", why_this_lay(explained, look));
    lays_looked_at(explained, page);
    page.rests_on({"hose_reach_ft", "standoff_ft", "dump_site_spacing_ft", "turnaround_reach_ft"});
    page.number("hose from there to the house", in_feet(look.lay.length), Digits::none, "ft");
    page.words("lane", std::string(word(look.lay.lane)),
               look.lay.lane == LaneClass::through
                   ? "tankers drive through, with the road under the hose closed"
                   : "tankers must back or turn there, with the road under the hose closed");
    if (site.grade_pct) {
        page.number("steepest grade there", *site.grade_pct, Digits::one, "%");
    }
    engines_there(explained, look, page);
    tank_lines(explained, look, site, page);
    if (look.scene.missing == Limit::none) {
        dump_site_clocks(explained, look, page);
    } else {
        page.words("no continuous flow", std::string(word(look.scene.missing)),
                   "it takes a tanker, a second engine to draft, and a portable tank");
    }
    page.rests_on({"delivered_fraction", "late_horizon_min"});
    page.number("water on wheels", in_gallons(look.scene.on_wheels), Digits::none, "gal",
                fmt::format("in the tanks that are there by minute {}",
                            plain(explained.district().assumptions.late_horizon)));
}

void explain_ways(const Explained& explained, const ShuttleWorking& look, WorkedPage& page) {
    const Findings& findings = explained.findings;
    const auto both = round_trip_ways(findings, explained.row);
    if (!explained.supply().has_round_trip() || !both) {
        return legs_only(explained, look, page);
    }
    const RoutesInUse::OfPlace& of = findings.routes.of[explained.row];
    const RouteLine& loaded = *findings.routes.way(of.loaded);
    const RouteLine& empty = *findings.routes.way(of.empty);
    page.part("The way of the first tanker, " +
              unit_words(explained.district(), explained.supply().first_tanker));
    way_lines(explained.district(), empty, "out, empty", page);
    way_lines(explained.district(), loaded, "back, loaded", page);
    const Duration out = duration_of(empty.time);
    const Duration back = duration_of(loaded.time);
    page.sum("round trip, driving", fmt::format("{} + {}", plain(out), plain(back)),
             in_minutes(out + back), Digits::two, "min");
    page.sum("round trip, road miles",
             fmt::format("{} + {}", plain(in_miles(empty.length)), plain(in_miles(loaded.length))),
             in_miles(both->length), Digits::two, "mi");
    if (const auto percent = default_speed_percent(both->on_defaults, both->time)) {
        page.sum("of the time, on default speeds",
                 fmt::format("100 x {} s / {} s", in_tenths(both->on_defaults) / 10.0,
                             in_tenths(both->time) / 10.0),
                 *percent, Digits::none, "%", "no posted limit there; rounded up");
    }
    if (of.over_hose) {
        page.words("caution", "this way runs over the hose or past the burning house",
                   "plan a dump site on the near side");
    }
    if (const LoopDetour* loop = loop_at(findings, explained.row); loop != nullptr) {
        page.words("one way round", loop->found ? fmt::format("possible, {} min and {} mi more",
                                                              plain(duration_of(loop->longer)),
                                                              plain(in_miles(loop->farther)))
                                                : std::string("none worth driving: tankers meet"));
    }
}

}  // namespace farwater::reports
