// The rating schedule's needed fire flow against published and derived values.
#include <catch2/catch.hpp>

#include "tests/demand/standards.h"

using namespace farwater;
using namespace farwater::demand;

namespace {

constexpr auto rating = NeedMethod::rating_schedule;

BuildingFacts building(double area_sqft, Construction construction, double storeys = 1.0) {
    BuildingFacts facts = house(area_sqft);
    facts.use = BuildingUse::store;  // occupancy 1.0
    facts.construction = construction;
    facts.storeys = storeys;
    return facts;
}

double flow(const BuildingFacts& facts) {
    return flow_of(rating_schedule(rules_with(rating)), facts);
}

BuildingFacts dwelling_near(double feet_off) {
    BuildingFacts facts = house(1500);
    facts.storeys = 2;
    facts.separation.nearest_large_m = static_cast<float>(in_metres(feet(feet_off)));
    return facts;
}

}  // namespace

// 2,250 square feet of frame: the guide's example, from memory (1,280.7 becomes 1,250). The others
// are arithmetic on C = 18 F sqrt(A), USFA Coffee Break Training 2013-43 and 2013-45.
TEST_CASE("the construction's share goes by the root of the area, to the nearest 250", "[unit]") {
    CHECK(flow(building(2250, Construction::type_5b)) == 1250.0);
    CHECK(flow(building(20000, Construction::type_3b)) == 2500.0);
    CHECK(flow(building(40000, Construction::type_2b)) == 3000.0);
}

// San Marcos TX, amendment of the fire code's Appendix B: the ground floor and half of the others.
TEST_CASE("further floors count half", "[unit]") {
    CHECK(flow(building(10000, Construction::type_3b, 3)) == 2500.0);  // of 20,000
    CHECK(flow(building(20000, Construction::type_3b, 1)) == 2500.0);
}

// Limits from memory (guide, chapter 2); those of the result as a page that copies the rating
// organisation's text has them.
TEST_CASE("flows stay within the schedule's limits", "[unit]") {
    CHECK(flow(building(100, Construction::type_1a)) == 500.0);
    CHECK(flow(building(1e6, Construction::type_5b, 1)) == 6000.0);
    CHECK(flow(building(1e6, Construction::type_5b, 2)) == 8000.0);
    CHECK(flow(building(1e6, Construction::type_2b, 2)) == 6000.0);
    BuildingFacts worst = building(1e6, Construction::type_5b, 2);
    worst.use = BuildingUse::flammables;
    worst.separation.sides_ft = {0, 0, 0, 0};
    CHECK(flow(worst) == 12000.0);
}

// San Marcos TX: to 250 up to 2,500, to 500 above. Halves go up: our choice.
TEST_CASE("the needed flow is rounded to 250, above 2,500 to 500", "[unit]") {
    NeedRules rules = rules_with(rating);
    const auto rounded = [&](double exact) {
        // One storey of factor 1 and area (exact / 18) squared, not rounded before.
        for (StandardValue& value : rules.standard.values) {
            if (value.key == "construction_flow.round_to_gpm") {
                value.numbers = {0.001};
            }
        }
        return flow_of(rating_schedule(rules),
                       building(exact / 18.0 * exact / 18.0, Construction::type_3b));
    };
    CHECK(rounded(2374) == 2250.0);
    CHECK(rounded(2375.001) == 2500.0);
    CHECK(rounded(2740) == 2500.0);
    CHECK(rounded(2750.001) == 3000.0);
}

// The tie itself, which arithmetic on areas cannot hit: 500 x 1.25 and 3,000 x 1.25.
TEST_CASE("halves go up", "[unit]") {
    const auto flammables = [](double area_sqft, Construction construction) {
        BuildingFacts facts = building(area_sqft, construction);
        facts.use = BuildingUse::flammables;
        return flow(facts);
    };
    CHECK(flammables(100, Construction::type_5b) == 750.0);     // 625
    CHECK(flammables(40000, Construction::type_2b) == 4000.0);  // 3,750
}

