#include "analyzer/planning/answer_changes.h"

#include <algorithm>
#include <numeric>
#include <span>
#include <string_view>
#include <utility>

#include "analyzer/planning/judged_change.h"
#include "analyzer/supply/assessment.h"

namespace farwater::planning {
namespace {

constexpr std::array<std::string_view, happened_count> happened_words{
    "unchanged",     "better",        "worse", "more_missing", "less_missing",   "same_state",
    "building_came", "building_gone", "came",  "gone",         "state_not_told", "not_compared"};
constexpr std::array<std::string_view, 6> cause_words{"none", "need", "water",
                                                      "both", "data", "not_told"};

using Rows = std::vector<std::uint32_t>;

Rows rows_by_id(const StoredAnswers& answers) {
    Rows rows(answers.places.size());
    std::iota(rows.begin(), rows.end(), 0U);
    std::ranges::stable_sort(
        rows, {}, [&](std::uint32_t row) -> const std::string& { return answers.places[row].id; });
    return rows;
}

// Goes through both results side by side, id by id.
class Matching {
public:
    Matching(const StoredAnswers& before, const StoredAnswers& after)
        : before_{before, rows_by_id(before)}, after_{after, rows_by_id(after)} {}

    // Calls `take` with the rows of one id after the other, ascending.
    template <class Take>
    void each(Take take) {
        while (!before_.at_end() || !after_.at_end()) {
            const bool first =
                after_.at_end() || (!before_.at_end() && before_.id() <= after_.id());
            const std::string& id = first ? before_.id() : after_.id();
            const auto of_before = before_.take(id);
            const auto of_after = after_.take(id);
            take(id, of_before, of_after);
        }
    }

private:
    struct Side {
        const StoredAnswers& answers;
        Rows rows;
        std::size_t next = 0;

        bool at_end() const { return next == rows.size(); }
        const std::string& id() const { return answers.places[rows[next]].id; }
        std::span<const std::uint32_t> take(const std::string& wanted) {
            const std::size_t begin = next;
            while (!at_end() && id() == wanted) {
                ++next;
            }
            return std::span(rows).subspan(begin, next - begin);
        }
    };
    Side before_, after_;
};

std::size_t matrix_place(const StoredAnswer& answer) {
    return answer.state ? static_cast<std::size_t>(*answer.state) : matrix_not_told;
}

AnswerTotals totals_of(const StoredAnswers& answers, FlowJudged judged) {
    AnswerTotals totals{.places = answers.places.size(), .short_tenths = {}};
    if (answers.tells(AnswerNumber::needed) && answers.tells(AnswerNumber::cautious)) {
        totals.short_tenths = 0;
    }
    for (const StoredAnswer& answer : answers.places) {
        totals.improved += answer.state && answer.state != SupplyState::no_building ? 1U : 0U;
        totals.not_known += answer.state.value_or(SupplyState::unknown) == SupplyState::unknown;
        totals.met += answer.state == SupplyState::held ? 1U : 0U;
        if (totals.short_tenths) {
            *totals.short_tenths += shortfall_of(answer, judged).value_or(0);
        }
    }
    return totals;
}

// A part of all that is missing, in twentieths.
void add_to_parts(ShortfallParts& parts, const AnswerChange& change) {
    const std::int64_t after = change.shortfalls.after.value_or(0);
    const std::int64_t before = change.shortfalls.before.value_or(0);
    const std::int64_t more = 2 * (after - before);
    if (change.happened == Happened::came || change.happened == Happened::gone) {
        parts.came_and_gone += more;
    } else if (change.happened == Happened::building_came ||
               change.happened == Happened::building_gone) {
        parts.buildings += more;
    } else if (change.shortfalls.new_need && change.shortfalls.new_flow) {
        const std::int64_t new_need = *change.shortfalls.new_need;
        const std::int64_t new_flow = *change.shortfalls.new_flow;
        parts.need += (new_need - before) + (after - new_flow);
        parts.water += (new_flow - before) + (after - new_need);
    } else {
        parts.data += more;
    }
}

int urgency(const AnswerChange& change) {
    if (change.no_longer_met) {
        return 0;
    }
    switch (change.happened) {
        case Happened::worse:
            return 1;
        case Happened::gone:
            return 2;
        case Happened::not_compared:
            return 3;
        case Happened::state_not_told:
            return 4;
        case Happened::building_came:
            return 6;
        case Happened::came:
            return 7;
        case Happened::better:
            return change.newly_met ? 8 : 9;
        case Happened::building_gone:
            return 10;
        case Happened::more_missing:
            return 5;
        case Happened::less_missing:
            return 11;
        case Happened::same_state:
        case Happened::unchanged:
            break;
    }
    return 12;
}

std::int32_t grown(const AnswerChange& change) {
    return change.shortfalls.after.value_or(0) - change.shortfalls.before.value_or(0);
}

class Adding {
public:
    Adding(const StoredAnswers& before, const StoredAnswers& after, AnswerChanges& all)
        : before_(before), after_(after), all_(all) {}

