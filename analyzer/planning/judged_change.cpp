#include "analyzer/planning/judged_change.h"

#include <algorithm>
#include <initializer_list>
#include <limits>

#include "analyzer/supply/assessment.h"

namespace farwater::planning {
namespace {

std::optional<std::int32_t> shortfall(const Maybe<Tenths>& needed, const Maybe<Tenths>& flow) {
    if (!needed || !flow) {
        return std::nullopt;
    }
    const std::int64_t missing = std::int64_t{whole(*needed)} - whole(*flow);
    return static_cast<std::int32_t>(
        std::clamp<std::int64_t>(missing, 0, std::numeric_limits<std::int32_t>::max()));
}

// A blank flow of the other way: there is none.
Maybe<Tenths> flow_from_start(const StoredAnswer& answer, FlowJudged judged) {
    const Maybe<Tenths>& cautious = answer[AnswerNumber::cautious];
    const Maybe<Tenths>& other = answer[AnswerNumber::runner_up];
    const bool other_is_better = judged == FlowJudged::of_better_way && cautious && other &&
                                 whole(*other) > whole(*cautious);
    return other_is_better ? other : cautious;
}

Happened happened_to(const StoredAnswer& before, const StoredAnswer& after) {
    if (!before.state || !after.state) {
        return Happened::state_not_told;
    }
    const bool had_building = before.state != SupplyState::no_building;
    const bool has_building = after.state != SupplyState::no_building;
    if (had_building != has_building) {
        return has_building ? Happened::building_came : Happened::building_gone;
    }
    const int worse = supply::severity_of(*after.state) - supply::severity_of(*before.state);
    return worse > 0 ? Happened::worse : worse < 0 ? Happened::better : Happened::same_state;
}

// What happened where the state is the same.
Happened with_the_same_state(const Shortfalls& shortfalls) {
    if (!shortfalls.before || !shortfalls.after || shortfalls.before == shortfalls.after) {
        return Happened::same_state;
    }
    return *shortfalls.after > *shortfalls.before ? Happened::more_missing : Happened::less_missing;
}

// What both results tell, and tell differently.
void mark_changes(AnswerChange& change, const StoredAnswers& of_before, const StoredAnswer& before,
                  const StoredAnswers& of_after, const StoredAnswer& after) {
    change.state_changed =
        before.state != after.state || !(before.other_state == after.other_state);
    for (std::size_t i = 0; i < change.numbers_changed.size(); ++i) {
        change.numbers_changed[i] = of_before.numbers_told[i] && of_after.numbers_told[i] &&
                                    !(before.numbers[i] == after.numbers[i]);
    }
    for (std::size_t i = 0; i < change.texts_changed.size(); ++i) {
        change.texts_changed[i] = of_before.texts_told[i] && of_after.texts_told[i] &&
                                  !(before.texts[i] == after.texts[i]);
    }
}

bool changed(const AnswerChange& change, AnswerNumber which) {
    return change.numbers_changed[static_cast<std::size_t>(which)];
}

bool is_anything_else(const AnswerChange& change) {
    const auto is_set = [](bool set) { return set; };
    return change.state_changed || std::ranges::any_of(change.numbers_changed, is_set) ||
           std::ranges::any_of(change.texts_changed, is_set);
}

bool reached(const StoredAnswer& answer) { return answer.state != SupplyState::unreached; }

// Both need and water are others.
Cause cause_by_crossing(const Shortfalls& shortfalls) {
    const bool by_need =
        shortfalls.new_need == shortfalls.after && shortfalls.new_flow == shortfalls.before;
    const bool by_water =
        shortfalls.new_flow == shortfalls.after && shortfalls.new_need == shortfalls.before;
    return by_need == by_water ? Cause::both : by_need ? Cause::need : Cause::water;
}

Cause cause_of(const AnswerChange& change, const StoredAnswer& before, const StoredAnswer& after,
               FlowJudged judged) {
    if (change.happened == Happened::state_not_told) {
        return Cause::not_told;
    }
    if ((before.state == SupplyState::unknown) != (after.state == SupplyState::unknown)) {
        return Cause::data;
    }
    const bool other_need = changed(change, AnswerNumber::needed);
    if (before.state == SupplyState::unknown || before.state == SupplyState::no_building) {
        return other_need ? Cause::need : Cause::none;
    }
    const Shortfalls& shortfalls = change.shortfalls;
    if (!shortfalls.new_need || !shortfalls.new_flow) {
        return Cause::not_told;
    }
    const bool other_water = changed(change, AnswerNumber::cautious) ||
                             flow_from_start(before, judged) != flow_from_start(after, judged) ||
                             changed(change, AnswerNumber::later) ||
                             reached(before) != reached(after);
    if (other_need && other_water) {
        return cause_by_crossing(shortfalls);
    }
    return other_need                            ? Cause::need
           : other_water || change.state_changed ? Cause::water
                                                 : Cause::none;
}

}  // namespace

FlowJudged flow_judged(const StoredAnswers& before, const StoredAnswers& after) {
    return before.tells(AnswerNumber::runner_up) == after.tells(AnswerNumber::runner_up)
               ? FlowJudged::of_better_way
               : FlowJudged::cautious;
}

std::optional<std::int32_t> shortfall_of(const StoredAnswer& answer, FlowJudged judged) {
    return shortfall(answer[AnswerNumber::needed], flow_from_start(answer, judged));
}

AnswerChange judged(const StoredAnswers& of_before, std::uint32_t row_before,
                    const StoredAnswers& of_after, std::uint32_t row_after) {
    const StoredAnswer& before = of_before.places[row_before];
    const StoredAnswer& after = of_after.places[row_after];
    AnswerChange change{.before = row_before, .after = row_after};
    mark_changes(change, of_before, before, of_after, after);
    change.happened = happened_to(before, after);
    if (!is_anything_else(change)) {
        change.happened = Happened::unchanged;
    }
    const FlowJudged by = flow_judged(of_before, of_after);
    change.shortfalls = {
        .before = shortfall_of(before, by),
        .after = shortfall_of(after, by),
        .new_need = shortfall(after[AnswerNumber::needed], flow_from_start(before, by)),
        .new_flow = shortfall(before[AnswerNumber::needed], flow_from_start(after, by))};
    if (change.happened == Happened::same_state) {
        change.happened = with_the_same_state(change.shortfalls);
    }
    if (change.happened == Happened::building_came || change.happened == Happened::building_gone) {
        return change;  // apart: there is nothing to judge it against
    }
    change.cause = cause_of(change, before, after, by);
    const bool was_met = before.state == SupplyState::held;
    const bool is_met = after.state == SupplyState::held;
    change.newly_met = is_met && !was_met && before.state.has_value();
    change.no_longer_met = was_met && !is_met && after.state.has_value();
    return change;
}

}  // namespace farwater::planning
