// Laws of a comparison on random results.
#include <algorithm>
#include <map>
#include <random>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "analyzer/planning/comparison.h"
#include "tests/planning/stored_answers.h"
#include "tests/support/draws.h"

using namespace farwater;
using namespace farwater::planning;

namespace {

// Few values, so that many are the same; states as the program would judge them.
StoredAnswer drawn_answer(std::mt19937& random, const std::string& id) {
    const auto draw = [&random](unsigned count) { return static_cast<int>(random() % count); };
    const int needed = 1 + draw(4);
    const int flow = draw(5);
    switch (draw(8)) {
        case 0:
            return test::stored(id, SupplyState::no_building, {}, {});
        case 1:
            return test::stored(id, SupplyState::unknown, needed, {});
        case 2:
            return test::stored(id, SupplyState::unreached, needed, 0);
        default:
            return flow >= needed
                       ? test::stored(id, SupplyState::held, needed, flow)
                       : test::stored(id, flow == 0 ? SupplyState::tank_only : SupplyState::late,
                                      needed, flow, draw(2) + flow);
    }
}

StoredResult drawn_result(std::mt19937& random) {
    StoredResult result;
    std::vector<StoredAnswer> places;
    for (int i = 0; i < 30; ++i) {
        const auto which = random() % 24;
        places.push_back(drawn_answer(random, which == 0 ? "" : "p" + std::to_string(which)));
    }
    std::ranges::shuffle(places, random);
    result.parcels = test::told(std::move(places));
    if (random() % 8 == 0) {  // an older result, without needs
        result.parcels.numbers_told[0] = false;
        for (StoredAnswer& answer : result.parcels.places) {
            answer.numbers[0].reset();
        }
    }
    if (random() % 8 == 0) {  // an older one, without the flow of the other way
        result.parcels.numbers_told[static_cast<std::size_t>(AnswerNumber::runner_up)] = false;
    } else {
        for (StoredAnswer& answer : result.parcels.places) {
            if (answer[AnswerNumber::cautious] && random() % 2 == 0) {
                answer.numbers[static_cast<std::size_t>(AnswerNumber::runner_up)] =
                    Tenths{static_cast<int>(random() % 6)};
            }
        }
    }
    result.record = {{"program", random() % 2 == 0 ? "one" : "two"}};
    StoredTable fleet{.name = "fleet", .columns = {"unit_id", "tank_gal"}, .rows = {}};
    for (unsigned i = 0; i < random() % 4; ++i) {
        fleet.rows.push_back({"T" + std::to_string(random() % 3), std::to_string(random() % 2)});
    }
    result.tables.push_back(std::move(fleet));
    return result;
}

Happened mirrored(Happened happened) {
    switch (happened) {
        case Happened::better:
            return Happened::worse;
        case Happened::worse:
            return Happened::better;
        case Happened::more_missing:
            return Happened::less_missing;
        case Happened::less_missing:
            return Happened::more_missing;
        case Happened::building_came:
            return Happened::building_gone;
        case Happened::building_gone:
            return Happened::building_came;
        case Happened::came:
            return Happened::gone;
        case Happened::gone:
            return Happened::came;
        default:
            return happened;
    }
}

using Rows = std::pair<std::optional<std::uint32_t>, std::optional<std::uint32_t>>;

std::map<Rows, AnswerChange> by_rows(const AnswerChanges& all, bool swapped) {
    std::map<Rows, AnswerChange> changes;
    for (const AnswerChange& change : all.changes) {
        changes[swapped ? Rows{change.after, change.before} : Rows{change.before, change.after}] =
            change;
    }
    return changes;
}

void check_mirror(const AnswerChanges& there, const AnswerChanges& back) {
    const auto changes = by_rows(there, false);
    const auto others = by_rows(back, true);
    REQUIRE(changes.size() == others.size());
    for (const auto& [rows, change] : changes) {
        const auto other = others.find(rows);
        REQUIRE(other != others.end());
        REQUIRE(other->second.happened == mirrored(change.happened));
        REQUIRE(other->second.cause == change.cause);
        REQUIRE(other->second.newly_met == change.no_longer_met);
        REQUIRE(other->second.shortfalls.before == change.shortfalls.after);
        REQUIRE(other->second.shortfalls.new_need == change.shortfalls.new_flow);
        REQUIRE(other->second.numbers_changed == change.numbers_changed);
    }
    for (std::size_t from = 0; from < matrix_size; ++from) {
        for (std::size_t to = 0; to < matrix_size; ++to) {
            REQUIRE(there.matrix[from][to] == back.matrix[to][from]);
        }
    }
    REQUIRE(there.newly_met == back.no_longer_met);
    REQUIRE(there.parts.has_value() == back.parts.has_value());
    if (there.parts) {
        REQUIRE(there.parts->need == -back.parts->need);
        REQUIRE(there.parts->water == -back.parts->water);
        REQUIRE(there.parts->data == -back.parts->data);
    }
}

void check_sums(const AnswerChanges& all) {
    const std::size_t rows_before = all.compared() + all.count(Happened::gone);
    const std::size_t rows_after = all.compared() + all.count(Happened::came);
    REQUIRE(rows_before + rows_after + all.count(Happened::not_compared) ==
            all.before.places + all.after.places);
    std::size_t matrix_before = 0;
    std::size_t matrix_after = 0;
    for (std::size_t from = 0; from < matrix_size; ++from) {
        for (std::size_t to = 0; to < matrix_size; ++to) {
            const bool in_before = from != matrix_not_there && from != matrix_not_compared;
            const bool in_after = to != matrix_not_there && to != matrix_not_compared;
            matrix_before += in_before ? all.matrix[from][to] : 0U;
            matrix_after += in_after ? all.matrix[from][to] : 0U;
        }
    }
    REQUIRE(matrix_before == all.before.places);
    REQUIRE(matrix_after == all.after.places);
    if (all.parts) {
        REQUIRE(all.parts->sum() == 2 * (*all.after.short_tenths - *all.before.short_tenths));
    }
}

}  // namespace

