#include <array>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "reports/explain/explanation.h"
#include "reports/layers/routes.h"
#include "reports/text/plain_text.h"

namespace farwater::reports {
namespace {

using supply::ShuttleWorking;

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
    if (of.goes_round) {
        page.words("way round", "the fastest way would run over the hose or past the burning house",
                   "this is the fastest one that does not");
    }
    if (const LoopDetour* loop = loop_at(findings, explained.row); loop != nullptr) {
        page.words("one way round", loop->found ? fmt::format("possible, {} min and {} mi more",
                                                              plain(duration_of(loop->longer)),
                                                              plain(in_miles(loop->farther)))
                                                : std::string("none worth driving: tankers meet"));
    }
}

}  // namespace farwater::reports
