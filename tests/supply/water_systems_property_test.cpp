// What the sources of a system share does not depend on how the rows stand.
#include <algorithm>
#include <optional>
#include <random>

#include <catch2/catch.hpp>

#include "analyzer/supply/water_review.h"
#include "analyzer/supply/water_systems.h"
#include "tests/support/draws.h"

using namespace farwater;
using namespace farwater::supply;

namespace {

CountedSource drawn(std::mt19937& random, std::size_t index) {
    const auto draw = [&random](unsigned count) { return static_cast<double>(random() % count); };
    CountedSource counted;
    counted.source = SourceIndex(index);
    counted.rate = gpm(100.0 * draw(5));
    counted.inflow = gpm(10.0 * draw(4));
    counted.usable = draw(5) == 0 ? std::nullopt : std::optional(gallons(1000.0 * draw(9)));
    return counted;
}

}  // namespace

TEST_CASE("a mixed system is the same whatever the order of its rows") {
    const unsigned seed = 12;
    CAPTURE(seed);
    std::mt19937 random(seed);
    for (int round = 0; round < test::draws(2000); ++round) {
        CAPTURE(round);
        District district;
        std::vector<CountedSource> counted;
        for (std::size_t i = 0; i < 5; ++i) {
            WaterSource source;
            source.id = "W" + std::to_string(i);
            source.system = random() % 4 == 0 ? "pond" : "main";
            source.kind = random() % 2 == 0 ? SourceKind::hydrant : SourceKind::draft_site;
            district.sources.push_back(source);
            counted.push_back(drawn(random, i));
        }
        const auto systems = water_systems(district, counted, {});
        std::ranges::shuffle(counted, random);
        const auto others = water_systems(district, counted, {});
        REQUIRE(systems.size() == others.size());
        for (std::size_t i = 0; i < systems.size(); ++i) {
            REQUIRE(systems[i].name == others[i].name);
            REQUIRE(systems[i].usable == others[i].usable);
            REQUIRE(systems[i].inflow == others[i].inflow);
            REQUIRE(systems[i].rate == others[i].rate);
        }
    }
}

TEST_CASE("of mains and ponds in one system the smaller volume counts", "[unit]") {
    District district;
    std::vector<CountedSource> counted;
    const auto add = [&](SourceKind kind, double gal) {
        WaterSource source;
        source.id = "W" + std::to_string(counted.size());
        source.system = "mixed";
        source.kind = kind;
        district.sources.push_back(source);
        CountedSource one;
        one.source = SourceIndex(counted.size());
        one.usable = gallons(gal);
        counted.push_back(one);
    };
    add(SourceKind::hydrant, 50000);
    add(SourceKind::draft_site, 20000);
    add(SourceKind::draft_site, 90000);
    CHECK(water_systems(district, counted, {}).front().usable == gallons(50000));
    add(SourceKind::hydrant, 8000);
    CHECK(water_systems(district, counted, {}).front().usable == gallons(8000));
}

TEST_CASE("a source without a system shares no rate with a system of its name", "[unit]") {
    District district;
    WaterSource alone;
    alone.id = "mill";
    alone.system_rate = gpm(900);
    WaterSource member;
    member.id = "W1";
    member.system = "mill";
    member.system_rate = gpm(300);
    district.sources = {alone, member};
    const SystemRates rates = stated_system_rates(district);
    CHECK(rate_of_system(rates, alone) == gpm(900));
    CHECK(rate_of_system(rates, member) == gpm(300));
}
