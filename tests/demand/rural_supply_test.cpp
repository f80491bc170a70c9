// The rural water supply standard against published and derived values.
#include <catch2/catch.hpp>

#include "tests/demand/standards.h"

using namespace farwater;
using namespace farwater::demand;

namespace {

constexpr auto rural = NeedMethod::rural_supply;

// 50 x 24 ft, 8 ft of wall and half of 8 ft of roof.
BuildingFacts small_house(Construction construction) {
    BuildingFacts facts = house(1200);
    facts.volume_cuft = 14400;
    facts.construction = construction;
    return facts;
}

float off(double feet_off) { return static_cast<float>(in_metres(feet(feet_off))); }

BuildingFacts near_any(BuildingFacts facts, double feet_off) {
    facts.separation.nearest_m = off(feet_off);
    return facts;
}

BuildingFacts near_large(BuildingFacts facts, double feet_off) {
    facts.separation.nearest_m = off(feet_off);
    facts.separation.nearest_large_m = off(feet_off);
    return facts;
}

}  // namespace

// The 14,400 cubic feet are the standard's example, from memory; the rest is arithmetic on its
// formula (volume / hazard x class, 1.5 with an exposure: course slides on NFPA 1142, 4.2 and 4.3).
TEST_CASE("minimum supply is volume over hazard times class, half as much again when exposed",
          "[unit]") {
    const Method method = rural_supply(rules_with(rural));
    CHECK(method(small_house(Construction::type_3b)).total_gal == Approx(2057.14).epsilon(1e-5));
    CHECK(method(small_house(Construction::type_5b)).total_gal == Approx(3085.71).epsilon(1e-5));
    CHECK(method(near_large(small_house(Construction::type_5b), 40)).total_gal ==
          Approx(4628.57).epsilon(1e-5));
}

// Floors: course slides on NFPA 1142, 4.2; NFPA 1142-2001, 7.3.2.
TEST_CASE("minimum supply is never under its floors", "[unit]") {
    const Method method = rural_supply(rules_with(rural));
    BuildingFacts facts = small_house(Construction::type_3b);
    facts.volume_cuft = 7000;
    CHECK(method(facts).total_gal == 2000.0);
    CHECK(method(near_large(facts, 40)).total_gal == 3000.0);
}

// Course slides on NFPA 1142, 4.1.5.
TEST_CASE("a neighbour is an exposure by distance and size, in graver hazards whatever its size",
          "[unit]") {
    const Method method = rural_supply(rules_with(rural));
    const BuildingFacts dwelling = small_house(Construction::type_5b);
    CHECK(method(near_any(dwelling, 49)).total_gal < 4000);
    CHECK(method(near_large(dwelling, 49)).total_gal > 4000);
    CHECK(method(near_large(dwelling, 50)).total_gal > 4000);
    CHECK(method(near_large(dwelling, 50.01)).total_gal < 4000);
    BuildingFacts store = near_any(dwelling, 49);
    store.use = BuildingUse::store;  // hazard 4
    CHECK(method(store).total_gal == Approx(14400.0 / 4 * 1.5 * 1.5));
    store.hazard_class = 5;  // the data's own number goes first
    CHECK(method(store).total_gal == Approx(14400.0 / 5 * 1.5));
}

// Table 4.6.1, from memory.
TEST_CASE("the delivery rate goes by the total, on both sides of every bound", "[unit]") {
    const Method method = rural_supply(rules_with(rural));
    const auto rate = [&](double total_gal) {
        BuildingFacts facts = small_house(Construction::type_3b);
        facts.volume_cuft = 7.0 * total_gal;
        return flow_of(method, facts);
    };
    CHECK(rate(2499) == 250.0);
    CHECK(rate(2500) == 500.0);
    CHECK(rate(9999) == 500.0);
    CHECK(rate(10000) == 750.0);
    CHECK(rate(19999) == 750.0);
    CHECK(rate(20000) == 1000.0);
    CHECK(rate(2000000) == 1000.0);
}

TEST_CASE("the cap of early editions holds a dwelling's class at 1, and no other's", "[unit]") {
    NeedRules rules = rules_with(rural);
    rules.dwelling_cap = true;
    const Method method = rural_supply(rules);
    CHECK(method(small_house(Construction::type_5b)).total_gal == Approx(2057.14).epsilon(1e-5));
    CHECK(method(small_house(Construction::type_1a)).total_gal == 2000.0);
    BuildingFacts barn = small_house(Construction::type_5b);
    barn.use = BuildingUse::barn;
    CHECK(method(barn).total_gal == Approx(5400.0));
}

// An acceptance story: a barn of 60 x 120 ft, eaves 14 and ridge 26 ft. Arithmetic.
TEST_CASE("a large barn calls for the highest rate by either hazard class", "[unit]") {
    const Method method = rural_supply(rules_with(rural));
    Building barn;
    barn.area_m2 = static_cast<float>(7200 * metres_per_foot * metres_per_foot);
    barn.separation.known = true;
    barn.traits.eaves_m = off(14);
    barn.traits.height_m = off(26);
    barn.traits.use = BuildingUse::barn;
    const NeedRules rules = rules_with(rural);
    const BuildingNeed need = method(facts_of(barn, rules, {}));
    CHECK(need.total_gal == Approx(54000).epsilon(1e-4));
    CHECK(in_gpm(need.flow) == 1000.0);
    barn.traits.hazard_class = 5;
    CHECK(method(facts_of(barn, rules, {})).total_gal == Approx(43200).epsilon(1e-4));
}

TEST_CASE("every use and construction has its number, graver hazards needing more", "[unit]") {
    const NeedRules rules = rules_with(rural);
    const Method method = rural_supply(rules);
    for (std::size_t u = 0; u < words_of(BuildingUse{}).size(); ++u) {
        for (std::size_t c = 0; c < words_of(Construction{}).size(); ++c) {
            BuildingFacts facts = house(5000);
            facts.use = static_cast<BuildingUse>(u);
            facts.construction = static_cast<Construction>(c);
            CAPTURE(word(facts.use), word(facts.construction));
            const double hazard = rules.standard.number("hazard." + std::string(word(facts.use)));
            CHECK((hazard >= 3 && hazard <= 7));
            CHECK(method(facts).total_gal >= 5000 * 12 / 7.0 * 0.5);
        }
    }
}
