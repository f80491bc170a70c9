// What parcels need: which building, which rule, what is missing.
#include "analyzer/demand/needed_flow.h"

#include <catch2/catch.hpp>

#include "analyzer/demand/need_bands.h"
#include "tests/demand/standards.h"

using namespace farwater;
using namespace farwater::demand;

namespace {

District one_parcel(NeedMethod method = NeedMethod::column) {
    District district;
    district.need = rules_with(method);
    district.parcels.push_back({.id = "A", .house = {1, 1}});
    return district;
}

Building& add_building(District& district, double area_sqft, std::optional<BuildingUse> use,
                       std::size_t parcel = 0) {
    Building building;
    building.parcel = ParcelIndex(parcel);
    building.place = {100.0 * static_cast<double>(district.buildings.size()), 50};
    building.area_m2 = static_cast<float>(area_sqft * metres_per_foot * metres_per_foot);
    building.traits.use = use;
    building.separation.known = true;
    district.buildings.push_back(building);
    return district.buildings.back();
}

Need need_of(const District& district) {
    const auto needs = needs_of(district);
    REQUIRE(needs.front());
    return *needs.front();
}

}  // namespace

TEST_CASE("a parcel's own need and duration go before the district's default", "[unit]") {
    District district = one_parcel();
    district.parcels[0].needed = gpm(1250);
    district.parcels[0].duration = minutes(180);
    const Need need = need_of(district);
    CHECK(need.flow == tenths_of_gpm(12500));
    CHECK(need.duration == minutes(180));
    CHECK(need.evidence == Evidence::declared);
    CHECK(need.from == NeedFrom::own_column);
}

TEST_CASE("a parcel without a need takes the default and says that it is assumed", "[unit]") {
    const Need need = need_of(one_parcel());
    CHECK(need.flow == tenths_of_gpm(5000));
    CHECK(need.duration == minutes(120));
    CHECK(need.evidence == Evidence::assumed);
    CHECK(need.from == NeedFrom::default_flow);
}

TEST_CASE("one flow for all passes the column over", "[unit]") {
    District district = one_parcel(NeedMethod::fixed);
    district.parcels[0].needed = gpm(1250);
    CHECK(need_of(district).flow == tenths_of_gpm(5000));
}

TEST_CASE("a parcel without a building needs nothing", "[unit]") {
    District district = one_parcel();
    district.parcels[0].improved = false;
    district.parcels[0].needed = gpm(500);
    CHECK_FALSE(needs_of(district).front());
}

TEST_CASE("a target always needs water", "[unit]") {
    District district;
    district.targets.emplace_back();
    CHECK(needs_of(district).front()->flow == tenths_of_gpm(5000));
}

TEST_CASE("a default that the district set itself is its word, not an assumption", "[unit]") {
    District district = one_parcel();
    district.assumptions.given = {"default_needed_gpm"};
    CHECK(need_of(district).evidence == Evidence::declared);
}

// An acceptance story: barn 60 x 120 ft, house of 1,200 square feet and two storeys.
TEST_CASE("a farm's need and place are those of its barn, the house's need stands beside it",
          "[unit]") {
    District district = one_parcel(NeedMethod::rural_supply);
    add_building(district, 1200, BuildingUse::dwelling);
    add_building(district, 7200, BuildingUse::barn);
    const auto needs = needs_of(district);
    const Need need = needs.front().value();
    CHECK(need.flow == tenths_of_gpm(10000));
    CHECK(need.dwelling == tenths_of_gpm(5000));  // 5,400 gal
    CHECK(need.worst == BuildingIndex(1));
    CHECK(need.total_gal == Approx(7200 * 21 / 4.0 * 1.5).epsilon(1e-4));
    CHECK(need.duration == minutes(120));  // never total over flow
    move_houses(district, needs);
    CHECK(district.parcels[0].house == district.buildings[1].place);
    CHECK(district.parcels[0].house_from == HousePlace::building);
}

