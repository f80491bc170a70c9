// The invented township itself: land, roads, houses, and the rows that they become.
#include <algorithm>
#include <map>
#include <set>
#include <string>
#include <vector>

#include <catch2/catch.hpp>
#include <cpl_error.h>
#include <ogr_geometry.h>

#include "sample_region/generate/department.h"
#include "sample_region/generate/random.h"
#include "sample_region/generate/region.h"

using namespace farwater;
using namespace farwater::sample;

namespace {

bool is_valid(const Polygons& parts) {
    OGRMultiPolygon all;
    for (const Polygon& part : parts) {
        OGRPolygon polygon;
        for (const Polyline& ring : part.rings) {
            OGRLinearRing closed;
            for (const Point p : ring) {
                closed.addPoint(p.x, p.y);
            }
            closed.closeRings();
            polygon.addRing(&closed);
        }
        all.addGeometry(&polygon);
    }
    const CPLErrorHandlerPusher quiet(CPLQuietErrorHandler);  // it would print where
    return all.IsValid() != FALSE;
}

const Township& demo() {
    static const Township township = build_township(alone(demo_parcels, demo_seed));
    return township;
}

// Roads that can be reached from the first by shared ends.
std::size_t reached_from_first(const std::vector<RoadRow>& roads) {
    std::multimap<Point, std::size_t> at;
    for (std::size_t i = 0; i < roads.size(); ++i) {
        at.emplace(roads[i].line.front(), i);
        at.emplace(roads[i].line.back(), i);
    }
    std::set<std::size_t> seen{0};
    std::vector<std::size_t> queue{0};
    while (!queue.empty()) {
        const RoadRow& road = roads[queue.back()];
        queue.pop_back();
        for (const Point end : {road.line.front(), road.line.back()}) {
            const auto [first, last] = at.equal_range(end);
            for (auto other = first; other != last; ++other) {
                if (seen.insert(other->second).second) {
                    queue.push_back(other->second);
                }
            }
        }
    }
    return seen.size();
}

bool ends_at(const std::vector<RoadRow>& roads, Point p) {
    return std::any_of(roads.begin(), roads.end(), [&](const RoadRow& road) {
        return road.line.front() == p || road.line.back() == p;
    });
}

double pounds(const std::string& text) { return text.empty() ? 0 : std::stod(text); }

}  // namespace

TEST_CASE("A township has the holdings that were ordered, whatever its size and seed") {
    for (const int parcels : {300, 900, demo_parcels}) {
        for (const std::uint64_t seed : {1U, 2U}) {
            CAPTURE(parcels, seed);
            const Township township = build_township(alone(parcels, seed));
            CHECK(township.holdings.size() == static_cast<std::size_t>(parcels) - 1);
        }
    }
}

TEST_CASE("Every holding, lake and pond is a valid polygon") {
    for (const std::uint64_t seed : {demo_seed, std::uint64_t{11}, std::uint64_t{12}}) {
        const Township township = seed == demo_seed ? demo() : build_township(alone(1200, seed));
        for (std::size_t i = 0; i < township.holdings.size(); ++i) {
            CAPTURE(seed, i);
            REQUIRE(is_valid(township.holdings[i].shape));
        }
        CHECK(is_valid(township.lakes));
        CHECK(is_valid(township.town));
        for (const Pond& pond : township.ponds) {
            CHECK(is_valid({{{pond.shore}}}));
        }
    }
}

TEST_CASE("Holdings and lakes together are the town, no more and no less") {
    double sum = area(demo().lakes);
    for (const Holding& holding : demo().holdings) {
        sum += area(holding.shape);
    }
    // Corners are rounded to the centimetre, along 44 km of town line and shores.
    CHECK(sum == Approx(area(demo().town)).epsilon(2e-6));
}

TEST_CASE("A point of the town lies in exactly one holding or lake") {
    constexpr std::uint64_t seed = 20260531;
    CAPTURE(seed);
    Random random(seed);
    const Box box = demo().outline.box();
    int inside = 0;
    while (inside < 400) {
        const Point p{random.between(box.low.x, box.high.x), random.between(box.low.y, box.high.y)};
        if (demo().outline.inside_by(p) < 1) {
            continue;
        }
        ++inside;
        int owners = contains(demo().lakes, p) ? 1 : 0;
        for (const Holding& holding : demo().holdings) {
            owners += contains(holding.shape, p) ? 1 : 0;
        }
        CAPTURE(p.x, p.y);
        CHECK(owners == 1);
    }
}

TEST_CASE("All roads hang together, with and without driveways") {
    for (const std::uint64_t seed : {demo_seed, std::uint64_t{21}, std::uint64_t{22}}) {
        const Township township = seed == demo_seed ? demo() : build_township(alone(1500, seed));
        for (const double shortest_drive : {1e9, 90.0, 10.0}) {
            CAPTURE(seed, shortest_drive);
            const auto roads = road_rows(township, {}, 5000, shortest_drive);
            CHECK(reached_from_first(roads) == roads.size());
        }
    }
}

