#include "tests/bench/support/rural_district.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "tests/routing/random_district.h"

namespace farwater::bench {
namespace {

using test::Dice;

constexpr std::size_t block = 16;       // junctions from one main road to the next
constexpr double spacing = 350.0;       // metres, on average
constexpr double extra_roads = 0.24;    // of the roads that a tree does not need, these are there
constexpr std::size_t state_roads = 4;  // every so many main roads

// Metres from the first row: short steps beside main roads, long ones between.
std::vector<double> positions(std::size_t side) {
    std::vector<double> at(side, 0.0);
    for (std::size_t i = 1; i < side; ++i) {
        const double part = (static_cast<double>((i - 1) % block) + 0.5) / block;
        at[i] = at[i - 1] + spacing * (0.35 + 1.3 * (1.0 - std::abs(2.0 * part - 1.0)));
    }
    return at;
}

std::vector<Point> junctions(std::size_t side, Dice& dice) {
    const std::vector<double> at = positions(side);
    std::vector<Point> points;
    points.reserve(side * side);
    for (std::size_t y = 0; y < side; ++y) {
        for (std::size_t x = 0; x < side; ++x) {
            points.push_back({at[x] + dice.between(-35, 35), at[y] + dice.between(-35, 35)});
        }
    }
    return points;
}

// Of the road along row or column `line`.
RoadClass class_of(std::size_t line, Dice& dice) {
    if (line % block == 0) {
        return line % (block * state_roads) == 0 ? RoadClass::state : RoadClass::paved;
    }
    return dice.one_in(2) ? RoadClass::gravel
                          : (dice.one_in(2) ? RoadClass::paved_lane : RoadClass::narrow);
}

void add_road(District& district, Point a, Point b, RoadClass kind, OneWay one_way) {
    Road road;
    road.row = static_cast<std::uint32_t>(district.roads.size());
    road.line = {a, b};
    road.kind = kind;
    road.one_way = one_way;
    district.roads.push_back(std::move(road));
}

// Every junction is joined to its neighbour in the west or in the north: a tree. To the other one
// where a main road runs there, and here and there besides.
void add_roads(District& district, std::size_t side, Dice& dice) {
    const std::vector<Point> points = junctions(side, dice);
    district.roads.reserve(points.size() * 13 / 10);
    for (std::size_t y = 0; y < side; ++y) {
        for (std::size_t x = 0; x < side; ++x) {
            const bool west_in_tree = y == 0 || (x > 0 && dice.one_in(2));
            const bool extra = dice.between(0, 1) < extra_roads;
            const OneWay one_way = dice.one_in(6) ? OneWay::forward : OneWay::both;
            const Point here = points[y * side + x];
            if (x > 0 && (west_in_tree || y % block == 0 || extra)) {
                add_road(district, here, points[y * side + x - 1], class_of(y, dice),
                         west_in_tree || y % block == 0 ? OneWay::both : one_way);
            }
            if (y > 0 && (!west_in_tree || x % block == 0 || extra)) {
                add_road(district, here, points[(y - 1) * side + x], class_of(x, dice),
                         !west_in_tree || x % block == 0 ? OneWay::both : one_way);
            }
        }
    }
}

Point beside_a_road(const District& district, Dice& dice) {
    const Polyline& line = dice.of(district.roads).line;
    const double along = dice.between(0, 1);
    const double dx = line[1].x - line[0].x;
    const double dy = line[1].y - line[0].y;
    const double aside = dice.between(15, 90) * (dice.one_in(2) ? 1 : -1) / std::hypot(dx, dy);
    return {line[0].x + along * dx - aside * dy, line[0].y + along * dy + aside * dx};
}

void add_fleet(District& district) {
    district.stations.push_back({"station", "station", 0, district.roads.front().line.front()});
    for (const UnitKind kind : {UnitKind::engine, UnitKind::tanker, UnitKind::tanker}) {
        Unit unit;
        unit.id = "unit " + std::to_string(district.units.size());
        unit.kind = kind;
        unit.tank = gallons(kind == UnitKind::tanker ? 2500 : 750);
        unit.station = StationIndex(0);
        district.units.push_back(unit);
    }
}

}  // namespace

District rural_district(const RuralSize& size) {
    Dice dice(size.seed);
    District district;
    const auto side = static_cast<std::size_t>(std::lround(std::sqrt(size.nodes)));
    add_roads(district, std::max<std::size_t>(side, 2), dice);
    district.parcels.resize(size.parcels);
    for (std::size_t i = 0; i < size.parcels; ++i) {
        district.parcels[i].id = std::to_string(i);
        district.parcels[i].row = static_cast<std::uint32_t>(i);
        district.parcels[i].house = beside_a_road(district, dice);
    }
    for (std::size_t i = 0; i < size.sources; ++i) {
        WaterSource source;
        source.id = std::to_string(i);
        source.place = beside_a_road(district, dice);
        source.standing = Standing::declared;
        district.sources.push_back(std::move(source));
    }
    add_fleet(district);
    district.seasons.push_back({.name = "all_year"});
    district.periods.push_back({"any_time", {}, {}});
    district.assumptions.trip_limit = minutes(20);
    return district;
}

}  // namespace farwater::bench
