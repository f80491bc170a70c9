// Small random districts with every rule of the roads in them, the same for the same seed.
#pragma once

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdint>
#include <limits>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "analyzer/district/district.h"

namespace farwater::test {

// A generator with the same numbers on every machine (splitmix64, Steele, Lea and Flood 2014).
class Dice {
public:
    explicit Dice(std::uint64_t seed) : state_(seed) {}

    std::uint64_t next() {
        std::uint64_t z = state_ += 0x9e3779b97f4a7c15U;
        z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9U;
        z = (z ^ (z >> 27U)) * 0x94d049bb133111ebU;
        return z ^ (z >> 31U);
    }
    std::size_t below(std::size_t count) { return next() % count; }
    bool one_in(std::size_t count) { return below(count) == 0; }
    double between(double low, double high) {
        return low + (high - low) * static_cast<double>(next() >> 11U) * 0x1.0p-53;
    }
    template <class Things>
    const auto& of(const Things& things) {
        return things[below(things.size())];
    }
    template <class Things>
    Things shuffled(Things things) {
        for (std::size_t i = things.size(); i > 1; --i) {
            std::swap(things[i - 1], things[below(i)]);
        }
        return things;
    }

private:
    std::uint64_t state_;
};

struct RandomPlaces {
    std::vector<Point> junctions;
    std::set<std::pair<Point, Point>> connected;  // no two roads take the same stretch

    // False when the stretch was taken before.
    bool connect(Point a, Point b) { return connected.insert(std::minmax(a, b)).second; }