    void operator()(const std::string& id, std::span<const std::uint32_t> before,
                    std::span<const std::uint32_t> after) {
        const bool one_each = before.size() <= 1 && after.size() <= 1;
        if (one_each && !id.empty()) {
            take(before.empty() ? std::nullopt : std::optional(before.front()),
                 after.empty() ? std::nullopt : std::optional(after.front()), false);
            return;
        }
        for (const std::uint32_t row : before) {
            take(row, std::nullopt, true);
        }
        for (const std::uint32_t row : after) {
            take(std::nullopt, row, true);
        }
    }

private:
    void take(std::optional<std::uint32_t> before, std::optional<std::uint32_t> after,
              bool not_compared) {
        AnswerChange change = before && after ? judged(before_, *before, after_, *after)
                                              : on_one_side(before, after, not_compared);
        const std::size_t missing = not_compared ? matrix_not_compared : matrix_not_there;
        const std::size_t from = before ? matrix_place(before_.places[*before]) : missing;
        const std::size_t to = after ? matrix_place(after_.places[*after]) : missing;
        ++all_.matrix[from][to];
        ++all_.by_happening[static_cast<std::size_t>(change.happened)];
        all_.newly_met += change.newly_met ? 1U : 0U;
        all_.no_longer_met += change.no_longer_met ? 1U : 0U;
        if (all_.parts) {
            add_to_parts(*all_.parts, change);
        }
        if (change.happened != Happened::unchanged) {
            all_.changes.push_back(change);
        }
    }

    AnswerChange on_one_side(std::optional<std::uint32_t> before,
                             std::optional<std::uint32_t> after, bool not_compared) const {
        AnswerChange change{.before = before, .after = after};
        change.happened = not_compared ? Happened::not_compared
                          : before     ? Happened::gone
                                       : Happened::came;
        const FlowJudged judged = flow_judged(before_, after_);
        change.shortfalls.before =
            before ? shortfall_of(before_.places[*before], judged) : std::nullopt;
        change.shortfalls.after =
            after ? shortfall_of(after_.places[*after], judged) : std::nullopt;
        return change;
    }

    const StoredAnswers& before_;
    const StoredAnswers& after_;
    AnswerChanges& all_;
};

}  // namespace

std::string_view word(Happened happened) {
    return happened_words[static_cast<std::size_t>(happened)];
}

std::string_view word(Cause cause) { return cause_words[static_cast<std::size_t>(cause)]; }

std::string_view matrix_word(std::size_t place) {
    switch (place) {
        case matrix_not_told:
            return "not_told";
        case matrix_not_there:
            return "not_there";
        case matrix_not_compared:
            return "not_compared";
        default:
            return words_of(SupplyState{})[place];
    }
}

std::size_t AnswerChanges::compared() const {
    return std::accumulate(by_happening.begin(), by_happening.end(), std::size_t{0}) -
           count(Happened::came) - count(Happened::gone) - count(Happened::not_compared);
}

AnswerChanges answer_changes(const StoredAnswers& before, const StoredAnswers& after) {
    AnswerChanges all;
    const FlowJudged judged = flow_judged(before, after);
    all.before = totals_of(before, judged);
    all.after = totals_of(after, judged);
    if (all.before.short_tenths && all.after.short_tenths) {
        all.parts.emplace();
    }
    Matching(before, after).each(Adding(before, after, all));
    // They came in order of their ids.
    std::ranges::stable_sort(all.changes, [](const AnswerChange& a, const AnswerChange& b) {
        const int urgency_a = urgency(a);
        const int urgency_b = urgency(b);
        return urgency_a != urgency_b ? urgency_a < urgency_b : grown(a) > grown(b);
    });
    return all;
}

}  // namespace farwater::planning
