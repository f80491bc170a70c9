// Plain crossings against a look at all pairs of vertices and segments.
#include <algorithm>
#include <cmath>
#include <numeric>
#include <tuple>
#include <vector>

#include <catch2/catch.hpp>

#include "routing/network.h"
#include "routing/noding/crossings.h"
#include "routing/noding/duplicates.h"
#include "tests/routing/random_district.h"
#include "tests/routing/routed.h"
#include "tests/support/slow_crossings.h"
#include "tests/support/slow_routes.h"

using namespace farwater;
using test::Dice;

namespace {

constexpr std::uint64_t crossing_seeds = 400;

// Lines between the points of a small lattice, so that they share vertices, run over each other,
// end on each other and cross in one place; then most are moved by less or more than a tolerance.
struct Lattice {
    double step = 100.0;
    double jitter = 0.0;

    Point point(Dice& dice) const {
        const Point p{500'000.0 + step * static_cast<double>(dice.below(6)),
                      4'000'000.0 + step * static_cast<double>(dice.below(6))};
        const double far = jitter * dice.between(0, 1);
        return dice.one_in(3) ? p
                              : Point{p.x + dice.between(-far, far), p.y + dice.between(-far, far)};
    }
    Road road(Dice& dice, std::size_t row) const {
        Road road;
        road.row = static_cast<std::uint32_t>(row);
        const std::size_t vertices = 2 + dice.below(5);
        for (std::size_t i = 0; i < vertices; ++i) {
            road.line.push_back(point(dice));
        }
        if (dice.one_in(6)) {  // a bend of many small steps
            const Point from = road.line.back();
            for (int i = 1; i < 12; ++i) {
                road.line.push_back(
                    {from.x + i * dice.between(0.01, 0.2), from.y + i * dice.between(-0.1, 0.1)});
            }
        }
        road.bridge = dice.one_in(12);
        road.tunnel = dice.one_in(12);
        road.level = dice.one_in(6) ? 1 : 0;
        return road;
    }
};

District random_lines(std::uint64_t seed) {
    Dice dice(seed);
    const std::vector<double> steps{100.0, 7.0, 1000.0};
    const std::vector<double> jitters{0.0, 0.002, 0.05, 0.2, 30.0};
    const std::vector<double> tolerances{0.0, 0.02, 0.05, 0.5, 3.0};
    const Lattice lattice{dice.of(steps), dice.of(jitters)};
    District district;
    district.assumptions.join_tolerance = metres(dice.of(tolerances));
    const std::size_t roads = 2 + dice.below(14);
    for (std::size_t r = 0; r < roads; ++r) {
        district.roads.push_back(lattice.road(dice, r));
    }
    return district;
}

std::vector<slow::Meet> found_in(const District& district) {
    const routing::Vertices vertices = routing::vertices_of(district.roads);
    const auto spot = [&](const routing::LinePlace& place) {
        const std::uint32_t road = vertices.roads[place.vertex];
        return slow::LineSpot{road,
                              place.beyond + routing::metres_between(vertices, vertices.first[road],
                                                                     place.vertex, INFINITY)};
    };
    std::vector<slow::Meet> meets;
    for (const routing::Meeting& meeting :
         routing::find_crossings(district.roads, vertices,
                                 routing::reach_of(district.assumptions.join_tolerance), Work{})) {
        meets.push_back({spot(meeting.a), spot(meeting.b)});
    }
    return meets;
}

bool same_spot(const slow::LineSpot& a, const slow::LineSpot& b) {
    return a.road == b.road && std::abs(a.along - b.along) < 1e-6;
}
bool same_meet(const slow::Meet& a, const slow::Meet& b) {
    return (same_spot(a.a, b.a) && same_spot(a.b, b.b)) ||
           (same_spot(a.a, b.b) && same_spot(a.b, b.a));
}
// Those of one that the other lacks.
std::size_t lacking(const std::vector<slow::Meet>& one, const std::vector<slow::Meet>& other) {
    return static_cast<std::size_t>(std::ranges::count_if(one, [&](const slow::Meet& meet) {
        return std::ranges::none_of(
            other, [&](const slow::Meet& candidate) { return same_meet(meet, candidate); });
    }));
}

// What a network says of the roads without numbering anything: per road its edges with the points
// of their nodes.
using Said = std::vector<std::vector<std::tuple<double, double, Point, Point>>>;
Said said_of(const District& district, const std::vector<std::size_t>& order) {
    District shuffled = district;
    for (std::size_t i = 0; i < order.size(); ++i) {
        shuffled.roads[i] = district.roads[order[i]];
    }
    const auto network = routing::build_network(shuffled, Work{}).network;
    Said said(order.size());
    for (std::size_t i = 0; i < order.size(); ++i) {
        for (const routing::Edge& edge : network.edges_of(RoadIndex(i))) {
            said[order[i]].emplace_back(edge.begin, edge.end, at(network.nodes, edge.from),
                                        at(network.nodes, edge.to));
        }
    }
    return said;
}

bool any_twice(const District& district) {
    return !routing::drawn_alike(district.roads,
                                 routing::reach_of(district.assumptions.join_tolerance))
                .empty();
}

// By the rule of duplicates.h, every road against every other.
std::vector<routing::Duplicate> slow_alike(const std::vector<Road>& roads, double apart) {
    const auto same = [&](const Polyline& a, const Polyline& b) {
        return std::ranges::equal(
            a, b, [&](Point p, Point q) { return distance_squared(p, q) <= apart * apart; });
    };
    const auto is_road = [](const Road& road) {
        return std::ranges::count(road.line, road.line.front()) !=
               static_cast<std::ptrdiff_t>(road.line.size());
    };
    std::vector<routing::Duplicate> alike;
    for (std::uint32_t r = 0; r < roads.size(); ++r) {
        const Polyline back(roads[r].line.rbegin(), roads[r].line.rend());
        for (std::uint32_t of = 0; of < r; ++of) {
            const bool two_ways =
                roads[r].one_way == OneWay::both || roads[of].one_way == OneWay::both;
            const bool one_direction = roads[r].one_way == roads[of].one_way;
            if (roads[r].level != roads[of].level || !is_road(roads[r]) || !is_road(roads[of])) {
                continue;
            }
            if (same(roads[of].line, roads[r].line) && (two_ways || one_direction)) {
                alike.push_back({r, of, false});
            } else if (same(roads[of].line, back) && (two_ways || !one_direction)) {
                alike.push_back({r, of, true});
            }
        }
    }
    return alike;
}

}  // namespace

