// Room for portable tanks on the road, and what the want of it costs.
#include "analyzer/supply/road_room.h"

#include <catch2/catch.hpp>

#include "analyzer/supply/places/shuttle_case.h"
#include "tests/supply/one_dump_site.h"

using namespace farwater;
using namespace farwater::supply;

namespace {

// One road, one candidate on it.
struct OnRoad {
    District district;
    DumpSiteCandidate site;

    OnRoad(std::optional<Length> width, std::optional<Length> straight) {
        district.roads.emplace_back().width = width;
        site.road = RoadIndex(0);
        site.straight = straight;
    }
    RoadRoom room() const { return road_room(district, site); }
};

// With 9 ft of tank, 10 of lane, 35 of engine and 16 a tank (common practice, no source).
int room(double width_ft, double straight_ft) {
    return OnRoad(feet(width_ft), feet(straight_ft)).room().tanks;
}

}  // namespace

TEST_CASE("tanks in line stand behind the engine with a free lane beside them", "[unit]") {
    CHECK(room(19, 83) == 3);
    CHECK(room(19, 82.9) == 2);
    CHECK(room(22, 67) == 2);
    CHECK(room(22, 66) == 1);
    CHECK(room(22, 0) == 1);  // one finds a place wherever a dump site may be
    CHECK(room(18.9, 400) == 1);
    CHECK(room(40, 400) == 3);  // most_portable_tanks
}

TEST_CASE("a width or a run of road that nobody knows gives no more than any that is known",
          "[property]") {
    for (double width = 7; width < 40; width += 1.0) {
        for (double straight = 0; straight < 120; straight += 5.0) {
            const int known = room(width, straight);
            CHECK(OnRoad({}, feet(straight)).room().tanks <= known);
            CHECK(OnRoad(feet(width), {}).room().tanks <= known);
            CHECK(known <= room(width + 1.0, straight));
            const bool lane = OnRoad(feet(width), feet(straight)).room().lane_beside;
            CHECK_FALSE(OnRoad({}, feet(straight)).room().lane_beside);
            CHECK((!lane || OnRoad(feet(width + 1.0), feet(straight)).room().lane_beside));
            CHECK(known <= room(width, straight + 5.0));
        }
    }
}

TEST_CASE("the officer's number goes before the road", "[unit]") {
    OnRoad place(feet(12), feet(40));
    place.district.dump_site_places.emplace_back().portable_tanks = 2;
    place.site.officers_place = 0;
    CHECK(place.room().tanks == 2);
    CHECK(place.room().by == RoomBy::officer);
    place.district.dump_site_places[0].portable_tanks = 9;
    CHECK(place.room().tanks == 3);
    place.district.dump_site_places[0].portable_tanks.reset();
    CHECK(place.room().tanks == 1);
    CHECK(place.room().by == RoomBy::width);
}

TEST_CASE("tankers drive through beside tanks only where a lane is known to be left", "[unit]") {
    const auto lane = [](const OnRoad& place) {
        return lane_beside_tanks(place.district, place.site, LaneClass::through);
    };
    CHECK(lane(OnRoad(feet(19), feet(60))) == LaneClass::through);
    CHECK(lane(OnRoad(feet(18.9), feet(60))) == LaneClass::dead_end);
    CHECK(lane(OnRoad(feet(8), feet(60))) == LaneClass::dead_end);  // one tank, in a drive's mouth
    CHECK(lane(OnRoad({}, feet(60))) == LaneClass::dead_end);
    CHECK(lane(OnRoad({}, {})) == LaneClass::through);  // off the road
    const OnRoad wide(feet(24), feet(60));
    CHECK(lane_beside_tanks(wide.district, wide.site, LaneClass::dead_end) == LaneClass::dead_end);
    OnRoad officers(feet(12), feet(60));
    officers.site.officers_place = 0;
    officers.district.dump_site_places.emplace_back();
    CHECK(lane(officers) == LaneClass::dead_end);
    officers.district.dump_site_places[0].lane = LaneClass::through;
    CHECK(lane(officers) == LaneClass::through);
    officers.district.dump_site_places[0].lane.reset();
    officers.district.dump_site_places[0].portable_tanks = 1;
    CHECK(lane(officers) == LaneClass::through);
}

TEST_CASE("backing to the tank costs its time, and a blank width no less than a narrow road",
          "[unit]") {
    OneDumpSite scene;
    const ParcelSupply wide = scene.supply();
    const auto with_width = [&](std::optional<Length> width) {
        scene.district.roads[0].width = width;
        return scene.supply();
    };
    const ParcelSupply narrow = with_width(feet(18));
    const ParcelSupply blank = with_width({});
    CHECK(wide.lane == LaneClass::through);
    CHECK(narrow.lane == LaneClass::dead_end);
    CHECK(narrow.cautious < wide.cautious);
    CHECK(blank.cautious == narrow.cautious);
    scene.district.assumptions.backing = minutes(0);
    CHECK(with_width(feet(18)).cautious > narrow.cautious);
}

TEST_CASE("tanks that find no room stay on the trucks, and room for one is what gains", "[unit]") {
    OneDumpSite scene;
    scene.district.units[2].jet_siphons = 1;
    scene.district.units[2].siphon = gpm(1200);
    const auto scene_here = [&] {
        return scene_at(scene.situation(), profile_of_units(scene.district, scene.profiles),
                        roster(scene.district, PeriodIndex(0), ""), scene.trips.hose_lays[0][0],
                        minutes(12.5));
    };
    const Scene roomy = scene_here();
    CHECK(roomy.line.left.empty());
    CHECK_FALSE(roomy.line.full);
    scene.district.assumptions.portable_tanks_where_unknown = 1;
    scene.trips.dump_sites[0].road = RoadIndex();
    const Scene narrow = scene_here();
    REQUIRE(narrow.line.left.size() == 1);
    CHECK(narrow.line.full);
    const CasePlan shuttle = work_out(scene.situation(), narrow, {minutes(120)}).front();
    const CasePlan with_room = work_out(scene.situation(), roomy, {minutes(120)}).front();
    CHECK(shuttle.sustained < with_room.sustained);
    for (const Gain& gain : shuttle.gains) {
        if (gain.limit == Limit::road_room) {
            CHECK(gain.flow > HeldFlow{});
        }
        if (gain.limit == Limit::storage || gain.limit == Limit::transfer) {
            CHECK(gain.flow == HeldFlow{});
        }
    }
}

TEST_CASE("a place for no tank leaves tank water, and says why", "[unit]") {
    OneDumpSite scene;
    scene.district.dump_site_places.emplace_back().portable_tanks = 0;
    scene.trips.dump_sites[0].officers_place = 0;
    const ParcelSupply supply = scene.supply();
    CHECK(supply.state == SupplyState::tank_only);
    CHECK(supply.limit == Limit::road_room);
}
