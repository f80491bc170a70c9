#include <algorithm>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "routing/drawn_twice.h"
#include "routing/network.h"
#include "tests/routing/routed.h"
#include "tests/support/ascii_region.h"

using namespace farwater;
using test::AsciiRegion;

namespace {

routing::NetworkResult network_of(const AsciiRegion& region) {
    return routing::build_network(region.district, Work{});
}

std::vector<std::string> crossings_of(const routing::NetworkResult& result) {
    std::vector<std::string> details;
    for (const Problem& problem :
         test::problems_of(result.problems, ProblemId::road_crossing_joined)) {
        details.push_back(problem.record + ": " + problem.detail);
    }
    return details;
}

std::size_t parts_of(const routing::NetworkResult& result) {
    const auto& component = result.network.component;
    return component.empty() ? 0
                             : 1U + static_cast<std::size_t>(*std::ranges::max_element(component));
}

AsciiRegion crossroads() {
    AsciiRegion region(R"(
            C
        A   |   B
            |
            D
    )");
    region.road("AB");
    region.road("CD");
    return region;
}

// Of roads that are drawn before.
std::size_t extra_records(const AsciiRegion& region) {
    District district = region.district;
    return routing::settle_drawn_twice(district).size();
}

}  // namespace

TEST_CASE("roads join where they cross without a shared vertex", "[map]") {
    const auto result = network_of(crossroads());
    CHECK(result.network.nodes.size() == 5);
    CHECK(result.network.edges.size() == 4);
    CHECK(parts_of(result) == 1);
    const auto first = result.network.edges_of(RoadIndex(0))[0];
    CHECK(in_metres(first.length()) == Approx(400));
    CHECK(at(result.network.nodes, first.to).x == Approx(crossroads().at('C').x));
    CHECK(result.network.around(first.to).size() == 4);
    CHECK(crossings_of(result) ==
          std::vector<std::string>{"row 1: AB crosses row 2 (CD) 1312 ft from its start"});
}

TEST_CASE("no crossing joins where the district says so", "[map]") {
    AsciiRegion region = crossroads();
    region.district.assumptions.join_crossings = false;
    const auto result = network_of(region);
    CHECK(result.network.nodes.size() == 4);
    CHECK(parts_of(result) == 2);
    CHECK(result.problems.empty());
}

TEST_CASE("a bridge over a road, a tunnel below it and a road of another level do not join",
          "[map]") {
    AsciiRegion region = crossroads();
    Road& upper = region.district.roads[1];
    const auto parts = [&] { return parts_of(network_of(region)); };
    upper.bridge = true;
    CHECK(parts() == 2);
    region.district.roads[0].bridge = true;  // one over the other, who knows
    CHECK(parts() == 2);
    region.district.roads[0].bridge = false;
    upper.bridge = false;
    upper.tunnel = true;
    CHECK(parts() == 2);
    upper.tunnel = false;
    upper.level = 1;
    CHECK(parts() == 2);
    region.district.roads[0].level = 1;
    CHECK(parts() == 1);
}

TEST_CASE("a bridge joins the roads before and behind it, not the one below", "[map]") {
    AsciiRegion region(R"(
            C
        A---P-Q---B
              |
              D
    )");
    region.road("AP");
    region.road("PQ").bridge = true;
    region.road("QB");
    region.road("CP").line = {{region.at('P').x + 80, region.at('C').y},
                              {region.at('P').x + 80, region.at('D').y}};
    const auto result = network_of(region);
    CHECK(result.network.edges.size() == 4);
    CHECK(parts_of(result) == 2);
}

