#include <catch2/catch.hpp>

#include "routing/islands.h"
#include "tests/routing/routed.h"
#include "tests/support/ascii_region.h"

using namespace farwater;
using test::AsciiRegion;

namespace {

std::vector<std::string> islands_of(const AsciiRegion& region) {
    const test::Routed routed(region.district);
    std::vector<std::string> told;
    for (const Problem& problem : routing::island_problems(region.district, routed.network.network,
                                                           routed.access.access, Work{})) {
        CHECK(problem.id == ProblemId::road_island);
        told.push_back(problem.record + ": " + problem.detail);
    }
    return told;
}

}  // namespace

TEST_CASE("islands are told with their size, their parcels and the gap, the longest first",
          "[map]") {
    AsciiRegion region(R"(
        A---B   E---F---G
                1       2

                H---I---J---K---L
                  3
    )");
    region.road("AB");
    region.road("EF");
    region.road("FG");
    region.road("HIJKL");
    for (const char parcel : {'1', '2', '3'}) {
        region.parcel(parcel);
    }
    CHECK(islands_of(region) ==
          std::vector<std::string>{
              "row 2: with 2 roads, 2625 ft in all, access of 2 parcels, 984 ft from row 4 (HIJKL) "
              "of the main network",
              "row 1: with 1 road, 1312 ft in all, access of 0 parcels, 1640 ft from row 4 (HIJKL) "
              "of the main network"});
}

TEST_CASE("the gap is measured from lines, not from their vertices", "[map]") {
    AsciiRegion region(R"(
        A-------------------B
                 C
                D E
    )");
    region.road("CD");
    region.road("AB");
    region.road("DE");
    REQUIRE(islands_of(region).size() == 1);
    CHECK(islands_of(region)[0].ends_with(" 328 ft from row 2 (AB) of the main network"));
    SECTION("also when the vertex is the main network's") {
        // The island passes the corner of the main network in the middle of a segment.
        AsciiRegion corner(R"(
            A           B
                  1
            C     X     D


            E           F
        )");
        corner.road("CXD");
        corner.road("EF");
        corner.district.roads[1].line = {{corner.at('C').x - 100, corner.at('A').y},
                                         {corner.at('D').x + 100, corner.at('A').y}};
        corner.district.roads[0].line = {corner.at('E'), corner.at('X'), corner.at('F')};
        REQUIRE(islands_of(corner).size() == 1);
        CHECK(islands_of(corner)[0].find(", 656 ft from row") != std::string::npos);
    }
}

TEST_CASE("an island whose road passes over the main network says so", "[map]") {
    AsciiRegion region(R"(
            C
        A   |   B
            D
    )");
    region.road("AB");
    region.road("CD").bridge = true;
    REQUIRE(islands_of(region).size() == 1);
    CHECK(islands_of(region)[0].ends_with(
        "crosses row 1 (AB) of the main network without a junction"));
}

TEST_CASE("an island far from everything", "[map]") {
    AsciiRegion region(R"(
        A---B---C                     D-E
    )");
    region.road("ABC");
    region.road("DE");
    CHECK(islands_of(region)[0].ends_with("more than a mile from the main network"));
}

TEST_CASE("one network has no island", "[map]") {
    AsciiRegion region("A---B---C");
    region.road("AB");
    region.road("BC");
    CHECK(islands_of(region).empty());
    CHECK(islands_of(AsciiRegion("A")).empty());
}
