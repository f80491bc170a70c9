// What two results rest on, as far as they tell it themselves, and in what that differs. Such a
// difference is no proof of what made an answer another.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "analyzer/district/stored_result.h"

namespace farwater::planning {

// In the order in which they are listed.
enum class Topic : std::uint8_t {
    program,
    data,
    district_file,
    seasons_and_periods,
    assumptions,
    need_standard,
    fleet,
    fill_sites,
    input_records
};
inline constexpr std::size_t topic_count = 9;
std::string_view word(Topic topic);

enum class InputHappened : std::uint8_t {
    changed,
    came,              // the whole record
    gone,              // the whole record
    only_told_before,  // a column, or a whole table, that the later result does not have
    only_told_after
};
std::string_view word(InputHappened happened);

struct InputChange {
    Topic topic = Topic::program;
    InputHappened happened = InputHappened::changed;
    std::string record;         // key, unit, source, layer; empty: all of the topic
    std::string column;         // of a table with several; may be empty
    std::string before, after;  // as they stand there; empty: blank, or not there

    friend bool operator==(const InputChange&, const InputChange&) = default;
};

// In order of topic, then as the later result has its records, those that are gone behind. What
// neither result tells is left out. O(records log records).
std::vector<InputChange> input_changes(const StoredResult& before, const StoredResult& after);

}  // namespace farwater::planning
