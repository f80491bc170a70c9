#include "analyzer/supply/roster.h"

#include <algorithm>

#include <catch2/catch.hpp>

using namespace farwater;
using namespace farwater::supply;

namespace {

// Two stations of the district and one of a mutual aid neighbour; an engine and a tanker each.
District three_stations() {
    District district;
    district.periods = {
        {.name = "night", .turnout_staffed = {}, .turnout_volunteer = {}},
        {.name = "weekday", .turnout_staffed = {}, .turnout_volunteer = minutes(8)}};
    for (const char* id : {"S1", "S2", "N1"}) {
        Station station;
        station.id = id;
        station.aid = *id == 'N' ? Aid::mutual : Aid::own;
        district.stations.push_back(station);
    }
    district.stations[0].staffed = true;
    for (std::size_t s = 0; s < 3; ++s) {
        for (const UnitKind kind : {UnitKind::engine, UnitKind::tanker}) {
            Unit unit;
            unit.id = district.stations[s].id + std::string(word(kind));
            unit.station = StationIndex(s);
            unit.kind = kind;
            district.units.push_back(unit);
        }
    }
    return district;
}

const Responder* find(const std::vector<Responder>& responders, std::size_t unit) {
    const auto found = std::find_if(responders.begin(), responders.end(),
                                    [&](const Responder& r) { return r.unit == UnitIndex(unit); });
    return found == responders.end() ? nullptr : &*found;
}

}  // namespace

TEST_CASE("wheels roll after alarm handling and the turnout of the station and period", "[unit]") {
    const District district = three_stations();
    const auto night = roster(district, PeriodIndex(0), "");
    REQUIRE(night.size() == 6);
    CHECK(find(night, 0)->rolls == minutes(1.5 + 1.5));
    CHECK(find(night, 2)->rolls == minutes(1.5 + 6.0));
    CHECK(find(roster(district, PeriodIndex(1), ""), 2)->rolls == minutes(1.5 + 8.0));
}

TEST_CASE("mutual aid is asked for, and counts from the request", "[unit]") {
    const auto night = roster(three_stations(), PeriodIndex(0), "");
    CHECK(find(night, 5)->on_request);
    CHECK(find(night, 5)->rolls == Assumptions{}.mutual_turnout);
    CHECK_FALSE(find(night, 3)->on_request);
}

TEST_CASE("a unit under its least crew stays in quarters, in that period only", "[unit]") {
    District district = three_stations();
    district.units[2].min_crew = 2;
    district.staffing.push_back(
        {.unit = UnitIndex(2), .station = {}, .period = PeriodIndex(1), .crew = 1, .turnout = {}});
    CHECK(find(roster(district, PeriodIndex(0), ""), 2) != nullptr);
    CHECK(find(roster(district, PeriodIndex(1), ""), 2) == nullptr);
}

TEST_CASE("nobody there means nobody comes, even without a least crew", "[unit]") {
    District district = three_stations();
    district.staffing.push_back({.unit = {},
                                 .station = StationIndex(1),
                                 .period = PeriodIndex(1),
                                 .crew = 0,
                                 .turnout = {}});
    const auto weekday = roster(district, PeriodIndex(1), "");
    CHECK(find(weekday, 2) == nullptr);
    CHECK(find(weekday, 3) == nullptr);
    CHECK(find(weekday, 0) != nullptr);
}

TEST_CASE("a unit's staffing row goes before its station's, in either order", "[unit]") {
    const Staffing by_station{.unit = {},
                              .station = StationIndex(1),
                              .period = PeriodIndex(0),
                              .crew = {},
                              .turnout = minutes(9)};
    const Staffing by_unit{.unit = UnitIndex(2),
                           .station = {},
                           .period = PeriodIndex(0),
                           .crew = {},
                           .turnout = minutes(4)};
    for (const auto& rows : {std::vector{by_station, by_unit}, std::vector{by_unit, by_station}}) {
        District district = three_stations();
        district.staffing = rows;
        CHECK(find(roster(district, PeriodIndex(0), ""), 2)->rolls == minutes(1.5 + 4));
        CHECK(find(roster(district, PeriodIndex(0), ""), 3)->rolls == minutes(1.5 + 9));
    }
}

TEST_CASE("a zone with response rules gets those units and no others", "[unit]") {
    District district = three_stations();
    district.response_rules = {{.zone = "east", .alarm = 1, .unit = UnitIndex(2)},
                               {.zone = "east", .alarm = 2, .unit = UnitIndex(3)}};
    const auto east = roster(district, PeriodIndex(0), "east");
    REQUIRE(east.size() == 2);
    CHECK_FALSE(east[0].on_request);
    CHECK(east[1].on_request);
    CHECK(roster(district, PeriodIndex(0), "west").size() == 6);
    CHECK(response_zones(district) == std::vector<std::string>{"", "east"});
}
