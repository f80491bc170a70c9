// Each kind of improvement changes what it says, and nothing else.
#include "analyzer/planning/with_improvement.h"

#include <chrono>

#include <catch2/catch.hpp>

using namespace farwater;
using namespace farwater::planning;
using namespace std::chrono_literals;

namespace {

Unit unit_of(std::string id, std::size_t station, UnitKind kind, Aid aid) {
    Unit unit;
    unit.id = std::move(id);
    unit.station = StationIndex(station);
    unit.kind = kind;
    unit.aid = aid;
    unit.tank = gallons(2000);
    unit.tested_on = 2026y / 5 / 31;
    return unit;
}

// One own station with an engine and a tanker, one of mutual aid with two tankers.
District a_district() {
    District district;
    district.stations.resize(2);
    district.stations[0].id = "S1";
    district.stations[1].id = "M1";
    district.stations[1].aid = Aid::mutual;
    district.units = {
        unit_of("E1", 0, UnitKind::engine, Aid::own), unit_of("T1", 0, UnitKind::tanker, Aid::own),
        unit_of("T8", 1, UnitKind::tanker, Aid::own), unit_of("T9", 1, UnitKind::tanker, Aid::own)};
    district.units[1].offload = gpm(500);
    district.units[1].crew = 2;
    district.periods.resize(2);
    district.staffing = {{UnitIndex(1), {}, PeriodIndex(0), 1, std::nullopt},
                         {{}, StationIndex(0), PeriodIndex(0), 4, minutes(6)}};
    district.response_rules = {{"LAKE", 1, UnitIndex(1)}, {"LAKE", 2, UnitIndex(2)}};
    district.sources.resize(1);
    district.sources[0].id = "D1";
    district.roads.resize(2);
    district.roads[0].weight_limit = short_tons(10);
    district.roads[1].access = RoadAccess::unmaintained;
    return district;
}

// What is compared: enough of each list to see that it did not change.
std::string trace_of(const Unit& unit) {
    const HoseLoad hose = unit.hose.value_or(HoseLoad{});
    std::string text = unit.id + " " + std::to_string(unit.station.position()) + " " +
                       std::string(word(unit.kind)) + " " + std::string(word(unit.aid));
    for (const double number :
         {in_gallons(unit.tank), in_gpm(unit.pump.value_or(gpm(-1))),
          in_gpm(unit.fill_limit.value_or(gpm(-1))), in_gpm(unit.offload.value_or(gpm(-1))),
          in_gallons(unit.portable_tank), in_feet(hose.hose_2_5in), in_feet(hose.hose_3in),
          in_feet(hose.hose_4in), in_feet(hose.hose_5in), unit.hose ? 1.0 : 0.0}) {
        text += " " + std::to_string(number);
    }
    for (const int number : {unit.portable_tanks, unit.crew.value_or(-1), unit.jet_siphons,
                             unit.tested_on ? 1 : 0, unit.backs_to_offload ? 1 : 0}) {
        text += " " + std::to_string(number);
    }
    return text;
}

std::vector<std::string> trace_of(const District& district) {
    std::vector<std::string> lines;
    for (const Station& station : district.stations) {
        lines.push_back(station.id + " " + std::string(word(station.aid)));
    }
    for (const Unit& unit : district.units) {
        lines.push_back(trace_of(unit));
    }
    for (const Staffing& row : district.staffing) {
        lines.push_back("shift " + std::to_string(row.unit.valid() ? row.unit.position() : 99) +
                        " " + std::to_string(row.period.position()) + " " +
                        std::to_string(row.crew.value_or(-1)) + " " +
                        std::to_string(in_minutes(row.turnout.value_or(minutes(-1)))));
    }
    for (const ResponseRule& rule : district.response_rules) {
        lines.push_back(rule.zone + " " + std::to_string(rule.alarm) + " " +
                        std::to_string(rule.unit.position()));
    }
    for (const WaterSource& source : district.sources) {
        lines.push_back(source.id + (source.frost_proof ? " frost" : "") +
                        (source.all_weather ? " all_weather" : ""));
    }
    for (const Road& road : district.roads) {
        lines.push_back("road " + std::string(word(road.access)) + " " +
                        std::to_string(in_pounds(road.weight_limit.value_or(pounds(-1)))) +
                        (road.maintained == MonthSet::all() ? " all" : ""));
    }
    lines.push_back("what if " + std::to_string(district.what_if_sources));
    return lines;
}

District improved(const District& district, ImprovedThing thing) {
    Improvement improvement;
    improvement.thing = std::move(thing);
    return with_improvement(district, improvement);
}

// `expect` makes the change by hand; then all of the two districts is alike.
void check(ImprovedThing thing, void (*expect)(District&)) {
    const District district = a_district();
    District by_hand = district;
    expect(by_hand);
    CHECK(trace_of(by_hand) != trace_of(district));
    CHECK(trace_of(improved(district, std::move(thing))) == trace_of(by_hand));
}

}  // namespace

TEST_CASE("a further tanker is like the one that it is like, with its crew and its alarms") {
    const District after = improved(
        a_district(),
        MoreUnits{.station = StationIndex(0), .like = UnitIndex(1), .tank = gallons(3000)});
    REQUIRE(after.units.size() == 5);
    const Unit& added = after.units.back();
    CHECK(added.tank == gallons(3000));
    CHECK(added.offload == gpm(500));
    CHECK(added.crew == 2);
    CHECK_FALSE(added.tested_on);
    REQUIRE(after.staffing.size() == 3);
    CHECK(after.staffing.back().unit == UnitIndex(4));
    CHECK(after.staffing.back().crew == 1);
    REQUIRE(after.response_rules.size() == 3);
    CHECK(after.response_rules.back().unit == UnitIndex(4));
    CHECK(after.response_rules.back().alarm == 1);
}

