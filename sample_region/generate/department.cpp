#include "sample_region/generate/department.h"

#include <algorithm>
#include <limits>
#include <map>
#include <set>

#include <fmt/format.h>

#include "sample_region/generate/village.h"

namespace farwater::sample {
namespace {

const std::vector<std::string> station_header{"STATION", "NAME", "AID", "STAFFED", "TO_GATE"};

Point beside_crossroads(Point crossroads) { return crossroads + Point{24, -18}; }

Point village_station(const Township& township) { return township.ground.village.at({232, -14}); }

const RoadLine* far_end_of_route(const Township& township, const std::string& name) {
    const RoadLine* best = nullptr;
    for (const RoadLine& road : township.roads) {
        if (township.routes[static_cast<std::size_t>(road.route)].name == name &&
            (best == nullptr || road.address_end > best->address_end)) {
            best = &road;
        }
    }
    return best;
}

// Junctions of public roads with the names that meet there.
std::map<Point, std::set<std::string>> public_junctions(const Township& township) {
    std::map<Point, std::set<std::string>> names;
    std::map<Point, int> degree;
    for (const RoadLine& road : township.roads) {
        const Route& route = township.routes[static_cast<std::size_t>(road.route)];
        if (route.kind == RoadKind::private_road || route.kind == RoadKind::seasonal ||
            route.kind == RoadKind::gated || route.kind == RoadKind::narrow) {
            continue;
        }
        for (const Point end : {road.line.front(), road.line.back()}) {
            names[end].insert(route.name);
            ++degree[end];
        }
    }
    std::erase_if(names, [&](const auto& entry) {
        return degree[entry.first] < 3 || entry.second.size() < 2;
    });
    return names;
}

}  // namespace

TypedTable station_table(const Township& township, const Gates& gates, const Stamp& stamp) {
    TypedTable table{station_header, {}};
    table.rows.push_back(
        {{stamp.prefix + "S1", "Village station", "own", "N", ""}, village_station(township)});
    for (std::size_t i = 0; i < std::min<std::size_t>(2, township.hamlets.size()); ++i) {
        table.rows.push_back({{fmt::format("{}S{}", stamp.prefix, i + 2),
                               township.hamlets[i].name + " station", "own", "N", ""},
                              beside_crossroads(township.hamlets[i].place)});
    }
    table.rows.push_back(
        {{stamp.prefix + "A1", "Larkmoor (gate at the town line)", "automatic", "Y", "3.5"},
         gates.state_east});
    table.rows.push_back(
        {{stamp.prefix + "M1", "West Tarrow (gate at the town line)", "mutual", "N", "9"},
         gates.state_north});
    return table;
}

TypedTable target_table(const Township& township) {
    TypedTable table{{"TARGET", "NAME", "GPM", "MINUTES"}, {}};
    for (const RoadLine& road : township.roads) {
        if (road.route == township.lake_route) {
            table.rows.push_back({{"X1", "Children's camp on " + township.lake_name, "1000", ""},
                                  station_at(road.line, 0).place + Point{15, 10}});
            break;
        }
    }
    const Polyline& river = township.ground.terrain.river;
    const Point bank = station_at(river, metres_along(river) * 0.3).place;
    table.rows.push_back({{"X2", "Old sawmill on the river", "1500", "180"}, bank + Point{0, -55}});
    if (const RoadLine* road = far_end_of_route(township, "State Route 62")) {
        table.rows.push_back({{"X3", "Milepost 5, State Route 62", "", ""},
                              station_at(road->line, metres_along(road->line) / 2).place});
    }
    return table;
}

TypedTable dump_place_table(const Township& township) {
    TypedTable table{{"PLACE", "NAME", "LANE", "TANKS"}, {}};
    const auto junctions = public_junctions(township);
    const auto add = [&](Point p, const std::string& name, const std::string& tanks) {
        table.rows.push_back(
            {{fmt::format("D{}", table.rows.size() + 1), name, "through", tanks}, p + Point{9, 6}});
    };
    for (const Place& hamlet : township.hamlets) {
        add(hamlet.place, hamlet.name + " crossroads", "3");
    }
    while (table.rows.size() < 9) {
        const std::pair<const Point, std::set<std::string>>* best = nullptr;
        double farthest = 900;
        for (const auto& junction : junctions) {
            double off = std::numeric_limits<double>::infinity();
            for (const PointRow& row : table.rows) {
                off = std::min(off, metres_between(row.place, junction.first));
            }
            if (off > farthest && township.outline.inside_by(junction.first) > 300) {
                best = &junction;
                farthest = off;
            }
        }
        if (best == nullptr) {
            break;
        }
        add(best->first, *best->second.begin() + " at " + *best->second.rbegin(),
            table.rows.size() % 3 == 0 ? "" : "2");
    }
    return table;
}

// Ends of town roads where the plough turns: every other one.
TypedTable proposal_table(const Township& township) {
    constexpr double apart = 2500;
    constexpr std::size_t most = 6;
    TypedTable table{{"ID", "NAME", "KIND", "COST", "GPM", "GALLONS", "LIFT_FT", "PIPE_FT",
                      "PIPE_IN", "MATERIAL", "NOTE"},
                     {}};
    for (const auto& [crossroads, roads] : public_junctions(township)) {
        const Point p = crossroads + Point{-9, -6};
        const bool near = std::ranges::any_of(
            table.rows, [&](const PointRow& row) { return metres_between(row.place, p) < apart; });
        if (near || in_village(township.ground.village, p) || table.rows.size() >= most) {
            continue;
        }
        const std::size_t number = table.rows.size() + 1;
        table.rows.push_back(
            {{fmt::format("C{}", number), "Cistern " + *roads.begin() + " at " + *roads.rbegin(),
              "cistern", number == 3 ? "" : "85000", "800", number == 5 ? "" : "30000", "10", "25",
              "8", "plastic",
              number == 3   ? "no price asked yet"
              : number == 5 ? "size to be decided"
                            : ""},
             p});
    }
    return table;
}

TypedTable turnaround_table(const Township& township) {
    TypedTable table{{"TURN", "NAME"}, {}};
    std::map<Point, int> degree;
    for (const RoadLine& road : township.roads) {
        ++degree[road.line.front()];
        ++degree[road.line.back()];
    }
    bool take = false;
    for (const RoadLine& road : township.roads) {
        const Route& route = township.routes[static_cast<std::size_t>(road.route)];
        const bool ploughed = route.kind != RoadKind::private_road &&
                              route.kind != RoadKind::seasonal && route.kind != RoadKind::gated;
        for (const Point end : {road.line.front(), road.line.back()}) {
            if (ploughed && degree[end] == 1 && township.outline.inside_by(end) > 150) {
                take = !take;
                if (take) {
                    table.rows.push_back({{fmt::format("T{}", table.rows.size() + 1),
                                           "Plough circle, " + route.name},
                                          end + Point{6, 5}});
                }
            }
        }
    }
    return table;
}

PointRow region_station(const Township& township, const Stamp& stamp) {
    return {{stamp.prefix + "S1", stamp.prefix + " village station", "own", "N", ""},
            village_station(township)};
}

}  // namespace farwater::sample
