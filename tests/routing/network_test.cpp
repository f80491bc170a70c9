#include "routing/network.h"

#include <catch2/catch.hpp>

#include "tests/routing/routed.h"
#include "tests/support/ascii_region.h"

using namespace farwater;
using test::AsciiRegion;

namespace {

routing::NetworkResult joined_network_of(const AsciiRegion& region) {
    return routing::build_network(region.district, Work{});
}

std::size_t edges_of(const routing::NetworkResult& result, std::size_t road) {
    return result.network.edges_of(RoadIndex(road)).size();
}

}  // namespace

TEST_CASE("roads join where they share a vertex and only junctions become nodes", "[map]") {
    AsciiRegion region(R"(
        A---B---C---D
            |
            E
    )");
    region.road("ABCD");
    region.road("BE");
    const auto result = joined_network_of(region);
    CHECK(result.network.nodes.size() == 4);
    CHECK(edges_of(result, 0) == 2);
    CHECK(edges_of(result, 1) == 1);
    CHECK(result.problems.empty());
    const auto first = result.network.edges_of(RoadIndex(0))[0];
    CHECK(in_metres(first.length()) == Approx(400));
    CHECK(at(result.network.nodes, first.to) == region.at('B'));
}

TEST_CASE("vertices inside lines of different level do not join, ends do", "[map]") {
    AsciiRegion region(R"(
            C
            |
        A---X---B
            |
            D
    )");
    region.road("AXB");
    region.road("CXD").level = 1;
    CHECK(joined_network_of(region).network.nodes.size() == 4);
    region.district.roads[1].level = 0;
    CHECK(joined_network_of(region).network.nodes.size() == 5);
    region.road("XD").level = 1;  // a ramp that ends on the road below
    CHECK(joined_network_of(region).network.edges.size() > 4);
}

TEST_CASE("ends join within the tolerance, not beyond it", "[map]") {
    AsciiRegion region("A   B   C");
    region.road("AB");
    region.road("BC").line.front().x += 0.04;
    CHECK(joined_network_of(region).network.nodes.size() == 3);
    region.district.roads[1].line.front().x += 0.02;
    CHECK(joined_network_of(region).network.nodes.size() == 4);
    region.district.assumptions.join_tolerance = feet(1);
    CHECK(joined_network_of(region).network.nodes.size() == 3);
}

TEST_CASE("an end within the tolerance joins the nearest vertex of a line, not its whole curve",
          "[map]") {
    AsciiRegion region(R"(
        D
        A   B
    )");
    Road& curve = region.road("AB");
    const Point start = region.at('A');
    curve.line = {start};
    for (int i = 1; i <= 40; ++i) {
        curve.line.push_back({start.x + i, start.y});
    }
    Road& side = region.road("DA");
    side.line.back() = {start.x + 20.2, start.y + 0.5};
    region.district.assumptions.join_tolerance = metres(5);
    const auto result = joined_network_of(region);
    CHECK(result.network.nodes.size() == 4);
    CHECK(edges_of(result, 0) == 2);
    CHECK(in_metres(result.network.edges_of(RoadIndex(0))[0].length()) == Approx(20));
}

TEST_CASE("curves with dense vertices keep their length whatever the tolerance", "[map]") {
    AsciiRegion region("A   B");
    Road& curve = region.road("AB");
    const Point start = region.at('A');
    curve.line.clear();
    for (int i = 0; i <= 400; ++i) {
        curve.line.push_back({start.x + i * 0.01, start.y});
    }
    region.district.assumptions.join_tolerance = metres(0.5);
    const auto result = joined_network_of(region);
    REQUIRE(result.network.edges.size() == 1);
    CHECK(in_metres(result.network.edges[0].length()) == Approx(4));
}

TEST_CASE("a ring and a lollipop keep their loops", "[map]") {
    AsciiRegion region(R"(
        A---B---C
            |   |
            E---D
        F---G
        |   |
        I---H
    )");
    region.road("ABCDEB");
    region.road("FGHIF");
    const auto result = joined_network_of(region);
    CHECK(edges_of(result, 0) == 2);
    CHECK(edges_of(result, 1) == 1);
    const auto ring = result.network.edges_of(RoadIndex(1))[0];
    CHECK(ring.from == ring.to);
    CHECK(in_metres(ring.length()) == Approx(1200));
    CHECK(result.network.around(ring.from).size() == 2);
}

TEST_CASE("roads of no length have no edge and are reported", "[map]") {
    AsciiRegion region("A   B");
    region.road("AB");
    region.road("AA");
    region.road("AB").line = {region.at('A')};
    const auto result = joined_network_of(region);
    CHECK(result.network.edges.size() == 1);
    CHECK(test::count_of(result.problems, ProblemId::road_zero_length) == 2);
}

TEST_CASE("a state road that ends is said to leave the data, other ends are not", "[map]") {
    AsciiRegion region(R"(
        A---B---C
            D
    )");
    region.road("ABC").kind = RoadClass::state;
    region.road("BD").kind = RoadClass::gravel;
    const auto result = joined_network_of(region);
    const auto ends = test::problems_of(result.problems, ProblemId::road_edge_of_data);
    REQUIRE(ends.size() == 2);
    CHECK(ends[0].record == "row 1");
}

TEST_CASE("a spot within a millimetre of a junction is at the junction") {
    AsciiRegion region(R"(
        A---B---C
            D
    )");
    region.road("ABC");
    region.road("BD");
    const auto result = joined_network_of(region);
    const auto& network = result.network;
    const auto near = routing::spot_on(network, RoadIndex(0), 399.9995);
    CHECK(near.along == in_metres(at(network.edges, near.edge).length()));
    const auto after = routing::spot_on(network, RoadIndex(0), 400.5);
    CHECK(after.along == Approx(0.5));
    CHECK(routing::place_of(region.district, network, after).x == Approx(region.at('B').x + 0.5));
    CHECK(routing::spot_on(network, RoadIndex(0), 1e6).along == Approx(400));
}

TEST_CASE("an empty district has an empty network") {
    const auto result = routing::build_network(District{}, Work{});
    CHECK(result.network.nodes.empty());
    CHECK(result.problems.empty());
}

TEST_CASE("stopped work gives an empty network") {
    AsciiRegion region("A   B");
    region.road("AB");
    std::stop_source stop;
    stop.request_stop();
    Work work;
    work.stop = stop.get_token();
    CHECK(routing::build_network(region.district, work).network.nodes.empty());
}
