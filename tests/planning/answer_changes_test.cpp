#include "analyzer/planning/answer_changes.h"

#include <catch2/catch.hpp>

#include "tests/planning/stored_answers.h"

using namespace farwater;
using namespace farwater::planning;
using farwater::test::stored;
using farwater::test::told;

namespace {

// What becomes of one place that stands in both.
AnswerChange change_of(const StoredAnswer& before, const StoredAnswer& after) {
    const AnswerChanges all = answer_changes(told({before}), told({after}));
    return all.changes.empty() ? AnswerChange{} : all.changes.front();
}

}  // namespace

TEST_CASE("a place that is the same to the tenth is unchanged") {
    const StoredAnswer answer = stored("a", SupplyState::short_flow, 5000, 2000);
    CHECK(answer_changes(told({answer}), told({answer})).changes.empty());
    const AnswerChange other = change_of(answer, stored("a", SupplyState::short_flow, 5000, 2001));
    CHECK(other.happened == Happened::less_missing);
    CHECK(other.cause == Cause::water);
}

TEST_CASE("in the same state it is told whether more or less of the need is missing") {
    const StoredAnswer then = stored("a", SupplyState::short_flow, 5000, 2000);
    CHECK(change_of(then, stored("a", SupplyState::short_flow, 5000, 1999)).happened ==
          Happened::more_missing);
    CHECK(change_of(then, stored("a", SupplyState::short_flow, 5001, 2000)).happened ==
          Happened::more_missing);
    CHECK(change_of(then, stored("a", SupplyState::short_flow, 4999, 2000)).happened ==
          Happened::less_missing);
    CHECK(change_of(then, stored("a", SupplyState::short_flow, 5100, 2100)).happened ==
          Happened::same_state);
    const StoredAnswer held_then = stored("a", SupplyState::held, 5000, 7000);
    CHECK(change_of(held_then, stored("a", SupplyState::held, 5000, 6000)).happened ==
          Happened::same_state);
}

TEST_CASE("states are better and worse in the supply room's order") {
    const StoredAnswer held_now = stored("a", SupplyState::held, 5000, 6000);
    const StoredAnswer late_then = stored("a", SupplyState::late, 5000, 0, 6000);
    const StoredAnswer short_then = stored("a", SupplyState::short_flow, 5000, 2000);
    const StoredAnswer nobody_there = stored("a", SupplyState::unreached, 5000, 0);
    const StoredAnswer who_knows = stored("a", SupplyState::unknown, 5000, {});
    CHECK(change_of(late_then, held_now).happened == Happened::better);
    CHECK(change_of(held_now, late_then).happened == Happened::worse);
    CHECK(change_of(short_then, late_then).happened == Happened::better);
    CHECK(change_of(short_then, nobody_there).happened == Happened::worse);
    CHECK(change_of(nobody_there, who_knows).happened == Happened::worse);
    CHECK(change_of(short_then, held_now).newly_met);
    CHECK(change_of(held_now, short_then).no_longer_met);
    CHECK_FALSE(change_of(short_then, late_then).newly_met);
}

TEST_CASE("the need, the water or both made the difference") {
    const auto cause = [](const StoredAnswer& before, const StoredAnswer& after) {
        return change_of(before, after).cause;
    };
    const StoredAnswer before = stored("a", SupplyState::held, 5000, 6000);
    CHECK(cause(before, stored("a", SupplyState::short_flow, 7000, 6000)) == Cause::need);
    CHECK(cause(before, stored("a", SupplyState::short_flow, 5000, 4000)) == Cause::water);
    // More need, and a flow that is less but would have been enough before: the need.
    CHECK(cause(stored("a", SupplyState::short_flow, 5000, 4000),
                stored("a", SupplyState::short_flow, 5000, 3000)) == Cause::water);
    CHECK(cause(before, stored("a", SupplyState::short_flow, 8000, 4000)) == Cause::both);
    // Less flow, but the need that is less would still be met by either: both are as they were.
    CHECK(cause(before, stored("a", SupplyState::held, 4000, 5500)) == Cause::both);
    // The flow grew where it was enough all along; only the need left it short... of nothing.
    CHECK(cause(stored("a", SupplyState::held, 5000, 6000),
                stored("a", SupplyState::held, 5000, 7000)) == Cause::water);
    // With the same need and flow only the way there, or the later start, can be another.
    CHECK(cause(stored("a", SupplyState::tank_only, 5000, 0),
                stored("a", SupplyState::unreached, 5000, 0)) == Cause::water);
    CHECK(cause(stored("a", SupplyState::late, 5000, 0, 6000),
                stored("a", SupplyState::short_flow, 7000, 0, 6000)) == Cause::need);
}

