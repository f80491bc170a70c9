// One more of each usual thing, for a district that has named none.
#include "analyzer/planning/stock_improvements.h"

#include <catch2/catch.hpp>

#include "analyzer/planning/improvement_words.h"

using namespace farwater;
using namespace farwater::planning;

namespace {

Unit a_unit(std::string id, std::size_t station, UnitKind kind, double tank) {
    Unit unit;
    unit.id = std::move(id);
    unit.station = StationIndex(station);
    unit.kind = kind;
    unit.tank = gallons(tank);
    return unit;
}

District two_stations() {
    District district;
    district.stations.resize(2);
    district.stations[0].id = "S1";
    district.stations[1].id = "M1";
    district.stations[1].aid = Aid::mutual;
    district.units = {
        a_unit("E1", 0, UnitKind::engine, 1000), a_unit("T1", 0, UnitKind::tanker, 1800),
        a_unit("T2", 0, UnitKind::tanker, 2500), a_unit("T3", 0, UnitKind::tanker, 2500),
        a_unit("T9", 1, UnitKind::tanker, 3000)};
    district.units[2].offload = gpm(1200);
    district.units[3].offload = gpm(900);
    district.units[0].hose = HoseLoad{feet(600), feet(0), feet(800), feet(0)};
    district.units[1].portable_tank = gallons(4200);
    district.units[1].portable_tanks = 2;
    district.periods = {{"noon", std::nullopt, std::nullopt}};
    return district;
}

std::vector<std::string> names_of(const District& district) {
    std::vector<std::string> names;
    for (const Improvement& one : stock_improvements(district, PeriodIndex(0))) {
        names.push_back(usual_name(district, one));
        CHECK(one.by == OfferedBy::program);
        CHECK_FALSE(one.spending.cost);
    }
    return names;
}

}  // namespace

TEST_CASE("one more of each usual thing at each own station, and aid that comes by itself") {
    CHECK(names_of(two_stations()) ==
          std::vector<std::string>{"tanker like T2 at S1", "2100-gal portable tank on E1",
                                   "jet siphon on E1", "1000 ft of 4-in hose on E1",
                                   "dump valve of 1000 gpm on T1", "automatic aid of T9"});
}

TEST_CASE("a unit that stays in quarters in the thinnest period gets a crew, tankers first") {
    District district = two_stations();
    district.staffing = {{UnitIndex(0), {}, PeriodIndex(0), 0, std::nullopt},
                         {UnitIndex(3), {}, PeriodIndex(0), 1, std::nullopt}};
    district.units[3].min_crew = 2;
    CHECK(names_of(district).at(5) == "crew of 2 for T3, noon");
}

TEST_CASE("nothing is offered that a station has no use for") {
    District district;
    CHECK(names_of(district).empty());
    district.stations.resize(1);
    CHECK(names_of(district).empty());
}