TEST_CASE("an address point stays where it is the worst building's, else the building is the house",
          "[unit]") {
    District district = one_parcel(NeedMethod::rural_supply);
    add_building(district, 1200, BuildingUse::dwelling);
    add_building(district, 7200, BuildingUse::barn);
    district.parcels[0].house_from = HousePlace::address_point;
    district.parcels[0].house = {90, 50};
    const auto needs = needs_of(district);
    move_houses(district, needs);
    CHECK(district.parcels[0].house == Point{90, 50});
    district.parcels[0].house = {10, 50};
    move_houses(district, needs);
    CHECK(district.parcels[0].house == Point{100, 50});
}

TEST_CASE("what is missing takes the stated default, lowers the evidence and is told", "[unit]") {
    District district = one_parcel(NeedMethod::rural_supply);
    Building& house = add_building(district, 1200, std::nullopt);
    Need need = need_of(district);
    CHECK(need.defaulted ==
          NeedInputs{NeedInput::use, NeedInput::construction, NeedInput::storeys});
    CHECK(need.evidence == Evidence::assumed);
    CHECK(need.total_gal == Approx(5400).epsilon(1e-4));
    house.traits = {
        .storeys = 2.0F, .use = BuildingUse::dwelling, .construction = Construction::type_5b};
    need = need_of(district);
    CHECK(need.defaulted.empty());
    CHECK(need.evidence == Evidence::declared);
}

TEST_CASE("a default that the district states is its word, and told all the same", "[unit]") {
    District district = one_parcel(NeedMethod::rural_supply);
    add_building(district, 1200, BuildingUse::dwelling).traits.storeys = 1.0F;
    CHECK(need_of(district).evidence == Evidence::assumed);
    district.need.given = {"default_construction"};
    CHECK(need_of(district).evidence == Evidence::declared);
    CHECK(need_of(district).defaulted == NeedInputs{NeedInput::construction});
}

TEST_CASE("what the method does not look at is not told as a default", "[unit]") {
    District district = one_parcel(NeedMethod::rating_schedule);
    add_building(district, 1200, BuildingUse::dwelling).traits.storeys = 1.0F;
    CHECK(need_of(district).defaulted.empty());  // construction matters not to its table
}

TEST_CASE("buildings without a known footprint leave the default flow", "[unit]") {
    District district = one_parcel(NeedMethod::rural_supply);
    add_building(district, 0, BuildingUse::dwelling);
    const Need need = need_of(district);
    CHECK(need.flow == tenths_of_gpm(5000));
    CHECK(need.from == NeedFrom::default_flow);
    CHECK(need.defaulted == NeedInputs{NeedInput::footprint});
    CHECK_FALSE(need.worst.valid());
    const auto problems = need_problems(district, needs_of(district));
    REQUIRE(problems.size() == 1);
    CHECK(problems[0].field == "footprint");
    CHECK(problems[0].detail == "1 of 1 improved parcels");
}

TEST_CASE("a parcel's own flow goes before the method, its place is the worst building's",
          "[unit]") {
    District district = one_parcel(NeedMethod::rural_supply);
    district.parcels[0].needed = gpm(1750);
    add_building(district, 1200, BuildingUse::dwelling);
    const Need need = need_of(district);
    CHECK(need.flow == tenths_of_gpm(17500));
    CHECK(need.from == NeedFrom::own_column);
    CHECK(need.worst == BuildingIndex(0));
    CHECK(need.defaulted.empty());
}

TEST_CASE("the state is judged over the longer of the usual and the method's duration", "[unit]") {
    District district = one_parcel(NeedMethod::fire_code);
    add_building(district, 1200, BuildingUse::dwelling);
    CHECK(need_of(district).duration == minutes(120));  // the code's hour is shorter
    district.buildings[0].traits.use = BuildingUse::store;
    district.buildings[0].area_m2 = 4000.0F;
    CHECK(need_of(district).duration == minutes(240));
    district.assumptions.given = {"duration_min"};  // the district's word goes before
    CHECK(need_of(district).duration == minutes(120));
}

