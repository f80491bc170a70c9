// What became of every place between two results: better or worse, and whether the water, the need
// or only the data made it so.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "analyzer/district/stored_result.h"

namespace farwater::planning {

// Of a place that stands in both results: by the order of severity of the supply room. A state that
// one of them does not tell is not judged.
enum class Happened : std::uint8_t {
    unchanged,       // all that both tell is the same
    better,          // in supply state
    worse,           // in supply state
    more_missing,    // the state is the same, and more of the need is missing
    less_missing,    // likewise, and less is
    same_state,      // the state and what is missing are the same, something else is not
    building_came,   // stood without a building
    building_gone,   // stands without one
    came,            // only in the later result
    gone,            // only in the earlier one
    state_not_told,  // one of them does not tell its state
    not_compared     // its id is blank or stands twice in one of them: nobody knows which is which
};
inline constexpr std::size_t happened_count = 12;
std::string_view word(Happened happened);

// What made the difference, where both tell need and cautious flow. Flow: from the start, by the
// better way (supply::flow_from_start), or the cautious one where only one result tells the other
// way's. The old flow is judged against
// the new need and the new flow against the old need, by what is short of the need:
//   - the need alone is another: need; the water alone (either flow, later flow, reached or not,
//     or the state with all of them the same): water;
//   - both are: need, where the new need leaves the old flow as short as the new one is of it and
//     the new flow is as short of the old need as the old one was; water, the other way round;
//     else both. So where all four are as short, as with a place that is held throughout, it is
//     both;
//   - one of the two answers is `unknown`: data, for something was or is missing;
//   - not_told: a result does not tell what it takes; none: neither need nor water is another.
// Comparing the other way round gives the same cause.
enum class Cause : std::uint8_t { none, need, water, both, data, not_told };
std::string_view word(Cause cause);

// What is missing of the need by that flow, each in tenths of a gpm; none where it is not known.
struct Shortfalls {
    std::optional<std::int32_t> before, after;
    std::optional<std::int32_t> new_need;  // the old flow against the new need
    std::optional<std::int32_t> new_flow;  // the new flow against the old need
};

struct AnswerChange {
    // Rows of the two results; none: it is not there, or not compared with it.
    std::optional<std::uint32_t> before, after;
    Happened happened = Happened::unchanged;
    Cause cause = Cause::none;
    Shortfalls shortfalls;
    bool newly_met = false;      // the planned flow: state held, as the whole program counts it
    bool no_longer_met = false;  // neither where a place came or is gone
    bool state_changed = false;
    std::array<bool, answer_number_columns.size()> numbers_changed{};
    std::array<bool, answer_text_columns.size()> texts_changed{};
};

// A row or column of the matrix: the seven states, then these.
inline constexpr std::size_t matrix_not_told = 7;
inline constexpr std::size_t matrix_not_there = 8;
inline constexpr std::size_t matrix_not_compared = 9;
inline constexpr std::size_t matrix_size = 10;
std::string_view matrix_word(std::size_t place);

// Of one result.
struct AnswerTotals {
    std::size_t places = 0;
    std::size_t improved = 0, met = 0;  // of those whose state is told
    std::size_t not_known = 0;          // state unknown, or not told: their need may be unmet
    // Gpm missing of the needs, in tenths; none where the result tells no need or no cautious flow.
    std::optional<std::int64_t> short_tenths;
};

// What the change of all that is missing is made of; the parts sum up to it. A place's change goes
// to need and water as the mean of both orders: first the one and then the other (of two factors
// the value of Shapley, 1953; from memory). In twentieths of a gpm, so that they are whole.
struct ShortfallParts {
    std::int64_t need = 0, water = 0;
    std::int64_t came_and_gone = 0;  // parcels
    std::int64_t buildings = 0;      // of parcels that stand in both
    std::int64_t data = 0;           // answers that are known in one only, places not compared

    std::int64_t sum() const { return need + water + came_and_gone + buildings + data; }
};

struct AnswerChanges {
    std::vector<AnswerChange> changes;  // all but the unchanged, in order of urgency, then by id
    AnswerTotals before, after;
    // By Happened; a place that stands in both once.
    std::array<std::size_t, happened_count> by_happening{};
    std::size_t newly_met = 0, no_longer_met = 0;
    std::array<std::array<std::size_t, matrix_size>, matrix_size> matrix{};  // [before][after]
    std::optional<ShortfallParts> parts;  // none where one of the results does not tell it

    std::size_t count(Happened happened) const {
        return by_happening[static_cast<std::size_t>(happened)];
    }
    std::size_t compared() const;  // places that stand in both, each once
};

// Places are the same where their ids are, letter by letter. Nothing is dropped: the rows of
// each result are compared + gone (or came) + not compared. O(places log places).
AnswerChanges answer_changes(const StoredAnswers& before, const StoredAnswers& after);

}  // namespace farwater::planning
