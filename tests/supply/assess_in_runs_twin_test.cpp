// A district's answers worked out some rows at a time, against all at once.
#include <algorithm>
#include <cstdint>
#include <tuple>
#include <vector>

#include <catch2/catch.hpp>

#include "analyzer/supply/assess.h"
#include "tests/supply/drawn_lays.h"
#include "tests/supply/random_incidents.h"
#include "tests/support/draws.h"

namespace farwater::supply {
namespace {

constexpr std::size_t places = 23;

// Each place has some of the lays, in an order of its own, or none, and a need of its own.
void settle_around(Dice& dice, DrawnLays& drawn) {
    drawn.supply();
    OneDumpSite& district = drawn.district;
    district.district.parcels.assign(places, Parcel{.id = "P"});
    district.access.assign(places, district.access.front());
    Lists<HoseLay>& lays = district.trips.hose_lays;
    lays = {};
    district.needs.clear();
    district.arrivals.clear();
    for (std::size_t row = 0; row < places; ++row) {
        const int first = dice.whole(0, static_cast<int>(drawn.lays.size()));
        for (std::size_t i = static_cast<std::size_t>(first); i < drawn.lays.size(); ++i) {
            lays.items.push_back(drawn.lays[i].hose);
        }
        lays.close_row();
        if (row > 0) {
            district.trips.source_lays.close_row();
        }
        district.needs.push_back(
            dice.whole(1, 8) == 1
                ? std::nullopt
                : std::optional(Need{tenths_of_gpm(500 * dice.whole(3, 14)),
                                     minutes(30 * dice.whole(2, 4)), Evidence::declared}));
        district.arrivals.push_back(tenths_of_second(600 * dice.whole(5, 14)));
    }
}

auto told_by(const ParcelSupply& supply) {
    return std::tuple(supply.state, supply.needed, supply.sustained, supply.cautious, supply.later,
                      supply.limit, supply.tankers, supply.dump_site, supply.approach,
                      supply.fill_source, supply.gains, supply.gain_engine, supply.earliest_start);
}

}  // namespace

TEST_CASE("answers of some rows at a time are those of all at once", "[twin]") {
    int shuttles = 0;
    for (std::uint64_t seed = 1; seed <= test::draws(12); ++seed) {
        CAPTURE(seed);
        Dice dice(seed + 77'000);
        DrawnLays drawn(dice);
        settle_around(dice, drawn);
        const OneDumpSite& district = drawn.district;
        const auto all = assess(district.situation(), district.needs, district.arrivals, Work{});
        REQUIRE(all.size() == places);
        for (const std::size_t most : {std::size_t{1}, std::size_t{7}, std::size_t{100}}) {
            std::vector<std::uint32_t> seen;
            const auto take = [&](const RowAnswers& answers) {
                CHECK(answers.size() <= most);
                REQUIRE(answers.all().size() == answers.size());
                for (const std::uint32_t row : answers.rows()) {
                    CHECK(told_by(answers.of_row(row)) == told_by(all[row]));
                    seen.push_back(row);
                    shuttles += all[row].has_round_trip() ? 1 : 0;
                }
            };
            assess_in_runs(district.situation(), district.needs, district.arrivals, most, take,
                           Work{});
            std::ranges::sort(seen);
            REQUIRE(seen.size() == places);
            CHECK(std::ranges::adjacent_find(seen) == seen.end());
        }
    }
    CHECK(shuttles > static_cast<int>(test::draws(12)) * 20);
}

TEST_CASE("the worst is kept whichever rows come first", "[unit]") {
    ParcelSupply held;
    held.state = SupplyState::held;
    ParcelSupply late = held;
    late.state = SupplyState::late;
    Assessment assessment;
    const auto keep = [&](std::vector<std::uint32_t> rows, const ParcelSupply& all) {
        RowAnswers answers(rows);
        std::ranges::fill(answers.all(), all);
        assessment.keep(answers, 2);
    };
    assessment.begin({SeasonIndex(0), PeriodIndex(0)}, 3);
    keep({1, 2}, held);
    keep({0}, late);
    assessment.begin({SeasonIndex(1), PeriodIndex(0)}, 3);
    keep({2}, late);
    keep({0, 1}, held);
    CHECK(assessment.worst_variant == std::vector<std::uint8_t>{0, 0, 1});
    CHECK(assessment.supplies[0].state == SupplyState::late);
    CHECK(assessment.supplies[1].state == SupplyState::held);
    CHECK(assessment.supplies[2].state == SupplyState::late);
    const auto counted = [&](std::size_t variant, SupplyState state) {
        return assessment.variants[variant].parcels_by_state[static_cast<std::size_t>(state)];
    };
    CHECK(counted(0, SupplyState::held) == 1);  // the third row is no parcel
    CHECK(counted(0, SupplyState::late) == 1);
    CHECK(counted(1, SupplyState::held) == 2);
    CHECK(counted(1, SupplyState::late) == 0);
}

}  // namespace farwater::supply
