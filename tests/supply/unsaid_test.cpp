// What nobody says of a unit that comes all the same makes the answer an assumed one.
#include "analyzer/supply/unsaid.h"

#include <catch2/catch.hpp>

#include "tests/supply/one_dump_site.h"

using namespace farwater;
using namespace farwater::supply;

TEST_CASE("an answer rests on an assumed value where nobody lists the crew of a unit in it",
          "[unit]") {
    for (const std::size_t unit : {0U, 1U, 2U, 3U, 4U, 5U}) {
        OneDumpSite scene;
        const ParcelSupply said = scene.supply();
        REQUIRE(said.tankers == 4);
        CHECK(said.evidence == Evidence::declared);
        scene.district.units[unit].crew.reset();
        const ParcelSupply blank = scene.supply();
        CHECK(blank.evidence == Evidence::assumed);
        CHECK(blank.cautious <= said.cautious);
        // The staffing of the period is as good a word.
        scene.district.staffing.push_back({.unit = UnitIndex(unit),
                                           .station = {},
                                           .period = PeriodIndex(0),
                                           .crew = 8,
                                           .turnout = {}});
        CHECK(scene.supply().evidence == Evidence::declared);
    }
}

TEST_CASE("a neighbour's station without minutes to its gate is an assumed value, 0 is a word",
          "[unit]") {
    OneDumpSite scene;
    scene.district.stations[0].aid = Aid::automatic;
    CHECK(scene.supply().evidence == Evidence::assumed);
    scene.district.stations[0].to_gate = minutes(0);
    CHECK(scene.supply().evidence == Evidence::declared);
}