TEST_CASE("Houses stand on their own land, clear of lakes and ponds") {
    int built = 0;
    for (const Holding& holding : demo().holdings) {
        built += holding.buildings.empty() ? 0 : 1;
        for (const Polyline& ring : holding.buildings) {
            for (const Point corner : ring) {
                CHECK(contains(holding.shape, corner));
            }
            for (const Pond& pond : demo().ponds) {
                CHECK_FALSE(contains(pond.shore, middle_of(ring)));
            }
        }
    }
    CHECK(built > 0.60 * demo_parcels);
    CHECK(built < 0.72 * demo_parcels);
}

TEST_CASE("The demo has every kind of road that a shuttle must mind") {
    std::map<std::string, int> count;
    for (const RoadRow& road : road_rows(demo(), {}, 5000, 90)) {
        ++count[std::string(road.road_class)];
        ++count["access " + std::string(road.access)];
        count["one way"] += road.one_way == "F" ? 1 : 0;
        count["rail"] += road.rail_crossing ? 1 : 0;
        count["bridge"] += road.bridge ? 1 : 0;
        count["posted"] += road.posted_tons > 0 ? 1 : 0;
        count["months"] += road.months.empty() ? 0 : 1;
    }
    for (const char* what : {"II", "IV", "V-P", "V-L", "V-G", "V-N", "VI", "PR", "DR", "access G",
                             "access N", "access P", "one way", "rail", "months"}) {
        CAPTURE(what);
        CHECK(count[what] > 0);
    }
    CHECK(count["posted"] == 1);
    CHECK(count["bridge"] >= 3);
}

TEST_CASE("The posted bridge stops loaded tankers, but neither empty ones nor engines") {
    const TypedTable stations = station_table(demo(), alone(demo_parcels, demo_seed).gates, {});
    const double limit = 20 * 2000.0;
    int tankers = 0;
    for (const PointRow& row : apparatus_table(stations).rows) {
        const bool tanker = row.cells[2] == "Tanker";
        const double gallons = std::stod(row.cells[3]);
        // Unweighed ones as the stated estimate has them: 22,000 lb and 10 lb a gallon.
        const double loaded =
            row.cells[12].empty() ? (tanker ? 22000 + 10 * gallons : 40000) : pounds(row.cells[12]);
        const double empty =
            row.cells[13].empty() ? loaded - 8.34 * gallons : pounds(row.cells[13]);
        CAPTURE(row.cells[0]);
        CHECK((loaded > limit) == tanker);
        CHECK(empty <= limit);
        tankers += tanker ? 1 : 0;
    }
    CHECK(tankers >= 8);
}

TEST_CASE("The demo's sources are of every kind and standing, with ids of their own") {
    std::set<std::string> ids, kinds, standings;
    const TypedTable sources = source_table(demo(), {});
    for (const PointRow& row : sources.rows) {
        ids.insert(row.cells[0]);
        kinds.insert(row.cells[2]);
        standings.insert(row.cells[3]);
    }
    CHECK(ids.size() == sources.rows.size());
    CHECK(kinds == std::set<std::string>{"cistern", "draft_site", "dry_hydrant", "hydrant"});
    CHECK(standings == std::set<std::string>{"declared", "mapped", "tested"});
}

TEST_CASE("Parcel ids are unique until the records are made dirty, and then just as said") {
    std::vector<ParcelRow> rows = parcel_rows(demo(), {});
    std::set<std::string> ids, lots;
    for (const ParcelRow& row : rows) {
        ids.insert(*row.parcel_id);
        lots.insert(row.map_lot);
    }
    CHECK(ids.size() == rows.size());
    CHECK(lots.size() == rows.size());

    make_dirty(rows);
    std::multiset<std::string> dirty_ids;
    int invalid = 0;
    for (const ParcelRow& row : rows) {
        if (row.parcel_id) {
            dirty_ids.insert(*row.parcel_id);
        }
        invalid += !row.shape.empty() && !is_valid(row.shape) ? 1 : 0;
    }
    CHECK(rows.size() == demo_parcels);
    CHECK(dirty_ids.size() == rows.size() - 1);
    CHECK(std::set<std::string>(dirty_ids.begin(), dirty_ids.end()).size() == rows.size() - 2);
    CHECK(invalid == 3);
    CHECK(rows.back().shape.empty());
}

TEST_CASE("Roads go through from one township of a region to the next") {
    const RegionPlan plan = plan_region(10000, 3);
    REQUIRE(plan.townships == 4);
    const TownshipOrder west = township_order(plan, 0);
    const TownshipOrder east = township_order(plan, 1);
    const TownshipOrder north_east = township_order(plan, 2);
    CHECK(west.gates.state_east == east.gates.state_west);
    CHECK(west.gates.town_east == east.gates.town_west);
    CHECK(west.gates.river_east == east.gates.river_west);
    CHECK(east.gates.state_north == north_east.gates.state_south);
    for (const TownshipOrder& order : {west, east}) {
        const auto roads = road_rows(build_township(order), {}, 0, 0);
        CHECK(ends_at(roads, west.gates.state_east));
        CHECK(ends_at(roads, west.gates.town_east));
    }
}