TEST_CASE("an end on the inside of another line joins it there", "[map]") {
    AsciiRegion region(R"(
        A-------B
            |
            D
    )");
    region.road("AB");
    Road& side = region.road("DB");
    side.line.back() = {region.at('D').x, region.at('A').y - 0.04};
    const auto result = network_of(region);
    CHECK(result.network.edges_of(RoadIndex(0)).size() == 2);
    CHECK(result.network.edges_of(RoadIndex(1)).size() == 1);
    CHECK(parts_of(result) == 1);
    CHECK(crossings_of(result) ==
          std::vector<std::string>{"row 2: DB ends on row 1 (AB) 656 ft from its start"});
    SECTION("not beyond the tolerance") {
        side.line.back().y -= 0.02;
        CHECK(parts_of(network_of(region)) == 2);
        region.district.assumptions.join_tolerance = feet(1);
        CHECK(parts_of(network_of(region)) == 1);
    }
    SECTION("one that goes a little too far leaves no stub") {
        side.line.back().y += 0.08;
        CHECK(network_of(region).network.edges.size() == 3);
        side.line.back().y += 5;
        CHECK(network_of(region).network.edges.size() == 4);
    }
    SECTION("not on a bridge") {
        region.district.roads[0].bridge = true;
        CHECK(parts_of(network_of(region)) == 2);
    }
}

TEST_CASE("a vertex of one line on the other makes one junction", "[map]") {
    AsciiRegion region(R"(
            C
        A   X   B
            |
            D
    )");
    region.road("AB");
    region.road("CXD").line[1].y -= 0.03;  // the crossing itself lies 3 cm before the vertex
    const auto result = network_of(region);
    CHECK(result.network.nodes.size() == 5);
    CHECK(result.network.edges.size() == 4);
    CHECK(in_metres(result.network.edges_of(RoadIndex(1))[0].length()) == Approx(100.03));
}

TEST_CASE("a crossing near a junction joins there and leaves no crumb of road", "[map]") {
    AsciiRegion region(R"(
            C
            |
        A---X---B
            |
            D
    )");
    region.road("AXB");
    region.road("XD");
    region.road("CD").line = {{region.at('X').x + 0.03, region.at('C').y},
                              {region.at('X').x + 0.03, region.at('D').y - 100}};
    const auto result = network_of(region);
    for (const routing::Edge& edge : result.network.edges) {
        CHECK(in_metres(edge.length()) > 1);
    }
    CHECK(result.network.edges_of(RoadIndex(0)).size() == 2);
    CHECK(parts_of(result) == 1);
}

TEST_CASE("three roads through one place make one junction", "[map]") {
    AsciiRegion region(R"(
        A   C   E
            |
        G-------H
            |
        F   D   B
    )");
    region.road("AB");
    region.road("CD");
    region.road("EF");
    region.road("GH");
    const auto result = network_of(region);
    CHECK(result.network.nodes.size() == 9);
    CHECK(result.network.edges.size() == 8);
    CHECK(crossings_of(result).size() == 6);
}

TEST_CASE("a road that crosses itself has a loop", "[map]") {
    AsciiRegion region(R"(
            D---C
            |   |
        A-------B
            |
            E
    )");
    region.road("ABCDE");
    const auto result = network_of(region);
    REQUIRE(result.network.edges.size() == 3);
    const auto loop = result.network.edges[1];
    CHECK(loop.from == loop.to);
    CHECK(in_metres(loop.length()) == Approx(1200));
    CHECK(crossings_of(result) ==
          std::vector<std::string>{"row 1: ABCDE crosses itself 1312 ft from its start"});
    region.district.roads[0].bridge = true;  // a ramp that winds over itself
    CHECK(network_of(region).network.edges.size() == 1);
}

TEST_CASE("the parts of a line of several parts join like other roads", "[map]") {
    AsciiRegion region(R"(
            C
        A   |   B
            D
    )");
    region.road("AB");
    region.road("CD").row = 0;
    const auto result = network_of(region);
    CHECK(parts_of(result) == 1);
    CHECK(result.network.edges.size() == 4);
}

TEST_CASE("two roads that cross more than once are told in one row", "[map]") {
    AsciiRegion region(R"(
            C---D
        A-------------B
            F   E
            G
    )");
    region.road("AB");
    region.road("GFCDE");
    const auto result = network_of(region);
    CHECK(result.network.edges.size() == 6);
    CHECK(crossings_of(result) == std::vector<std::string>{"row 1: AB crosses row 2 (GFCDE) at 2 "
                                                           "places, first 1312 ft from its start"});
}

