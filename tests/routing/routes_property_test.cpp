// What must hold of routing whatever the district, on random ones; a failure prints its seed.
#include <map>
#include <set>
#include <tuple>

#include <catch2/catch.hpp>

#include "routing/structures/bucket_queue.h"
#include "routing/structures/grid.h"
#include "routing/structures/heap.h"
#include "routing/structures/hilbert.h"
#include "tests/routing/random_district.h"
#include "tests/routing/routed.h"
#include "tests/support/draws.h"

using namespace farwater;
using routing::RoadSpot;
using test::Dice;
using test::Routed;

namespace {

constexpr std::uint64_t property_seeds = test::draws(100);

bool same(const LegTimes& a, const LegTimes& b) {
    return a.empty == b.empty && a.loaded == b.loaded;
}

// Everything that round trips say, in words that do not depend on how things are numbered.
struct SaidOfRoutes {
    std::vector<Point> dump_sites;
    std::vector<LaneClass> lanes;
    std::map<std::string, std::vector<std::pair<Point, double>>> lays;       // by parcel
    std::map<std::string, double> off_road;                                  // by parcel
    std::map<std::string, std::optional<float>> miles;                       // by parcel
    std::map<std::pair<std::string, std::size_t>, std::vector<int>> trips;   // source, dump site
    std::map<std::pair<std::string, std::size_t>, std::vector<int>> drives;  // station, dump site
    std::map<std::string, int> arrivals;                                     // by parcel
    bool operator==(const SaidOfRoutes&) const = default;
};

SaidOfRoutes said_of(const District& district, unsigned threads) {
    const Routed routed(district, threads);
    const RoundTrips trips = routed.round_trips(SeasonIndex(1));
    const auto arrivals = routed.arrivals();
    SaidOfRoutes said;
    for (std::size_t d = 0; d < trips.dump_sites.size(); ++d) {
        said.dump_sites.push_back(trips.dump_sites[d].place);
        said.lanes.push_back(trips.dump_sites[d].lane);
        for (const FillTrip& trip : trips.fill_trips[d]) {
            auto& legs = said.trips[{
                at(district.sources, routed.fill_sites[trip.fill_site.position()].source).id, d}];
            for (const LegTimes& leg : trip.legs) {
                legs.push_back(in_tenths(leg.empty));
                legs.push_back(in_tenths(leg.loaded));
            }
        }
        for (const StationDrive& drive : trips.stations_of_dump_site[d]) {
            for (const DriveTime time : drive.loaded) {
                said.drives[{at(district.stations, drive.station).id, d}].push_back(
                    in_tenths(time));
            }
        }
    }
    for (std::size_t i = 0; i < district.parcels.size(); ++i) {
        const std::string& id = district.parcels[i].id;
        for (const HoseLay& lay : trips.hose_lays[i]) {
            said.lays[id].emplace_back(at(trips.dump_sites, lay.dump_site).place,
                                       in_metres(lay.length));
        }
        said.off_road[id] = in_metres(routed.access.access.points[i].off_road);
        said.miles[id] = trips.station_miles[i];
        said.arrivals[id] = in_tenths(arrivals[i]);
    }
    return said;
}

// A place that is snapped to one road before and to another after is not driven to as it was.
bool stands_still(const Routed& a, RoadSpot in_a, const Routed& b, RoadSpot in_b) {
    return in_a.valid() && in_b.valid() &&
           place_of(a.district, a.network.network, in_a) ==
               place_of(b.district, b.network.network, in_b);
}

// The dump site at an officer's place; not valid where no road reaches the place.
DumpSiteIndex site_of_place(const Routed& routed, std::uint32_t place) {
    const auto& candidates = routed.dump_sites.candidates;
    const auto at_place =
        std::ranges::find(candidates, std::optional(place), &DumpSiteCandidate::officers_place);
    return at_place == candidates.end()
               ? DumpSiteIndex()
               : DumpSiteIndex(static_cast<std::size_t>(at_place - candidates.begin()));
}

// A random district on level ground, where what is driven to stands at ends of roads.
District level_district(std::uint64_t seed, Dice& dice) {
    District district = test::random_district(seed);
    district.elevation = {};                      // a longer road may go round a hill
    district.assumptions.join_crossings = false;  // the bend would meet roads on its way
    for (WaterSource& source : district.sources) {
        source.place = dice.of(district.roads).line.front();
    }
    for (DumpSitePlace& place : district.dump_site_places) {
        place.place = dice.of(district.roads).line.front();
    }
    return district;
}

// Checks every drive that both can make; returns how many became longer.
std::size_t check_no_shorter(const Routed& before, const Routed& after) {
    const RoundTrips short_trips = before.round_trips();
    const RoundTrips long_trips = after.round_trips();
    std::size_t longer = 0;
    for (std::uint32_t place = 0; place < before.district.dump_site_places.size(); ++place) {
        const DumpSiteIndex here = site_of_place(before, place);
        const DumpSiteIndex there = site_of_place(after, place);
        if (!here.valid() || !there.valid() ||
            !stands_still(before, at(before.dump_sites.spots, here), after,
                          at(after.dump_sites.spots, there))) {
            continue;
        }
        for (std::size_t f = 0; f < before.district.sources.size(); ++f) {
            if (!stands_still(before, before.access.access.sources[f], after,
                              after.access.access.sources[f])) {
                continue;
            }
            for (std::size_t p = 0; p < before.profiles.size(); ++p) {
                const LegTimes a = test::legs_between(short_trips, here, f, ProfileIndex(p));
                const LegTimes b = test::legs_between(long_trips, there, f, ProfileIndex(p));
                CAPTURE(place, f, p);
                REQUIRE(a.empty <= b.empty);
                REQUIRE(a.loaded <= b.loaded);
                longer += reachable(a.empty) && !same(a, b) ? 1U : 0U;
            }
        }
    }
    return longer;
}

}  // namespace