    Point anywhere(Dice& dice) const {
        return {dice.between(-100, 2100), dice.between(-100, 2100)};
    }
};

inline Road random_road(Dice& dice, RandomPlaces& places, std::size_t row) {
    Road road;
    road.row = static_cast<std::uint32_t>(row);
    road.name = "road " + std::to_string(row);
    Point last = dice.of(places.junctions);
    road.line.push_back(last);
    const std::size_t stretches = 1 + dice.below(3);
    for (std::size_t i = 0; i < stretches; ++i) {
        const Point next = dice.of(places.junctions);
        if (next == last || !places.connect(last, next)) {
            continue;
        }
        if (dice.one_in(3)) {
            road.line.push_back(places.anywhere(dice));  // a bend
        }
        road.line.push_back(next);
        last = next;
    }
    road.kind = static_cast<RoadClass>(dice.below(6));
    road.access = dice.one_in(4) ? static_cast<RoadAccess>(dice.below(5)) : RoadAccess::open;
    road.one_way = dice.one_in(4) ? static_cast<OneWay>(1 + dice.below(2)) : OneWay::both;
    road.bridge = dice.one_in(8);
    road.rail_crossing = dice.one_in(15);
    if (dice.one_in(4)) {
        road.posted_speed = mph(dice.between(5, 60));
    }
    if (dice.one_in(5)) {
        road.weight_limit = pounds(dice.between(15'000, 60'000));
    }
    if (dice.one_in(8)) {
        road.width = feet(dice.between(7, 12));
    }
    if (dice.one_in(6)) {
        road.maintained = MonthSet{};
        road.maintained.include(std::chrono::July);
    }
    return road;
}

inline void add_fleet(District& district, Dice& dice) {
    for (const UnitKind kind :
         {UnitKind::engine, UnitKind::tanker, UnitKind::tanker, UnitKind::tanker}) {
        Unit unit;
        unit.id = "unit " + std::to_string(district.units.size());
        unit.kind = kind;
        unit.tank = gallons(dice.between(800, 3500));
        if (dice.one_in(2)) {
            unit.loaded = pounds(dice.between(20'000, 65'000));
        }
        if (dice.one_in(3)) {
            unit.top_speed = mph(dice.between(30, 60));
        }
        unit.station = StationIndex(0);
        district.units.push_back(unit);
    }
}

inline void add_seasons(District& district) {
    Season summer;
    summer.name = "summer";
    summer.months = MonthSet{};
    summer.months.include(std::chrono::July);
    Season winter;
    winter.name = "winter";
    winter.months = MonthSet{};
    winter.months.include(std::chrono::January);
    winter.speed_factor = 0.75;
    winter.closed_access = {RoadAccess::gated};
    district.seasons = {summer, winter};
    district.periods.push_back({"any_time", {}, {}});
}

// Hills up to 120 m, in cells of 40 m, with a hole in the data and nothing in the far south.
inline void add_hills(District& district, Dice& dice) {
    ElevationGrid& grid = district.elevation;
    grid.north_west = {-200, 2200};
    grid.cell = 40;
    grid.columns = 61;
    grid.rows = 55;
    const double steep = dice.between(0.001, 0.006);
    const double phase = dice.between(0, 6);
    for (std::size_t row = 0; row < grid.rows; ++row) {
        for (std::size_t column = 0; column < grid.columns; ++column) {
            const double x = 40.0 * static_cast<double>(column);
            const double y = 40.0 * static_cast<double>(row);
            grid.metres.push_back(static_cast<float>(
                60.0 * std::sin(steep * x + phase) * std::cos(steep * y) + dice.between(-1, 1)));
        }
    }
    grid.metres[20 * grid.columns + 30] = std::numeric_limits<float>::quiet_NaN();
}

inline void add_what_slows(District& district, Dice& dice) {
    for (Road& road : district.roads) {
        if (dice.one_in(4)) {
            road.surface = dice.one_in(2) ? Surface::gravel : Surface::paved;
        }
        road.tunnel = dice.one_in(20);
    }
    for (Unit& unit : district.units) {
        if (dice.one_in(2)) {
            unit.power = horsepower(dice.between(100, 450));
        }
    }
}

// About 2 km square: some 12 junctions, 20 roads, 30 parcels, 5 sources, 2 stations.
inline District random_district(std::uint64_t seed) {
    Dice dice(seed);
    District district;
    add_seasons(district);
    RandomPlaces places;
    for (std::size_t i = 0; i < 6 + dice.below(12); ++i) {
        places.junctions.push_back({dice.between(0, 2000), dice.between(0, 2000)});
    }
    for (std::size_t i = 0; i < 8 + dice.below(16); ++i) {
        Road road = random_road(dice, places, i);
        if (road.line.size() > 1) {
            district.roads.push_back(std::move(road));
        }
    }
    for (std::size_t i = 0; i < 30; ++i) {
        Parcel parcel;
        parcel.id = "parcel " + std::to_string(i);
        parcel.house = places.anywhere(dice);
        if (dice.one_in(6)) {
            parcel.setback = feet(dice.between(0, 600));
        }
        district.parcels.push_back(parcel);
    }
    for (std::size_t i = 0; i < 5; ++i) {
        WaterSource source;
        source.id = "source " + std::to_string(i);
        source.place = dice.one_in(3) ? dice.of(places.junctions) : places.anywhere(dice);
        source.standing = Standing::declared;
        district.sources.push_back(source);
    }
    for (std::size_t i = 0; i < 2; ++i) {
        Station station;
        station.id = "station " + std::to_string(i);
        station.place = places.anywhere(dice);
        district.stations.push_back(station);
        DumpSitePlace place;
        place.id = "place " + std::to_string(i);
        place.place = dice.one_in(2) ? dice.of(places.junctions) : places.anywhere(dice);
        district.dump_site_places.push_back(place);
    }
    add_fleet(district, dice);
    Assumptions& assumptions = district.assumptions;
    assumptions.join_tolerance = metres(0);
    assumptions.fill_sites_per_class = 8;
    assumptions.private_roads_usable = dice.one_in(2);
    assumptions.gated_roads_usable = true;
    assumptions.hose_reach = feet(1500);
    add_what_slows(district, dice);
    if (seed % 2 == 0) {
        add_hills(district, dice);
    }
    return district;
}

}  // namespace farwater::test
