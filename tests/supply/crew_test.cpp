// People by job, and fill sites that wait for them.
#include "analyzer/supply/places/crew.h"

#include <catch2/catch.hpp>

#include "analyzer/supply/places/shuttle_case.h"
#include "tests/supply/one_dump_site.h"

using namespace farwater;
using namespace farwater::supply;

namespace {

// Two weak hydrants of two systems, each of which opens a fill site of its own.
OneDumpSite two_weak_hydrants() {
    OneDumpSite scene;
    scene.district.sources[0].rate = gpm(300);
    scene.district.sources[0].system = "north";
    scene.district.sources.push_back(scene.district.sources[0]);
    scene.district.sources[1].id = "H2";
    scene.district.sources[1].system = "south";
    scene.refresh();
    return scene;
}

void give_crews(OneDumpSite& scene, int each) {
    for (Unit& unit : scene.district.units) {
        unit.crew = each;
    }
}

HeldFlow gain_of_crew(const ParcelSupply& supply) {
    for (std::size_t i = 0; i < relieved.size(); ++i) {
        if (relieved[i] == Limit::crew) {
            return tenths_of_gpm(in_gpm(supply.gains[i]) * 10);
        }
    }
    return {};
}

}  // namespace

// Attack 4 (29 CFR 1910.134: two inside, two outside), dump 3, fill 3, traffic 2, officer 1, one a
// tanker: common practice, no source.
TEST_CASE("people needed by job", "[unit]") {
    const Assumptions usual;
    CHECK(crew_needed(usual, 1, 4) == 17);
    CHECK(crew_needed(usual, 2, 4) == 20);
    CHECK(fill_sites_manned(usual, {.people = 19}, 4, 3) == 1);
    CHECK(fill_sites_manned(usual, {.people = 20}, 4, 3) == 2);
    CHECK(fill_sites_manned(usual, {.people = 23}, 4, 3) == 3);
    CHECK(fill_sites_manned(usual, {.people = 0}, 4, 3) == 1);
    CHECK(fill_sites_manned(usual, {.people = 0, .not_listed = 1}, 4, 3) == 3);
}

TEST_CASE("a second fill site is opened only with people for every job", "[unit]") {
    OneDumpSite scene = two_weak_hydrants();
    const ParcelSupply not_listed = scene.supply();
    REQUIRE(not_listed.fill_sites() == 2);
    CHECK(not_listed.crew_not_listed == 6);
    give_crews(scene, 4);
    const ParcelSupply manned = scene.supply();
    CHECK(manned.fill_sites() == 2);
    CHECK(manned.crew_there == 24);
    CHECK(manned.crew_needed == 16 + manned.tankers);
    CHECK(manned.cautious == not_listed.cautious);
    CHECK(manned.engines_needed >= 2);
    give_crews(scene, 3);
    const ParcelSupply thin = scene.supply();
    CHECK(thin.fill_sites() == 1);
    CHECK(thin.crew_there == 18);
    CHECK(thin.cautious < manned.cautious);
    CHECK(in_tenths(gain_of_crew(thin)) > 0);
    CHECK(in_tenths(gain_of_crew(thin)) <=
          in_tenths(manned.sustained) - in_tenths(thin.sustained) + 10);
    CHECK(gain_of_crew(manned) == HeldFlow{});
}

TEST_CASE("more people never lower a flow", "[property]") {
    OneDumpSite scene = two_weak_hydrants();
    HeldFlow last{};
    for (int each = 1; each <= 6; ++each) {
        give_crews(scene, each);
        const HeldFlow flow = scene.supply().cautious;
        CHECK(flow >= last);
        last = flow;
    }
}