TEST_CASE("heights go before storeys, and storeys are told from heights", "[unit]") {
    const NeedRules rules;
    Building building;
    building.area_m2 = static_cast<float>(1000 * metres_per_foot * metres_per_foot);
    const auto feet_in_m = [](double value) { return static_cast<float>(value * metres_per_foot); };
    const auto facts = [&] { return facts_of(building, rules, {}); };
    CHECK(facts().volume_cuft == Approx(21000));  // two storeys of 9 ft and half of 6 ft of roof
    CHECK(facts().storeys == 2.0);
    building.traits.storeys = 1.0F;
    CHECK(facts().volume_cuft == Approx(12000));
    building.traits.height_m = feet_in_m(20);
    CHECK(facts().volume_cuft == Approx(20000));
    building.traits.eaves_m = feet_in_m(12);
    CHECK(facts().volume_cuft == Approx(16000));
    building.traits.height_m = 0.0F;
    CHECK(facts().volume_cuft == Approx(15000));
    building.traits.storeys = 0.0F;
    CHECK(facts().storeys == 2.0);  // 12 ft of wall
    building.traits.eaves_m = feet_in_m(9);
    CHECK(facts().storeys == 1.0);
    CHECK(facts().defaulted == NeedInputs{NeedInput::use, NeedInput::construction});
}

TEST_CASE("of buildings that need as much the larger total goes first, then the larger footprint",
          "[unit]") {
    District district = one_parcel(NeedMethod::rural_supply);
    add_building(district, 1000, BuildingUse::dwelling);
    add_building(district, 1400, BuildingUse::dwelling);
    add_building(district, 1400, BuildingUse::dwelling);
    CHECK(need_of(district).worst == BuildingIndex(1));
}

TEST_CASE("parcels are counted by band under both choices of the method", "[unit]") {
    District district = one_parcel(NeedMethod::rural_supply);
    add_building(district, 1600, BuildingUse::dwelling);  // 7,200 gal; 4,800 capped
    district.parcels.push_back({.id = "B"});
    add_building(district, 600, BuildingUse::dwelling, 1);  // 2,700 gal; 2,000 capped
    district.parcels.push_back({.id = "C", .improved = false});
    const auto bands = need_bands(district, needs_of(district));
    REQUIRE(bands.size() == 2);
    CHECK(bands[0].parcels == std::array<std::size_t, 7>{0, 2, 0, 0, 0, 0, 0});
    CHECK(bands[1].parcels == std::array<std::size_t, 7>{1, 1, 0, 0, 0, 0, 0});
}

// Nobody knows how near others stand to a point, and what is not known never helps.
TEST_CASE("a building drawn as a point counts as if others touched it, and the parcel says so") {
    for (const NeedMethod method : {NeedMethod::rural_supply, NeedMethod::rating_schedule}) {
        CAPTURE(static_cast<int>(method));
        District district = one_parcel(method);
        Building& building = add_building(district, 1800, BuildingUse::store);
        building.traits.storeys = 2.0F;
        building.traits.construction = Construction::type_5b;
        const Need drawn = need_of(district);
        CHECK(drawn.defaulted == NeedInputs{});
        building.separation.nearest_m = building.separation.nearest_large_m = 0.0F;
        building.separation.sides_ft = {0, 0, 0, 0};
        const Need touched = need_of(district);
        building.separation = {};
        const Need point = need_of(district);
        CHECK(point.flow == touched.flow);
        CHECK(point.total_gal == touched.total_gal);
        CHECK(point.flow > drawn.flow);
        CHECK(point.from == NeedFrom::method);
        CHECK(point.defaulted == NeedInputs{NeedInput::footprint});
        CHECK(point.evidence == Evidence::assumed);
        building.traits.storeys = 3.0F;
        CHECK(need_of(district).flow >= point.flow);
    }
}

