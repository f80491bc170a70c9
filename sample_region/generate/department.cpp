#include "sample_region/generate/department.h"

#include <algorithm>
#include <limits>
#include <map>
#include <set>

#include <fmt/format.h>

#include "sample_region/generate/random.h"

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

TypedTable apparatus_table() {
    TypedTable table;
    table.header = {"Unit",
                    "Station",
                    "Type",
                    "Tank gal",
                    "Pump gpm",
                    "Fill gpm",
                    "Dump gpm",
                    "Timed on",
                    "Folding tanks gal",
                    "Folding tanks",
                    "Crew",
                    "Min crew",
                    "Loaded lb",
                    "Empty lb",
                    "2.5 in ft",
                    "3 in ft",
                    "4 in ft",
                    "5 in ft",
                    "Jet siphons",
                    "Low level strainers",
                    "Hard suction ft",
                    "Rear dump only"};
    const std::vector<std::vector<std::string>> rows{
        {"E1", "S1",    "Engine", "1000", "1500", "",     "", "", "",  "",   "4",
         "2",  "38500", "",       "600",  "800",  "1000", "", "", "1", "20", ""},
        {"E2", "S1",    "Engine", "1000", "1250", "", "", "",  "",  "",   "3",
         "2",  "37000", "",       "800",  "1000", "", "", "1", "1", "20", ""},
        {"E3", "S2",    "Engine", "1000", "1250", "",    "", "", "",  "",   "3",
         "2",  "36500", "",       "600",  "",     "800", "", "", "1", "20", ""},
        {"E4", "S3", "Engine", "750", "1000", "", "", "", "",  "",   "3",
         "2",  "",   "",       "",    "",     "", "", "", "1", "20", ""},
        {"T1", "S1",    "Tanker", "2500", "500", "900", "1000", "2025-10-04", "2500", "1", "2",
         "1",  "46800", "25900",  "",     "",    "",    "",     "1",          "",     "",  "N"},
        {"T2", "S1", "Tanker", "1800", "", "", "", "", "2000", "1", "2",
         "1",  "",   "",       "",     "", "", "", "", "",     "",  "Y"},
        {"T3", "S2",    "Tanker", "3000", "750", "1000", "1200", "2025-10-04", "3000", "1",  "2",
         "1",  "54200", "29100",  "",     "",    "",     "",     "1",          "",     "20", "N"},
        {"T4", "S2", "Tanker", "2000", "", "", "", "", "", "", "2",
         "1",  "",   "",       "",     "", "", "", "", "", "", "Y"},
        {"T5", "S3",    "Tanker", "2500", "500", "850", "900", "2024-05-18", "2500", "1", "2",
         "1",  "47200", "26300",  "",     "",    "",    "",    "",           "",     "",  "N"},
        {"T6", "S3", "Tanker", "1800", "250", "", "", "", "", "", "1",
         "1",  "",   "",       "",     "",    "", "", "", "", "", "Y"},
        {"E21", "A1",    "Engine", "1000", "1500", "", "",     "", "",  "",   "4",
         "3",   "39000", "",       "",     "600",  "", "1000", "", "1", "20", ""},
        {"T21", "A1",    "Tanker", "3000", "1000", "1000", "1100", "2025-04-26", "3000", "1", "2",
         "1",   "55000", "29900",  "",     "",     "",     "",     "1",          "1",    "",  "N"},
        {"T22", "A1", "Tanker", "2000", "", "800", "900", "2025-04-26", "2100", "1", "2",
         "1",   "",   "",       "",     "", "",    "",    "",           "",     "",  "N"},
        {"E41", "M1",    "Engine", "1000", "1500", "",     "", "", "",  "",   "4",
         "2",   "38000", "",       "",     "",     "1000", "", "", "1", "20", ""},
        {"T41", "M1",    "Tanker", "3500", "1000", "1000", "1500", "2023-09-16", "3000", "1", "2",
         "1",   "61500", "32300",  "",     "",     "",     "",     "1",          "",     "",  "N"},
        {"T42", "M1", "Tanker", "1800", "", "", "", "", "", "", "2",
         "1",   "",   "",       "",     "", "", "", "", "", "", "Y"},
    };
    for (const std::vector<std::string>& row : rows) {
        table.rows.push_back({row, {}});
    }
    return table;
}

TypedTable staffing_table() {
    TypedTable table{{"UNIT", "STATION", "PERIOD", "CREW", "TURNOUT"}, {}};
    const std::vector<std::vector<std::string>> rows{
        {"", "S1", "night", "", "6"},       {"", "S2", "night", "", "6.5"},
        {"", "S3", "night", "", "7"},       {"", "S1", "weekday_day", "", "8"},
        {"", "S2", "weekday_day", "", "9"}, {"", "S3", "weekday_day", "", "9"},
        {"E1", "", "weekday_day", "2", ""}, {"E2", "", "weekday_day", "1", ""},
        {"E4", "", "weekday_day", "2", ""}, {"T4", "", "weekday_day", "0", ""},
        {"T6", "", "weekday_day", "0", ""},
    };
    for (const std::vector<std::string>& row : rows) {
        table.rows.push_back({row, {}});
    }
    return table;
}

TypedTable zone_table() {
    TypedTable table{{"ZONE", "ALARM", "UNIT"}, {}};
    // The lake is nearer to the northern neighbour, so its tankers go at once.
    const std::vector<std::pair<std::string, std::vector<std::string>>> alarms{
        {"1", {"E1", "E2", "E3", "T1", "T2", "T3", "E41", "T41", "T42"}},
        {"2", {"E4", "T4", "T5", "T6", "E21", "T21"}},
        {"3", {"T22"}},
    };
    for (const auto& [alarm, units] : alarms) {
        for (const std::string& unit : units) {
            table.rows.push_back({{"LAKE", alarm, unit}, {}});
        }
    }
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

PointRow region_station(const Township& township, const Stamp& stamp) {
    return {{stamp.prefix + "S1", stamp.prefix + " village station", "own", "N", ""},
            village_station(township)};
}

void add_region_apparatus(TypedTable& apparatus, const std::string& station, std::uint64_t seed) {
    Random random(mixed(seed, 131U));
    const TypedTable models = apparatus_table();
    // An engine, and a large and a smaller tanker of the demo's fleet under new names.
    for (const std::size_t model :
         {random.index(3), random.chance(0.5) ? std::size_t{4} : std::size_t{6}, std::size_t{8}}) {
        PointRow row = models.rows[model];
        row.cells[0] = station + "-" + row.cells[0];
        row.cells[1] = station;
        apparatus.rows.push_back(row);
    }
}

}  // namespace farwater::sample