TEST_CASE("the order of roads, parcels, sources and stations does not change what is said",
          "[property]") {
    for (std::uint64_t seed = 1; seed <= property_seeds; ++seed) {
        CAPTURE(seed);
        const District district = test::random_district(seed);
        District shuffled = district;
        Dice dice(seed + 1000);
        shuffled.roads = dice.shuffled(shuffled.roads);
        shuffled.parcels = dice.shuffled(shuffled.parcels);
        shuffled.sources = dice.shuffled(shuffled.sources);
        shuffled.stations = dice.shuffled(shuffled.stations);
        const SaidOfRoutes before = said_of(district, 1);
        const SaidOfRoutes after = said_of(shuffled, 1);
        REQUIRE(before.dump_sites == after.dump_sites);
        REQUIRE(before.lanes == after.lanes);
        REQUIRE(before.lays == after.lays);
        REQUIRE(before.off_road == after.off_road);
        REQUIRE(before.miles == after.miles);
        REQUIRE(before.trips == after.trips);
        REQUIRE(before.drives == after.drives);
        REQUIRE(before.arrivals == after.arrivals);
    }
}

TEST_CASE("one thread and two give the same", "[property]") {
    for (std::uint64_t seed = 1; seed <= property_seeds; ++seed) {
        CAPTURE(seed);
        const District district = test::random_district(seed);
        REQUIRE(said_of(district, 1) == said_of(district, 2));
    }
}

TEST_CASE("a road drawn the other way with its direction turned changes no time", "[property]") {
    for (std::uint64_t seed = 1; seed <= property_seeds; ++seed) {
        CAPTURE(seed);
        const District district = test::random_district(seed);
        District turned = district;
        for (Road& road : turned.roads) {
            std::reverse(road.line.begin(), road.line.end());
            road.one_way = road.one_way == OneWay::both      ? OneWay::both
                           : road.one_way == OneWay::forward ? OneWay::backward
                                                             : OneWay::forward;
        }
        const Routed a(district);
        const Routed b(turned);
        const auto before = a.arrivals();
        const auto after = b.arrivals();
        for (std::size_t i = 0; i < before.size(); ++i) {
            REQUIRE(reachable(before[i]) == reachable(after[i]));
            if (reachable(before[i])) {  // the cut of an edge is measured from its other end
                REQUIRE(std::abs(in_tenths(before[i]) - in_tenths(after[i])) <= 3);
            }
        }
    }
}

TEST_CASE("on level ground a longer road never shortens a drive between places that stay",
          "[property]") {
    std::size_t longer_drives = 0;
    for (std::uint64_t seed = 1; seed <= 10 * property_seeds; ++seed) {
        CAPTURE(seed);
        Dice dice(seed);
        const District district = level_district(seed, dice);
        District longer = district;
        Road& road = longer.roads[dice.below(longer.roads.size())];
        road.line.insert(road.line.begin() + 1,
                         Point{dice.between(5000, 6000), dice.between(5000, 6000)});
        longer_drives += check_no_shorter(Routed(district), Routed(longer));
    }
    CHECK(longer_drives > test::draws(1000));  // or nothing was compared
}

TEST_CASE("candidates are as far apart along driven roads as the spacing, or serve one parcel only",
          "[property]") {
    for (std::uint64_t seed = 1; seed <= property_seeds; ++seed) {
        CAPTURE(seed);
        const District district = test::random_district(seed);
        const Routed routed(district);
        // A parcel that an allowed place can serve is served: adding sites at the steps of the
        // spacing can only serve the same parcels.
        District dense = district;
        dense.assumptions.dump_site_spacing = district.assumptions.dump_site_spacing / 4.0;
        const Routed more(dense);
        for (std::size_t i = 0; i < district.parcels.size(); ++i) {
            if (routed.dump_sites.hose_lays[i].empty()) {
                continue;
            }
            REQUIRE_FALSE(more.dump_sites.hose_lays[i].empty());
        }
    }
}

