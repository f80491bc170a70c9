// More lays, water, places, hose: what is held is never lost by them. What the search for tankers
// may still lose is counted.
#include <algorithm>
#include <string>

#include <catch2/catch.hpp>

#include "tests/supply/drawn_lays.h"
#include "tests/support/draws.h"

using namespace farwater;
using namespace farwater::supply;

namespace {

constexpr std::uint64_t districts = test::draws(150);

// How often something more took away state, or what counts next: water without a gap, then flow.
struct Losses {
    int state = 0, held = 0, flow = 0;

    void count(const ParcelSupply& before, const ParcelSupply& after) {
        state += severity_of(after.state) > severity_of(before.state) ? 1 : 0;
        held += before.state == SupplyState::held && after.state != SupplyState::held ? 1 : 0;
        flow += after.state == before.state && worse(PlanOrder{}, after, before) ? 1 : 0;
    }
};

}  // namespace

TEST_CASE("bounds leave out no lay that gives a better answer", "[twin]") {
    int better_than_first = 0;
    for (std::uint64_t seed = 1; seed <= districts; ++seed) {
        CAPTURE(seed);
        Dice dice(seed + 40'000);
        DrawnLays drawn(dice);
        const ParcelSupply answer = drawn.supply();
        const ParcelSupply first = drawn.supply_by(0);
        ParcelSupply best = first;
        for (std::size_t lay = 0; lay < drawn.lays.size(); ++lay) {
            const ParcelSupply other = drawn.supply_by(lay);
            best = worse(PlanOrder{}, best, other) ? other : best;
        }
        CHECK(answer.state == best.state);
        CHECK(answer.cautious == best.cautious);
        CHECK(answer.gap == best.gap);
        better_than_first += worse(PlanOrder{}, first, best) ? 1 : 0;
    }
    CHECK(better_than_first > static_cast<int>(districts) / 5);
}

TEST_CASE("one more lay never takes away what is held, nor makes the answer worse", "[property]") {
    Losses losses;
    for (std::uint64_t seed = 1; seed <= districts; ++seed) {
        Dice dice(seed + 50'000);
        DrawnLays drawn(dice);
        const std::size_t sources = drawn.district.district.sources.size();
        for (std::size_t lays = 1; lays < drawn.lays.size(); ++lays) {
            losses.count(drawn.supply(lays, sources), drawn.supply(lays + 1, sources));
        }
    }
    CHECK(losses.state == 0);
    CHECK(losses.flow == 0);
}

TEST_CASE("more hose never takes away what is held, nor makes the answer worse", "[property]") {
    Losses losses;
    int gained = 0;
    for (std::uint64_t seed = 1; seed <= districts; ++seed) {
        Dice dice(seed + 60'000);
        DrawnLays drawn(dice);
        const ParcelSupply before = drawn.supply();
        for (Unit& unit : drawn.district.district.units) {
            if (unit.kind == UnitKind::engine) {
                unit.hose->hose_4in += feet(1000);
            }
        }
        const ParcelSupply after = drawn.supply();
        losses.count(before, after);
        gained += worse(before, after) ? 1 : 0;
    }
    CHECK(losses.state == 0);
    CHECK(losses.flow == 0);
    CHECK(gained > 0);
}

// A further source may change which tankers a second fill site is tried with, and a further place
// the order in which tankers that differ fill: both are counted.
TEST_CASE("one more source, or one more place at each, never takes away what is held",
          "[property]") {
    Losses by_source;
    Losses by_place;
    for (std::uint64_t seed = 1; seed <= districts; ++seed) {
        Dice dice(seed + 70'000);
        DrawnLays drawn(dice);
        std::vector<WaterSource>& sources = drawn.district.district.sources;
        const ParcelSupply all = drawn.supply();
        by_source.count(drawn.supply(drawn.lays.size(), sources.size() - 1), all);
        for (WaterSource& source : sources) {
            source.places = source.places.value_or(1) + 1;
        }
        by_place.count(all, drawn.supply());
    }
    CAPTURE(by_source.state, by_source.held, by_source.flow);
    CAPTURE(by_place.state, by_place.held, by_place.flow);
    CHECK(by_source.held == 0);
    CHECK(by_place.held == 0);
    CHECK(by_source.state == 0);
    CHECK(by_place.state == 0);
    CHECK(by_source.flow <= 5);
    CHECK(by_place.flow <= 10);
}