// From memory: the largest factor of each distance, together at most 0.6.
TEST_CASE("every side with a building in reach adds its factor", "[unit]") {
    const auto with = [](std::array<std::uint8_t, 4> sides) {
        BuildingFacts facts = building(20000, Construction::type_3b);  // C 2,500
        facts.separation.sides_ft = sides;
        return flow(facts);
    };
    constexpr auto no = Separation::no_side;
    CHECK(with({no, no, no, no}) == 2500.0);
    CHECK(with({10, no, no, no}) == 3000.0);   // 3,125
    CHECK(with({10, 11, no, no}) == 3500.0);   // 3,625
    CHECK(with({10, 10, 30, 60}) == 4000.0);   // 0.85, at most 0.6
    CHECK(with({100, no, no, no}) == 3000.0);  // 2,800
    CHECK(with({101, no, no, no}) == 2500.0);
}

// A page that copies the rating organisation's text ("International Standards Organization (ISO)").
TEST_CASE("dwellings by the older table, on both sides of every bound", "[unit]") {
    CHECK(flow(dwelling_near(120)) == 500.0);
    CHECK(flow(dwelling_near(101)) == 500.0);
    CHECK(flow(dwelling_near(100)) == 750.0);
    CHECK(flow(dwelling_near(31)) == 750.0);
    CHECK(flow(dwelling_near(30.5)) == 1000.0);
    CHECK(flow(dwelling_near(30)) == 1000.0);
    CHECK(flow(dwelling_near(11)) == 1000.0);
    CHECK(flow(dwelling_near(10)) == 1500.0);
    CHECK(flow(dwelling_near(0)) == 1500.0);
    CHECK(flow(house(1500)) == 500.0);  // none in reach
}

// Guide of 2013 and later, from memory.
TEST_CASE("dwellings by the newer table, on both sides of every bound", "[unit]") {
    NeedRules rules = rules_with(rating);
    rules.separation_table = SeparationTable::newer;
    const Method method = rating_schedule(rules);
    CHECK(flow_of(method, dwelling_near(31)) == 500.0);
    CHECK(flow_of(method, dwelling_near(30)) == 750.0);
    CHECK(flow_of(method, dwelling_near(21)) == 750.0);
    CHECK(flow_of(method, dwelling_near(20)) == 1000.0);
    CHECK(flow_of(method, dwelling_near(11)) == 1000.0);
    CHECK(flow_of(method, dwelling_near(10)) == 1500.0);
}

// 4,800 square feet of effective area: guide of 2013 and later, from memory.
TEST_CASE("a large dwelling goes by its construction, by the newer table", "[unit]") {
    NeedRules rules = rules_with(rating);
    BuildingFacts large = dwelling_near(120);
    large.area_sqft = 3200;  // 4,800 with half of the upper floor
    CHECK(flow(large) == 500.0);
    rules.separation_table = SeparationTable::newer;
    CHECK(flow_of(rating_schedule(rules), large) == 500.0);
    large.area_sqft = 3201;
    CHECK(flow(large) == 500.0);
    CHECK(flow_of(rating_schedule(rules), large) == 1750.0);  // 18 x 1.5 x the root of 4,801.5
}

TEST_CASE("a dwelling of more than two storeys goes by its construction", "[unit]") {
    BuildingFacts facts = house(2250);
    facts.storeys = 2.0;
    CHECK(flow(facts) == 500.0);
    facts.storeys = 2.5;
    CHECK(flow(facts) == 1750.0);  // C of 3,937.5 square feet: 1,694
}

// Items 340 and 616, from memory.
TEST_CASE("the duration goes by the flow", "[unit]") {
    const Method method = rating_schedule(rules_with(rating));
    CHECK(method(building(20000, Construction::type_3b)).duration == minutes(120));   // 2,500
    CHECK(method(building(40000, Construction::type_2b)).duration == minutes(180));   // 3,000
    CHECK(method(building(1e6, Construction::type_2b, 2)).duration == minutes(240));  // 6,000
}

TEST_CASE("every use and construction has its number", "[unit]") {
    const NeedRules rules = rules_with(rating);
    for (const std::string_view use : words_of(BuildingUse{})) {
        CAPTURE(use);
        const double factor = rules.standard.number("occupancy." + std::string(use));
        CHECK((factor >= 0.75 && factor <= 1.25));
    }
    for (const std::string_view type : words_of(Construction{})) {
        CAPTURE(type);
        CHECK(rules.standard.number("construction." + std::string(type)) >= 0.6);
    }
}
