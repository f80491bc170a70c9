// Roads that are drawn twice, with records that say different things.
#include <algorithm>
#include <functional>

#include <catch2/catch.hpp>

#include "routing/drawn_twice.h"
#include "tests/routing/routed.h"
#include "tests/support/ascii_region.h"

using namespace farwater;
using test::AsciiRegion;
using test::Routed;

namespace {

using RecordSays = std::function<void(Road&)>;

// The road from A to B twice, of which the first record says one thing and the second another;
// there is a way round that is 400 m longer.
AsciiRegion drawn_twice(const RecordSays& first, const RecordSays& second,
                        const char* second_line = "AB") {
    AsciiRegion region = with_fleet(AsciiRegion(R"(
        S--1--A-------B--P--C
              |       |
              D-------E
    )"));
    first(region.road("AB"));
    region.road("SA");
    region.road("BC");
    region.road("ADEB");
    second(region.road(second_line));
    region.source('1');
    region.dump_site_place('P');
    return region;
}

void says_nothing(Road& /*road*/) {}

struct LegsThere {
    int loaded = 0;  // tenths of a second, along the drawing
    int empty = 0;   // against it
    friend bool operator==(const LegsThere&, const LegsThere&) = default;
};
constexpr LegsThere straight_there{1400, 1400};
constexpr LegsThere round_the_block{1800, 1800};

LegsThere legs_of(AsciiRegion region) {
    routing::settle_drawn_twice(region.district);
    const Routed routed(region.district);
    const LegTimes legs = test::legs_between(routed.round_trips(), DumpSiteIndex(0), 0,
                                             routed.profile_of(UnitKind::tanker));
    return {in_tenths(legs.loaded), in_tenths(legs.empty)};
}

// What comes out when one record says it and the other nothing, whichever of them comes first.
LegsThere legs_when(const RecordSays& said, const char* second_line = "AB") {
    const LegsThere later = legs_of(drawn_twice(says_nothing, said, second_line));
    CHECK(legs_of(drawn_twice(said, says_nothing, second_line)) == later);
    return later;
}

std::vector<std::string> told_twice(AsciiRegion region) {
    std::vector<std::string> details;
    for (const Problem& problem : routing::settle_drawn_twice(region.district)) {
        CHECK(problem.id == ProblemId::road_duplicate);
        details.push_back(problem.record + ": " + problem.detail);
    }
    return details;
}

}  // namespace

TEST_CASE("a tanker drives no road that one of two records keeps it off") {
    CHECK(legs_when(says_nothing) == straight_there);
    CHECK(legs_when([](Road& road) { road.access = RoadAccess::closed; }) == round_the_block);
    CHECK(legs_when([](Road& road) { road.access = RoadAccess::unmaintained; }) == round_the_block);
    CHECK(legs_when([](Road& road) { road.maintained = MonthSet(); }) == round_the_block);
    CHECK(legs_when([](Road& road) { road.height_limit = feet(6); }) == round_the_block);
    CHECK(legs_when([](Road& road) { road.width = feet(5); }) == round_the_block);
    const RecordSays posted = [](Road& road) { road.weight_limit = pounds(20'000); };  // 10 tons
    CHECK(legs_when(posted) == round_the_block);
    CHECK(legs_when(posted, "BA") == round_the_block);
}

TEST_CASE("the lower of two limits counts, and a blank is no limit") {
    const RecordSays heavy = [](Road& road) { road.weight_limit = pounds(90'000); };
    const RecordSays light = [](Road& road) { road.weight_limit = pounds(5'000); };
    CHECK(legs_of(drawn_twice(heavy, light)) == round_the_block);
    CHECK(legs_of(drawn_twice(light, heavy)) == round_the_block);
    CHECK(legs_when(heavy) == straight_there);
}

TEST_CASE("the slower of two posted speeds, classes and surfaces counts") {
    const RecordSays slow = [](Road& road) {
        road.posted_speed = test::ten_metres_a_second() * 0.8;
    };
    const RecordSays fast = [](Road& road) { road.posted_speed = test::ten_metres_a_second(); };
    const LegsThere slower{1600, 1600};
    CHECK(legs_when(slow) == slower);
    CHECK(legs_of(drawn_twice(fast, slow)) == slower);
    CHECK(legs_of(drawn_twice(slow, fast)) == slower);
    const auto on_gravel = [&](const RecordSays& one, const RecordSays& other) {
        AsciiRegion region = drawn_twice(one, other);
        region.district.assumptions.speed_gravel = test::ten_metres_a_second() * 0.8;
        return legs_of(region);
    };
    const RecordSays gravel_road = [](Road& road) { road.kind = RoadClass::gravel; };
    const RecordSays gravel = [](Road& road) { road.surface = Surface::gravel; };
    const RecordSays paved = [](Road& road) { road.surface = Surface::paved; };
    CHECK(on_gravel(says_nothing, gravel_road) == slower);
    CHECK(on_gravel(gravel_road, says_nothing) == slower);
    CHECK(on_gravel(paved, gravel) == slower);
    CHECK(on_gravel(gravel, says_nothing) == slower);
}

TEST_CASE("a class that nobody gave is no word against one that was given") {
    const RecordSays unknown = [](Road& road) {
        road.kind = RoadClass::narrow;
        road.kind_known = false;
    };
    const auto kinds = [](AsciiRegion region) {
        routing::settle_drawn_twice(region.district);
        const std::vector<Road>& roads = region.district.roads;
        CHECK(roads.front().kind_known == roads.back().kind_known);
        return std::pair(roads.front().kind, roads.back().kind);
    };
    const std::pair paved(RoadClass::paved, RoadClass::paved);
    CHECK(kinds(drawn_twice(unknown, says_nothing)) == paved);
    CHECK(kinds(drawn_twice(says_nothing, unknown)) == paved);
    CHECK(kinds(drawn_twice(unknown, unknown)) == std::pair(RoadClass::narrow, RoadClass::narrow));
}

TEST_CASE("a road is one-way where either record says so, as that one is drawn") {
    const LegsThere as_drawn{1400, 1800};
    const LegsThere against{1800, 1400};
    const RecordSays forward = [](Road& road) { road.one_way = OneWay::forward; };
    const RecordSays backward = [](Road& road) { road.one_way = OneWay::backward; };
    CHECK(legs_when(forward) == as_drawn);
    CHECK(legs_when(backward) == against);
    CHECK(legs_of(drawn_twice(says_nothing, forward, "BA")) == against);
    CHECK(legs_of(drawn_twice(forward, says_nothing, "BA")) == as_drawn);
    CHECK(legs_of(drawn_twice(forward, backward, "BA")) == as_drawn);
}

TEST_CASE("two halves of a road stay two, also beside a record of both directions") {
    const RecordSays forward = [](Road& road) { road.one_way = OneWay::forward; };
    AsciiRegion halves = drawn_twice(forward, forward, "BA");
    CHECK(told_twice(halves).empty());
    CHECK(legs_of(halves) == straight_there);
    const auto place = GENERATE(0, 4, 5);
    AsciiRegion region = halves;
    region.road("AB").weight_limit = pounds(5'000);
    std::vector<Road>& roads = region.district.roads;
    std::rotate(roads.begin() + place, roads.end() - 1, roads.end());
    CHECK(legs_of(region) == round_the_block);
    roads[static_cast<std::size_t>(place)].weight_limit.reset();
    CHECK(legs_of(region) == straight_there);
}

TEST_CASE("of two kinds of access the one that the assumptions shut stays shut") {
    const RecordSays its_owners = [](Road& road) { road.access = RoadAccess::private_road; };
    const RecordSays gated = [](Road& road) { road.access = RoadAccess::gated; };
    const bool first = GENERATE(true, false);
    AsciiRegion region = first ? drawn_twice(its_owners, gated) : drawn_twice(gated, its_owners);
    CHECK(legs_of(region) == round_the_block);
    region.district.assumptions.gated_roads_usable = true;
    CHECK(legs_of(region) == round_the_block);
    region.district.assumptions.private_roads_usable = true;
    CHECK(legs_of(region) == straight_there);
    region.district.seasons.front().closed_access = {RoadAccess::private_road};
    CHECK(legs_of(region) == round_the_block);
    region.district.seasons.front().closed_access = {RoadAccess::gated};
    CHECK(legs_of(region) == round_the_block);
}

TEST_CASE("the marks of either record are those of the road") {
    const RecordSays marked = [](Road& road) {
        road.bridge = true;
        road.rail_crossing = true;
    };
    AsciiRegion region = drawn_twice(says_nothing, marked);
    routing::settle_drawn_twice(region.district);
    CHECK(region.district.roads.front().bridge);
    CHECK(region.district.roads.front().rail_crossing);
    CHECK_FALSE(region.district.roads.front().tunnel);
    CHECK_FALSE(region.district.roads[1].bridge);
}

TEST_CASE("each record too many is told, with what it says otherwise") {
    CHECK(told_twice(drawn_twice(says_nothing, says_nothing)) ==
          std::vector<std::string>{"row 5: AB, drawn as row 1 (AB)"});
    const RecordSays posted = [](Road& road) {
        road.access = RoadAccess::gated;
        road.weight_limit = pounds(6'000);
        road.rail_crossing = true;
    };
    const std::string differ = "; they differ in access, railway crossing, weight limit";
    CHECK(told_twice(drawn_twice(says_nothing, posted)) ==
          std::vector<std::string>{"row 5: AB, drawn as row 1 (AB)" + differ});
    AsciiRegion three = drawn_twice(says_nothing, posted, "BA");
    three.road("AB").one_way = OneWay::backward;
    CHECK(told_twice(three) ==
          std::vector<std::string>{"row 5: BA, drawn as row 1 (AB)" + differ,
                                   "row 6: AB, drawn as row 1 (AB); they differ in one_way"});
    const RecordSays one = [](Road& road) { road.one_way = OneWay::forward; };
    const RecordSays same = [](Road& road) { road.one_way = OneWay::backward; };
    CHECK(told_twice(drawn_twice(one, same, "BA")) ==
          std::vector<std::string>{"row 5: BA, drawn as row 1 (AB)"});
    routing::settle_drawn_twice(three.district);
    const std::vector<Road> once = three.district.roads;
    routing::settle_drawn_twice(three.district);
    CHECK(three.district.roads.front().weight_limit == once.front().weight_limit);
    CHECK(three.district.roads.front().one_way == OneWay::backward);
    CHECK(once.front().one_way == OneWay::backward);
}