// A barn that is only a point must not hide behind a shed that was measured.
TEST_CASE("beside a building of unknown size others never lower the need under the default",
          "[unit]") {
    District district = one_parcel(NeedMethod::rural_supply);
    Building& known = add_building(district, 400, BuildingUse::outbuilding);
    known.traits.storeys = 1.0F;
    known.traits.construction = Construction::type_5b;
    CHECK(need_of(district).flow == tenths_of_gpm(2500));
    CHECK(need_of(district).defaulted.empty());
    add_building(district, 0, BuildingUse::barn).separation = {};
    Need need = need_of(district);
    CHECK(need.flow == tenths_of_gpm(5000));
    CHECK(need.from == NeedFrom::default_flow);
    CHECK(need.defaulted == NeedInputs{NeedInput::footprint});
    CHECK(need.evidence == Evidence::assumed);
    CHECK_FALSE(need.worst.valid());
    district.buildings[0].area_m2 = 700.0F;  // 22,604 gal
    need = need_of(district);
    CHECK(need.flow == tenths_of_gpm(10000));
    CHECK(need.from == NeedFrom::method);
    CHECK(need.worst == BuildingIndex(0));
    CHECK(need.defaulted == NeedInputs{NeedInput::footprint});
    CHECK(need.evidence == Evidence::assumed);
    district.parcels[0].needed = gpm(250);  // somebody looked at that property
    need = need_of(district);
    CHECK(need.flow == tenths_of_gpm(2500));
    CHECK(need.defaulted.empty());
    CHECK(need.worst == BuildingIndex(0));
}

TEST_CASE("a method that asks for no neighbours takes a point with an area as it is") {
    District district = one_parcel(NeedMethod::fire_code);
    Building& building = add_building(district, 12000, BuildingUse::store);
    const Need drawn = need_of(district);
    building.separation = {};
    const Need point = need_of(district);
    CHECK(point.flow == drawn.flow);
    CHECK_FALSE(point.defaulted.has(NeedInput::footprint));
}

// The smallest that the methods know: model fire code, Appendix B, 1,000 gpm; the rating schedule's
// dwellings by separation, 1,500 gpm where nobody says how near others stand.
TEST_CASE("a building of unknown size needs no less than the smallest of its kind") {
    const auto need_by = [](NeedMethod method) {
        District district = one_parcel(method);
        Building& point = add_building(district, 0, BuildingUse::dwelling);
        point.separation = {};
        point.traits.storeys = 1.0F;
        return need_of(district);
    };
    const Need by_code = need_by(NeedMethod::fire_code);
    CHECK(by_code.flow == tenths_of_gpm(10000));
    CHECK(by_code.from == NeedFrom::method);
    CHECK(by_code.defaulted.has(NeedInput::footprint));
    CHECK(by_code.evidence == Evidence::assumed);
    CHECK(by_code.total_gal == 0.0F);
    CHECK(need_by(NeedMethod::rating_schedule).flow == tenths_of_gpm(15000));
    CHECK(need_by(NeedMethod::rural_supply).flow == tenths_of_gpm(5000));
}

TEST_CASE("points without an area take the default flow, per parcel and counted") {
    District district = one_parcel(NeedMethod::rural_supply);
    district.parcels.push_back({.id = "B", .house = {200, 1}});
    add_building(district, 0, BuildingUse::dwelling).separation = {};
    add_building(district, 1800, BuildingUse::dwelling, 1);
    const auto needs = needs_of(district);
    CHECK(needs[0]->from == NeedFrom::default_flow);
    CHECK(needs[0]->flow == tenths_of_gpm(5000));
    CHECK(needs[0]->defaulted == NeedInputs{NeedInput::footprint});
    CHECK(needs[0]->evidence == Evidence::assumed);
    CHECK(needs[1]->from == NeedFrom::method);
    const auto problems = need_problems(district, needs);
    REQUIRE_FALSE(problems.empty());
    CHECK(problems.front().id == ProblemId::need_input_defaulted);
    CHECK(problems.front().field == "footprint");
    CHECK(problems.front().detail == "1 of 2 improved parcels");
}