TEST_CASE("crossings equal those found among all pairs", "[twin]") {
    std::size_t compared = 0;
    for (std::uint64_t seed = 1; seed <= crossing_seeds; ++seed) {
        CAPTURE(seed);
        const District district = random_lines(seed);
        const std::vector<slow::Meet> expected = slow::meets_of(district);
        const std::vector<slow::Meet> found = found_in(district);
        REQUIRE(lacking(expected, found) == 0);
        REQUIRE(lacking(found, expected) == 0);
        compared += found.size();
    }
    CHECK(compared > 10'000);
}

TEST_CASE("roads that cross and touch without tolerance make the slow twin's junctions", "[twin]") {
    std::size_t compared = 0;
    for (std::uint64_t seed = 1; seed <= crossing_seeds; ++seed) {
        CAPTURE(seed);
        District district = random_lines(seed);
        district.assumptions.join_tolerance = metres(0);
        for (Road& road : district.roads) {
            road.level = 0;
        }
        if (any_twice(district)) {
            continue;
        }
        const slow::Streets streets = slow::streets_of(district);
        const auto network = routing::build_network(district, Work{}).network;
        REQUIRE(network.nodes.size() == streets.junctions);
        REQUIRE(network.edges.size() == streets.pieces.size());
        for (std::size_t i = 0; i < streets.pieces.size(); ++i) {
            REQUIRE(network.edges[i].road.position() == streets.pieces[i].road);
            REQUIRE(network.edges[i].begin == Approx(streets.pieces[i].begin).margin(1e-6));
            REQUIRE(network.edges[i].end == Approx(streets.pieces[i].end).margin(1e-6));
        }
        ++compared;
    }
    CHECK(compared > crossing_seeds / 2);
}

TEST_CASE("roads in another order make the same network", "[property]") {
    for (std::uint64_t seed = 1; seed <= crossing_seeds; ++seed) {
        CAPTURE(seed);
        District district = random_lines(seed);
        for (Road& road : district.roads) {
            road.level = 0;
        }
        if (any_twice(district)) {
            continue;
        }
        std::vector<std::size_t> order(district.roads.size());
        std::iota(order.begin(), order.end(), 0U);
        const Said before = said_of(district, order);
        Dice dice(seed);
        REQUIRE(said_of(district, dice.shuffled(order)) == before);
    }
}

TEST_CASE("a piece of road shorter than the merging distance lies between two vertices",
          "[property]") {
    for (std::uint64_t seed = 1; seed <= crossing_seeds; ++seed) {
        CAPTURE(seed);
        const District district = random_lines(seed);
        const auto network = routing::build_network(district, Work{}).network;
        const double least =
            routing::merged_within(routing::reach_of(district.assumptions.join_tolerance));
        const auto at_a_vertex = [&](const routing::Edge& edge, double along) {
            const Polyline& line = at(district.roads, edge.road).line;
            return std::ranges::any_of(line,
                                       [&, passed = 0.0, last = line.front()](Point p) mutable {
                                           passed += in_metres(distance(last, p));
                                           last = p;
                                           return std::abs(passed - along) < 1e-9;
                                       });
        };
        for (const routing::Edge& edge : network.edges) {
            REQUIRE((in_metres(edge.length()) >= least - 1e-9 ||
                     (at_a_vertex(edge, edge.begin) && at_a_vertex(edge, edge.end))));
        }
    }
}

TEST_CASE("lines drawn twice equal those found among all pairs", "[twin]") {
    std::size_t compared = 0;
    for (std::uint64_t seed = 1; seed <= crossing_seeds; ++seed) {
        CAPTURE(seed);
        District district = random_lines(seed);
        Dice dice(seed);
        for (std::size_t i = 0, before = district.roads.size(); i < before; ++i) {
            Road copy = district.roads[i];
            copy.one_way = dice.one_in(2) ? OneWay::forward : OneWay::both;
            const double apart = dice.one_in(2) ? 0.0 : 0.04;
            for (Point& point : copy.line) {
                point.x += dice.between(-apart, apart);
                point.y += dice.between(-apart, apart);
            }
            if (dice.one_in(2)) {
                std::ranges::reverse(copy.line);
            }
            district.roads.push_back(copy);
        }
        const auto reach = routing::reach_of(district.assumptions.join_tolerance);
        const auto expected = slow_alike(district.roads, reach.inside);
        REQUIRE(routing::drawn_alike(district.roads, reach) == expected);
        compared += expected.size();
    }
    CHECK(compared > crossing_seeds);
}