TEST_CASE("a heap gives labels in order of cost, then node", "[property]") {
    for (std::uint64_t seed = 1; seed <= property_seeds; ++seed) {
        CAPTURE(seed);
        Dice dice(seed);
        routing::Heap heap;
        std::vector<std::pair<std::int32_t, std::uint32_t>> all;
        for (std::size_t i = 0; i < 200; ++i) {
            const auto cost = static_cast<std::int32_t>(dice.below(50));
            const auto node = static_cast<std::uint32_t>(dice.next());
            heap.push({cost, node});
            all.emplace_back(cost, node);
        }
        std::sort(all.begin(), all.end());
        for (const auto& [cost, node] : all) {
            REQUIRE_FALSE(heap.empty());
            const routing::Label label = heap.pop_least();
            REQUIRE(label.cost == cost);
            REQUIRE(label.node == node);
        }
        REQUIRE(heap.empty());
    }
}

// Costs only grow as a search has it, but for starts that are given later; some lie beyond the
// buckets, and at times the queue is cleared in between.
TEST_CASE("a queue of buckets gives what a heap gives, whatever node comes first of equal ones",
          "[property]") {
    routing::BucketQueue queue;  // kept, as a search keeps its own
    for (std::uint64_t seed = 1; seed <= property_seeds; ++seed) {
        CAPTURE(seed);
        Dice dice(seed);
        const std::int32_t farthest = dice.one_in(2) ? 300 : 20'000;
        std::multiset<std::pair<std::int32_t, std::uint32_t>> left;
        std::int32_t last = static_cast<std::int32_t>(dice.below(5000));
        const auto push = [&](std::int32_t cost) {
            const auto node = static_cast<std::uint32_t>(dice.below(1000));
            queue.push({cost, node});
            left.emplace(cost, node);
        };
        for (std::size_t step = 0; step < 400; ++step) {
            REQUIRE(queue.empty() == left.empty());
            if (left.empty() || dice.one_in(2)) {
                push(last +
                     static_cast<std::int32_t>(dice.below(static_cast<std::size_t>(farthest))));
            } else if (dice.one_in(100)) {
                push(static_cast<std::int32_t>(dice.below(static_cast<std::size_t>(last) + 1)));
            } else if (dice.one_in(200)) {
                queue.clear();
                left.clear();
            } else {
                const routing::Label label = queue.pop_least();
                REQUIRE(label.cost == left.begin()->first);
                const auto known = left.find({label.cost, label.node});
                REQUIRE(known != left.end());
                left.erase(known);
                last = label.cost;
            }
        }
        queue.clear();
        REQUIRE(queue.empty());
    }
}

TEST_CASE("a grid finds in its cells all that lies in a window, also far from the origin",
          "[property]") {
    for (std::uint64_t seed = 1; seed <= property_seeds; ++seed) {
        CAPTURE(seed);
        Dice dice(seed);
        const double shift = dice.one_in(2) ? 0.0 : 4.5e6;
        std::vector<Point> points;
        for (std::size_t i = 0; i < 300; ++i) {
            points.push_back({shift + dice.between(-500, 500), -shift + dice.between(-500, 500)});
        }
        const routing::Grid<std::size_t> grid(37.0, points.size(),
                                              [&](const auto& cells, auto put) {
                                                  for (std::size_t i = 0; i < points.size(); ++i) {
                                                      put(cells.cell_of(points[i]), i);
                                                  }
                                              });
        const Point centre = dice.of(points);
        const double half = dice.between(1, 200);
        std::vector<bool> found(points.size(), false);
        const routing::CellRange range = grid.around(centre, half);
        for (routing::Cell cell = range.low; cell.y <= range.high.y; ++cell.y) {
            for (cell.x = range.low.x; cell.x <= range.high.x; ++cell.x) {
                for (const std::size_t i : grid.in(cell)) {
                    found[i] = true;
                }
            }
        }
        for (std::size_t i = 0; i < points.size(); ++i) {
            const bool inside = std::abs(points[i].x - centre.x) <= half &&
                                std::abs(points[i].y - centre.y) <= half;
            REQUIRE((!inside || found[i]));
        }
    }
}

TEST_CASE("cells that follow each other on the Hilbert curve are neighbours") {
    constexpr std::uint32_t side = 64;
    std::vector<std::pair<int, int>> cells(side * side, {-1, -1});
    for (std::uint16_t x = 0; x < side; ++x) {
        for (std::uint16_t y = 0; y < side; ++y) {
            const std::uint32_t key = routing::hilbert_key(x, y);
            REQUIRE(key < cells.size());
            REQUIRE(cells[key] == std::pair(-1, -1));
            cells[key] = {x, y};
        }
    }
    for (std::size_t i = 1; i < cells.size(); ++i) {
        REQUIRE(std::abs(cells[i].first - cells[i - 1].first) +
                    std::abs(cells[i].second - cells[i - 1].second) ==
                1);
    }
}