TEST_CASE("many joined crossings are told in one row, those that bring parts together first",
          "[map]") {
    AsciiRegion region("A");
    District& district = region.district;
    const auto add = [&](Point from, Point to) {
        Road road;
        road.row = static_cast<std::uint32_t>(district.roads.size());
        road.name = "street";
        road.line = {from, to};
        district.roads.push_back(road);
    };
    for (int i = 1; i <= 10; ++i) {
        add({0, i * 100.0}, {1100, i * 100.0});
        add({i * 100.0, 0}, {i * 100.0, 1100});
    }
    const auto result = network_of(region);
    CHECK(parts_of(result) == 1);
    const std::vector<std::string> told = crossings_of(result);
    REQUIRE(told.size() == 51);
    CHECK(told.back() ==
          ": 50 more pairs of roads; 100 places in all; shared vertices alone leave the roads in "
          "20 parts, with "
          "these places 1 part");
    for (std::size_t row = 1; row <= 20; ++row) {  // each road is in a part of its own
        CAPTURE(row);
        const std::string name = "row " + std::to_string(row);
        CHECK(std::ranges::any_of(told, [&](const std::string& text) {
            return text.starts_with(name + ":") || text.find(name + " (") != std::string::npos;
        }));
    }
}

TEST_CASE("a road that is drawn twice is used once", "[map]") {
    AsciiRegion region(R"(
        A---B---C
            |
            D   E
    )");
    region.road("ABC");
    region.road("BD");
    Road& twice = region.road("DB");
    const auto result = network_of(region);
    CHECK(result.network.edges.size() == 3);
    CHECK(result.network.edges_of(RoadIndex(2)).empty());
    CHECK(extra_records(region) == 1);
    CHECK(test::count_of(result.problems, ProblemId::road_zero_length) == 0);
    SECTION("within 5 cm it is the same line, beyond it is another") {
        for (Point& point : twice.line) {
            point.x += 0.04;
        }
        CHECK(network_of(region).network.edges.size() == 3);
        for (Point& point : twice.line) {
            point.x += 0.02;
        }
        CHECK(network_of(region).network.edges_of(RoadIndex(2)).size() == 1);
    }
    SECTION("a second copy is told as well") {
        region.road("BD");
        CHECK(extra_records(region) == 2);
    }
    SECTION("two halves of a road, one for each direction, are both used") {
        region.district.roads[1].one_way = OneWay::forward;
        twice.one_way = OneWay::forward;
        const auto both = network_of(region);
        CHECK(both.network.edges_of(RoadIndex(2)).size() == 1);
        CHECK(extra_records(region) == 0);
        CHECK(test::count_of(both.problems, ProblemId::road_overlap) == 1);
        twice.one_way = OneWay::backward;
        CHECK(extra_records(region) == 1);
    }
    SECTION("on another level it is another road") {
        twice.level = 1;
        CHECK(extra_records(region) == 0);
    }
}

TEST_CASE("a dead end that is drawn twice stays a dead end", "[map]") {
    AsciiRegion region(R"(
        S---B---C
            |
            D
    )");
    region.station('S');
    region.unit(UnitKind::tanker, "T1", 'S');
    region.road("SBC");
    region.road("BD");
    region.road("BD");
    region.dump_site_place('D');
    const test::Routed routed(region.district);
    CHECK(routed.dump_sites.candidates.at(0).lane == LaneClass::dead_end);
}

TEST_CASE("a line drawn on a part of another is told", "[map]") {
    AsciiRegion region(R"(
        A---B---C---D
                    |
                    E
    )");
    region.road("AD");
    region.road("BCDE");
    const auto told = test::problems_of(network_of(region).problems, ProblemId::road_overlap);
    REQUIRE(told.size() == 1);
    CHECK(told[0].record == "row 2");
    CHECK(told[0].detail == "BCDE, on row 1 (AD) over 2625 ft");
    region.district.roads[1].level = 1;
    CHECK(test::count_of(network_of(region).problems, ProblemId::road_overlap) == 0);
}
