#include <catch2/catch.hpp>

#include "routing/gaps.h"
#include "tests/support/ascii_region.h"

using namespace farwater;
using test::AsciiRegion;

namespace {

std::vector<std::string> gaps_of(const AsciiRegion& region) {
    const auto network = routing::build_network(region.district, Work{}).network;
    std::vector<std::string> told;
    for (const Problem& problem : routing::gap_problems(region.district, network, Work{})) {
        CHECK(problem.id == ProblemId::road_gap);
        told.push_back(problem.record + ": " + problem.detail);
    }
    return told;
}

using Told = std::vector<std::string>;

// A side road that ends so far south of the middle of a road.
AsciiRegion short_of(Length gap) {
    AsciiRegion region(R"(
        A-------B
            X
            |
            D
    )");
    region.road("AB");
    region.road("DX").line.back().y = region.at('A').y - in_metres(gap);
    return region;
}

}  // namespace

TEST_CASE("an end that misses the middle of a road is told, and nothing is joined", "[map]") {
    CHECK(gaps_of(short_of(feet(9.3))) ==
          Told{"row 2: DX ends 9.3 ft from row 1 (AB), to which no other road leads from there"});
    CHECK(gaps_of(short_of(feet(14.9))).size() == 1);
    CHECK(gaps_of(short_of(feet(15.1))).empty());
    AsciiRegion wider = short_of(feet(15.1));
    wider.district.assumptions.gap_tolerance = feet(20);
    CHECK(gaps_of(wider).size() == 1);
    const auto network = routing::build_network(wider.district, Work{}).network;
    CHECK(network.edges.size() == 2);
}

TEST_CASE("an end that meets the road is no gap", "[map]") {
    CHECK(gaps_of(short_of(metres(0.04))).empty());
    AsciiRegion region = short_of(metres(0.04));
    region.district.assumptions.join_crossings = false;
    CHECK(gaps_of(region) ==
          Told{"row 2: DX ends 0.1 ft from row 1 (AB), to which no other road leads from there"});
}

TEST_CASE("two ends that miss each other are told once", "[map]") {
    AsciiRegion region("A---B---C");
    region.road("AB");
    region.road("BC").line.front().x += 3;
    CHECK(gaps_of(region) ==
          Told{"row 1: AB ends 9.8 ft from row 2 (BC), to which no other road leads from there"});
}

TEST_CASE("a gap in a road that other roads lead round is told", "[map]") {
    AsciiRegion region(R"(
        A---B---C
        |       |
        D-------E
    )");
    region.road("AB");
    region.road("BC").line.front().x += 3;
    region.road("ADEC");
    CHECK(gaps_of(region) ==
          Told{"row 1: AB ends 9.8 ft from row 2 (BC), to which other roads lead"});
}

TEST_CASE("a short stub and a sharp bend are no gaps", "[map]") {
    AsciiRegion region("A---B---C");
    region.road("AB");
    region.road("BC");
    const Point b = region.at('B');
    region.road("BC").line = {b, {b.x + 1, b.y + 3}};
    CHECK(gaps_of(region).empty());
    region.road("BC").line = {b, {b.x, b.y - 100}, {b.x + 1.5, b.y - 100}, {b.x + 3, b.y - 97}};
    CHECK(gaps_of(region).empty());
}

TEST_CASE("an end that goes a little too far at a sharp angle is no gap", "[map]") {
    AsciiRegion region(R"(
        A-------B


        D
    )");
    region.road("AB");
    const Point d = region.at('D');
    region.road("DA").line = {d, {d.x + 903, d.y + 301}};
    CHECK(routing::build_network(region.district, Work{}).network.edges.size() == 2);
    region.district.roads[1].line.back() = {d.x + 603, d.y + 301};
    CHECK(routing::build_network(region.district, Work{}).network.edges.size() == 4);
    CHECK(gaps_of(region).empty());
}

TEST_CASE("a ring that does not close is told", "[map]") {
    AsciiRegion region(R"(
        A---B---C
            |   |
            E---D
    )");
    region.road("AB");
    Road& ring = region.road("BCDEB");
    ring.line.back().y -= 4;
    CHECK(gaps_of(region) == Told{"row 2: BCDEB ends 13.1 ft from row 1 (AB), to which other roads "
                                  "lead"});
    ring.line.back() = {region.at('B').x + 2, region.at('B').y - 2};
    CHECK(gaps_of(region) ==
          Told{"row 2: BCDEB ends 6.6 ft from itself, to which other roads lead"});
}

TEST_CASE("an end below a bridge is told as it may be meant for it", "[map]") {
    AsciiRegion region = short_of(feet(0.0));
    CHECK(gaps_of(region).empty());
    region.district.roads[0].bridge = true;
    CHECK(gaps_of(region) ==
          Told{"row 2: DX ends 0.0 ft from row 1 (AB), to which no other road leads from there"});
}

TEST_CASE("a district without roads has no gaps") {
    CHECK(routing::gap_problems(District{}, routing::Network{}, Work{}).empty());
}