TEST_CASE("where both are others, each is judged with the other as it was and as it is") {
    // New need 7000, new flow 6000. The old flow 6500 misses 500 of the new need; the new flow
    // misses nothing of the old need, as before: but it now misses 1000. Both.
    const AnswerChange both = change_of(stored("a", SupplyState::held, 5000, 6500),
                                        stored("a", SupplyState::short_flow, 7000, 6000));
    CHECK(both.shortfalls.before == 0);
    CHECK(both.shortfalls.new_need == 500);
    CHECK(both.shortfalls.new_flow == 0);
    CHECK(both.shortfalls.after == 1000);
    CHECK(both.cause == Cause::both);
    // The flow is less by nothing that anybody misses while the need is below it.
    const AnswerChange need = change_of(stored("a", SupplyState::short_flow, 9000, 5000),
                                        stored("a", SupplyState::held, 4000, 4800));
    CHECK(need.shortfalls.new_need == 0);
    CHECK(need.shortfalls.new_flow == 4200);
    CHECK(need.cause == Cause::both);
    // The water alone: the need is another, but below either flow and far above neither.
    const AnswerChange water = change_of(stored("a", SupplyState::tank_only, 5000, 0),
                                         stored("a", SupplyState::tank_only, 5000, 0, 100));
    CHECK(water.cause == Cause::water);
}

TEST_CASE("an answer that is unknown in one result is a matter of the data") {
    CHECK(change_of(stored("a", SupplyState::unknown, 5000, {}),
                    stored("a", SupplyState::held, 5000, 6000))
              .cause == Cause::data);
    CHECK(change_of(stored("a", SupplyState::held, 5000, 6000),
                    stored("a", SupplyState::unknown, 5000, {}))
              .cause == Cause::data);
    CHECK(change_of(stored("a", SupplyState::unknown, 5000, {}),
                    stored("a", SupplyState::unknown, 6000, {}))
              .cause == Cause::need);
}

TEST_CASE("a building that came or is gone stands apart") {
    const AnswerChange came = change_of(stored("a", SupplyState::no_building, {}, {}),
                                        stored("a", SupplyState::held, 5000, 6000));
    CHECK(came.happened == Happened::building_came);
    CHECK_FALSE(came.newly_met);
    const AnswerChange gone = change_of(stored("a", SupplyState::held, 5000, 6000),
                                        stored("a", SupplyState::no_building, {}, {}));
    CHECK(gone.happened == Happened::building_gone);
    CHECK_FALSE(gone.no_longer_met);
}

TEST_CASE("what a result does not tell is not compared, and never taken for zero") {
    const StoredAnswers after = told({stored("a", SupplyState::held, 5000, 6000)});
    StoredAnswers before = told({stored("a", SupplyState::held, 5000, {})});
    before.numbers_told[static_cast<std::size_t>(AnswerNumber::cautious)] = false;
    before.numbers_told[static_cast<std::size_t>(AnswerNumber::later)] = false;
    CHECK(answer_changes(before, after).changes.empty());
    before.places[0].state = SupplyState::short_flow;
    const AnswerChanges all = answer_changes(before, after);
    REQUIRE(all.changes.size() == 1);
    CHECK(all.changes[0].newly_met);
    CHECK(all.changes[0].cause == Cause::not_told);
    CHECK_FALSE(all.changes[0].shortfalls.before);
    CHECK_FALSE(all.before.short_tenths);
    CHECK_FALSE(all.parts);
    // A state that this program does not know.
    before.places[0].state.reset();
    before.places[0].other_state = SharedText("soggy");
    CHECK(answer_changes(before, after).count(Happened::state_not_told) == 1);
    CHECK(answer_changes(before, before).changes.empty());
}

