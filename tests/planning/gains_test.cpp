#include "analyzer/planning/gains.h"

#include <catch2/catch.hpp>

#include "analyzer/planning/weights.h"

using namespace farwater;
using namespace farwater::planning;

namespace {

supply::ParcelSupply answer(SupplyState state, int needed, int cautious, int runner_up = 0) {
    supply::ParcelSupply supply;
    supply.state = state;
    supply.needed = tenths_of_gpm(needed * 10);
    supply.cautious = tenths_of_gpm(cautious * 10);
    supply.runner_up_cautious = tenths_of_gpm(runner_up * 10);
    return supply;
}

const supply::ParcelSupply short_200 = answer(SupplyState::short_flow, 500, 200);
const supply::ParcelSupply short_400 = answer(SupplyState::short_flow, 500, 400);
const supply::ParcelSupply held_900 = answer(SupplyState::held, 500, 900);

}  // namespace

TEST_CASE("flow beyond the need is no gain, and a loss is one") {
    CHECK(Change{0, short_200, held_900}.gain() == 3000);
    CHECK(Change{0, held_900, short_400}.gain() == -1000);
    CHECK(Change{0, held_900, answer(SupplyState::held, 500, 600)}.gain() == 0);
}

TEST_CASE("a property that is late by hose keeps the flow of its shuttle") {
    const Change change{0, short_400, answer(SupplyState::late, 500, 0, 400)};
    CHECK(change.gain() == 0);
}

TEST_CASE("gains and losses are summed, and told apart") {
    const std::vector<Change> changes{{0, short_200, held_900}, {1, held_900, short_400}};
    const GainSum sum = sum_of(changes);
    CHECK(sum.gpm() == 200.0);
    CHECK(sum.lost_gpm() == 100.0);
    CHECK(sum.gaining == 1);
    CHECK(sum.losing == 1);
    CHECK(sum.more_held() == 0);
}

TEST_CASE("a loss where the first engine is there sooner is told apart") {
    const auto engine_at = [](supply::ParcelSupply supply, int tenths) {
        supply.first_engine = supply::TenthsMinute{tenths};
        return supply;
    };
    const Change sooner{0, engine_at(held_900, 220), engine_at(short_400, 150)};
    const Change same{1, engine_at(held_900, 150), engine_at(short_200, 150)};
    const Change later{2, engine_at(short_400, 150), engine_at(short_200, 151)};
    const Change gain{3, engine_at(short_200, 220), engine_at(short_400, 150)};
    const Change nobody{4, short_400, engine_at(short_200, 150)};
    CHECK(sooner.judged_earlier());
    for (const Change& other : {same, later, gain, nobody}) {
        CHECK_FALSE(other.judged_earlier());
    }
    const GainSum sum = sum_of(std::vector{sooner, same, later, gain, nobody});
    CHECK(sum.losing == 4);
    CHECK(sum.losing_earlier == 1);
    CHECK(sum.lost_gpm() == 800.0);
    CHECK(sum.lost_earlier_gpm() == 100.0);
}

TEST_CASE("the last step is what changes from the changes before to those after") {
    const std::vector<Change> before{{1, short_200, short_400}, {2, short_200, short_400}};
    const std::vector<Change> after{
        {0, short_200, held_900}, {1, short_200, short_400}, {3, short_200, short_400}};
    const std::vector<Change> step = last_step(before, after);
    REQUIRE(step.size() == 3);
    CHECK(step[0].row == 0);
    CHECK(step[1].row == 2);  // turned back
    CHECK(step[1].gain() == -2000);
    CHECK(step[2].row == 3);
    CHECK(sum_of(step).tenths == sum_of(after).tenths - sum_of(before).tenths);
}

TEST_CASE("offers are gains alone, without losses") {
    const std::vector<Change> changes{{4, short_200, short_400}, {7, held_900, short_400}};
    const std::vector<Offer> offers = offers_of(changes, {});
    REQUIRE(offers.size() == 1);
    CHECK(offers[0].customer == 4);
    CHECK(offers[0].gain == 2000);
    CHECK(offers_of({}, {}).empty());
}