TEST_CASE("of a tanker like none nothing is known but what is said, and it goes with its station") {
    const District after = improved(
        a_district(), MoreUnits{.station = StationIndex(1), .tank = gallons(1800), .count = 2});
    REQUIRE(after.units.size() == 6);
    CHECK(after.units[4].id != after.units[5].id);
    CHECK_FALSE(after.units[5].offload);
    CHECK_FALSE(after.units[5].crew);
    CHECK(after.units[5].backs_to_offload);
    CHECK(after.units[5].aid == Aid::mutual);
    REQUIRE(after.response_rules.size() == 4);
    CHECK(after.response_rules[3].unit == UnitIndex(5));
    CHECK(after.response_rules[3].alarm == 2);
    CHECK(after.staffing.size() == 2);
}

TEST_CASE("an engine whose tank is not said has the planning default's") {
    const District after = improved(
        a_district(),
        MoreUnits{.kind = UnitKind::engine, .station = StationIndex(0), .pump = gpm(1250)});
    CHECK(after.units.back().kind == UnitKind::engine);
    CHECK(after.units.back().pump == gpm(1250));
    CHECK(after.units.back().tank == after.assumptions.engine_tank);
    CHECK(after.response_rules.size() == 2);  // no engine of the station goes to the zone
}

TEST_CASE("what comes onto a unit comes onto that one alone") {
    check(MorePortableTanks{UnitIndex(1), gallons(2500), 2}, [](District& district) {
        district.units[1].portable_tank = gallons(5000);
        district.units[1].portable_tanks = 2;
    });
    check(MoreSiphons{UnitIndex(1), 1},
          [](District& district) { district.units[1].jet_siphons = 1; });
    check(MoreHose{UnitIndex(0), &HoseLoad::hose_4in, feet(1000)}, [](District& district) {
        district.units[0].hose = HoseLoad{};
        district.units[0].hose->hose_2_5in = district.assumptions.engine_hose_2_5in;
        district.units[0].hose->hose_4in = feet(1000);
    });
    check(FasterOffload{UnitIndex(1), gpm(1000), true}, [](District& district) {
        district.units[1].offload = gpm(1000);
        district.units[1].backs_to_offload = true;
        district.units[1].tested_on.reset();
    });
}

TEST_CASE("aid that becomes automatic leaves its station's other units as they are") {
    check(AutomaticAid{{UnitIndex(2)}}, [](District& district) {
        district.stations[1].aid = Aid::automatic;
        district.units[2].aid = Aid::automatic;
        district.units[3].aid = Aid::mutual;
        district.response_rules[1].alarm = 1;
    });
    check(AutomaticAid{{UnitIndex(2), UnitIndex(3)}}, [](District& district) {
        district.stations[1].aid = Aid::automatic;
        district.units[2].aid = Aid::automatic;
        district.units[3].aid = Aid::automatic;
        district.response_rules[1].alarm = 1;
    });
}

TEST_CASE("winter access is of one source or of roads") {
    check(SourceInWinter{SourceIndex(0)}, [](District& district) {
        district.sources[0].frost_proof = true;
        district.sources[0].all_weather = true;
    });
    check(RoadsKeptOpen{{RoadIndex(1)}},
          [](District& district) { district.roads[1].access = RoadAccess::open; });
}

TEST_CASE("a posting is lifted, or another") {
    check(PostingLifted{{RoadIndex(0)}, std::nullopt},
          [](District& district) { district.roads[0].weight_limit.reset(); });
    check(PostingLifted{{RoadIndex(0)}, pounds(50'000)},
          [](District& district) { district.roads[0].weight_limit = pounds(50'000); });
}

TEST_CASE("people come in one period, to a row that is there or to a new one") {
    check(MorePeople{PeriodIndex(0), {UnitIndex(1)}, 2, std::nullopt},
          [](District& district) { district.staffing[0].crew = 2; });
    check(MorePeople{PeriodIndex(1), {UnitIndex(0), UnitIndex(1)}, std::nullopt, minutes(2)},
          [](District& district) {
              district.staffing.push_back(
                  {UnitIndex(0), {}, PeriodIndex(1), std::nullopt, minutes(2)});
              district.staffing.push_back(
                  {UnitIndex(1), {}, PeriodIndex(1), std::nullopt, minutes(2)});
          });
}

TEST_CASE("a new source stands behind those that are there, as one that is not") {
    NewSource added;
    added.source.id = "C1";
    const District after = improved(a_district(), added);
    REQUIRE(after.sources.size() == 2);
    CHECK(after.sources[1].id == "C1");
    CHECK(after.what_if_sources == 1);
    CHECK(after.units.size() == 4);
}

TEST_CASE("what is spent in a year is known where all of it is") {
    CHECK(Spending{400'000.0, 20.0, 6'000.0}.per_year() == 26'000.0);
    CHECK(Spending{0.0, std::nullopt, 65'000.0}.per_year() == 65'000.0);
    CHECK_FALSE(Spending{400'000.0, std::nullopt, 6'000.0}.per_year());
    CHECK_FALSE(Spending{400'000.0, 20.0, std::nullopt}.per_year());
    CHECK_FALSE(Spending{std::nullopt, 20.0, 6'000.0}.per_year());
}
