// The fire code's Appendix B against its table as cities print it.
#include <catch2/catch.hpp>

#include "tests/demand/standards.h"

using namespace farwater;
using namespace farwater::demand;

namespace {

BuildingFacts store(double area_sqft, Construction construction) {
    BuildingFacts facts = house(area_sqft);
    facts.use = BuildingUse::store;
    facts.construction = construction;
    return facts;
}

BuildingNeed need(const BuildingFacts& facts) {
    return fire_code(rules_with(NeedMethod::fire_code))(facts);
}
double code_flow(const BuildingFacts& facts) { return in_gpm(need(facts).flow); }

}  // namespace

// College Station TX, "Fire Flow - Section B105"; first row also Water Engineering, Table 4.13.
TEST_CASE("fire flow by area and construction, on both sides of the table's bounds", "[unit]") {
    const auto frame = Construction::type_5b;
    CHECK(code_flow(store(3600, frame)) == 1500.0);
    CHECK(code_flow(store(3601, frame)) == 1750.0);
    CHECK(code_flow(store(13400, frame)) == 3000.0);
    CHECK(code_flow(store(13401, frame)) == 3250.0);
    CHECK(code_flow(store(23300, frame)) == 4000.0);
    CHECK(code_flow(store(36000, frame)) == 5000.0);
    CHECK(code_flow(store(22700, Construction::type_1a)) == 1500.0);
    CHECK(code_flow(store(22701, Construction::type_1a)) == 1750.0);
    CHECK(code_flow(store(5900, Construction::type_2b)) == 1500.0);
    CHECK(code_flow(store(5901, Construction::type_2b)) == 1750.0);
    CHECK(code_flow(store(12700, Construction::type_3a)) == 1500.0);
    CHECK(code_flow(store(12701, Construction::type_2a)) == 1750.0);
    CHECK(code_flow(store(8200, Construction::type_4)) == 1500.0);
    CHECK(code_flow(store(8201, Construction::type_5a)) == 1750.0);
}

// From memory.
TEST_CASE("the last row of every column has no upper bound", "[unit]") {
    CHECK(code_flow(store(47401, Construction::type_5b)) == 6000.0);
    CHECK(code_flow(store(85100, Construction::type_5b)) == 7750.0);
    CHECK(code_flow(store(85101, Construction::type_5b)) == 8000.0);
    CHECK(code_flow(store(5e6, Construction::type_5b)) == 8000.0);
    CHECK(code_flow(store(138301, Construction::type_3b)) == 8000.0);
    CHECK(code_flow(store(191401, Construction::type_4)) == 8000.0);
    CHECK(code_flow(store(5e6, Construction::type_2a)) == 6000.0);
    CHECK(code_flow(store(5e6, Construction::type_1b)) == 6000.0);
}

// College Station TX; Placentia CA, Table B105.1(1).
TEST_CASE("a dwelling up to 3,600 square feet needs 1,000 gpm for an hour", "[unit]") {
    CHECK(in_gpm(need(house(3600)).flow) == 1000.0);
    CHECK(need(house(3600)).duration == minutes(60));
    CHECK(code_flow(house(3601)) == 1750.0);
    CHECK(need(house(3601)).duration == minutes(120));
    BuildingFacts two_floors = house(1801);
    two_floors.storeys = 2;
    CHECK(code_flow(two_floors) == 1750.0);
}

// Hours: from memory.
TEST_CASE("the hours go up with the flow", "[unit]") {
    CHECK(need(store(11300, Construction::type_5b)).duration == minutes(120));  // 2,750
    CHECK(need(store(11301, Construction::type_5b)).duration == minutes(180));  // 3,000
    CHECK(need(store(20600, Construction::type_5b)).duration == minutes(180));  // 3,750
    CHECK(need(store(20601, Construction::type_5b)).duration == minutes(240));  // 4,000
}

// Small dwelling and the quarter: model code, from memory; half of the table: Placentia CA.
TEST_CASE("sprinklers that a column tells lower the flow", "[unit]") {
    BuildingFacts facts = house(3600);
    facts.sprinklers = Sprinklers::nfpa_13d;
    CHECK(code_flow(facts) == 500.0);
    CHECK(need(facts).duration == minutes(30));
    facts.area_sqft = 13400;
    CHECK(code_flow(facts) == 1500.0);
    CHECK(need(facts).duration == minutes(60));
    BuildingFacts shop = store(85101, Construction::type_5b);
    shop.sprinklers = Sprinklers::nfpa_13;
    CHECK(code_flow(shop) == 2000.0);
    shop.area_sqft = 3600;
    CHECK(code_flow(shop) == 1000.0);
}

// Table B105.2, from memory: 903.3.1.1 (NFPA 13) and 903.3.1.2 (NFPA 13R) alone are credited, and
// 13R is for residential buildings.
TEST_CASE("a sprinkler system for homes lowers no other building's flow", "[unit]") {
    BuildingFacts flats = store(18000, Construction::type_5b);
    flats.use = BuildingUse::apartments;
    const double without = code_flow(flats);
    CHECK(without == 3500.0);
    flats.sprinklers = Sprinklers::nfpa_13d;
    CHECK(code_flow(flats) == without);
    flats.sprinklers = Sprinklers::nfpa_13r;
    CHECK(code_flow(flats) == 1500.0);
    BuildingFacts shop = store(18000, Construction::type_5b);
    shop.sprinklers = Sprinklers::nfpa_13r;
    CHECK(code_flow(shop) == without);
}

// B104.3, from memory.
TEST_CASE("of type 1 three floors count", "[unit]") {
    BuildingFacts tower = store(7600, Construction::type_1a);
    tower.storeys = 12;
    CHECK(code_flow(tower) == 1750.0);  // 22,800 square feet
    tower.construction = Construction::type_2b;
    CHECK(code_flow(tower) == 6500.0);  // 91,200
}