TEST_CASE("comparing the other way round is the mirror, and all counts add up") {
    const unsigned seed = 20260531;
    CAPTURE(seed);
    std::mt19937 random(seed);
    for (int round = 0; round < test::draws(2000); ++round) {
        CAPTURE(round);
        const StoredResult before = drawn_result(random);
        const StoredResult after = drawn_result(random);
        const Comparison there = compare(before, after);
        const Comparison back = compare(after, before);
        check_mirror(there.parcels, back.parcels);
        check_sums(there.parcels);
        REQUIRE(there.inputs.size() == back.inputs.size());
    }
}

// A column that only one of them has is no change.
TEST_CASE("where nothing changed, nothing more or less is missing") {
    const unsigned seed = 78;
    CAPTURE(seed);
    std::mt19937 random(seed);
    for (int round = 0; round < test::draws(500); ++round) {
        CAPTURE(round);
        const StoredResult newer = drawn_result(random);
        StoredResult older = newer;
        older.parcels.numbers_told[static_cast<std::size_t>(AnswerNumber::runner_up)] = false;
        for (StoredAnswer& answer : older.parcels.places) {
            answer.numbers[static_cast<std::size_t>(AnswerNumber::runner_up)].reset();
        }
        for (const AnswerChanges& all :
             {compare(older, newer).parcels, compare(newer, older).parcels}) {
            REQUIRE(all.changes.size() == all.count(Happened::not_compared));
            REQUIRE(all.before.short_tenths == all.after.short_tenths);
            if (all.parts) {
                REQUIRE(all.parts->need == 0);
                REQUIRE(all.parts->water == 0);
                REQUIRE(all.parts->buildings == 0);
                REQUIRE(all.parts->sum() == 0);
            }
        }
    }
}

TEST_CASE("a result against itself: nothing changed but what cannot be told apart") {
    const unsigned seed = 77;
    CAPTURE(seed);
    std::mt19937 random(seed);
    for (int round = 0; round < test::draws(500); ++round) {
        const StoredResult result = drawn_result(random);
        const Comparison same = compare(result, result);
        REQUIRE(same.inputs.empty());
        REQUIRE(same.parcels.changes.size() == same.parcels.count(Happened::not_compared));
        REQUIRE(same.parcels.before.met == same.parcels.after.met);
    }
}