TEST_CASE("ids that stand twice or are blank are listed and not compared, and the counts add up") {
    const StoredAnswers before =
        told({stored("a", SupplyState::held, 1, 2), stored("b", SupplyState::held, 1, 2),
              stored("b", SupplyState::held, 1, 2), stored("", SupplyState::held, 1, 2),
              stored("d", SupplyState::short_flow, 5, 2)});
    const StoredAnswers after =
        told({stored("e", SupplyState::held, 1, 2), stored("a", SupplyState::held, 1, 2),
              stored("b", SupplyState::held, 1, 2), stored("", SupplyState::held, 1, 2)});
    const AnswerChanges all = answer_changes(before, after);
    CHECK(all.compared() == 1);
    CHECK(all.count(Happened::unchanged) == 1);
    CHECK(all.count(Happened::gone) == 1);
    CHECK(all.count(Happened::came) == 1);
    CHECK(all.count(Happened::not_compared) == 5);
    CHECK(all.changes.size() == 7);
    const auto held_place = static_cast<std::size_t>(SupplyState::held);
    CHECK(all.matrix[held_place][held_place] == 1);
    CHECK(all.matrix[held_place][matrix_not_compared] == 3);
    CHECK(all.matrix[matrix_not_compared][held_place] == 2);
    CHECK(all.matrix[matrix_not_there][held_place] == 1);
    // Ids are the same letter by letter.
    CHECK(answer_changes(told({stored("7", SupplyState::held, 1, 2)}),
                         told({stored("07", SupplyState::held, 1, 2)}))
              .count(Happened::came) == 1);
}

TEST_CASE("those that no longer meet their planned flow come first, the largest loss before") {
    const AnswerChanges all = answer_changes(told({stored("a", SupplyState::short_flow, 5000, 100),
                                                   stored("b", SupplyState::held, 5000, 5000),
                                                   stored("c", SupplyState::held, 5000, 5000),
                                                   stored("d", SupplyState::late, 5000, 0, 5000)}),
                                             told({stored("a", SupplyState::held, 5000, 5000),
                                                   stored("b", SupplyState::short_flow, 5000, 4000),
                                                   stored("c", SupplyState::short_flow, 5000, 1000),
                                                   stored("d", SupplyState::tank_only, 5000, 0)}));
    REQUIRE(all.changes.size() == 4);
    const auto id = [&](std::size_t row) { return *all.changes[row].before; };
    CHECK(id(0) == 2);
    CHECK(id(1) == 1);
    CHECK(id(2) == 3);
    CHECK(id(3) == 0);
}

TEST_CASE("the change of all that is missing is parted between need and water") {
    const AnswerChanges all =
        answer_changes(told({stored("a", SupplyState::short_flow, 5000, 4000),
                             stored("b", SupplyState::short_flow, 5000, 4000),
                             stored("gone", SupplyState::short_flow, 900, 200)}),
                       told({stored("a", SupplyState::short_flow, 6000, 4000),
                             stored("b", SupplyState::short_flow, 6000, 2000),
                             stored("came", SupplyState::short_flow, 700, 100)}));
    REQUIRE(all.parts);
    CHECK(all.parts->need == 2 * (1000 + 1000));
    CHECK(all.parts->water == 2 * 2000);
    CHECK(all.parts->came_and_gone == 2 * (600 - 700));
    CHECK(all.parts->sum() == 2 * (*all.after.short_tenths - *all.before.short_tenths));
}
