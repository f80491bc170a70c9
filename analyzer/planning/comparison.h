// Two results of the same district, an earlier and a later one, side by side.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "analyzer/district/stored_result.h"
#include "analyzer/planning/answer_changes.h"
#include "analyzer/planning/input_changes.h"

namespace farwater::planning {

// Improved parcels by the station of the first engine, as a result's own table by_station has them.
inline constexpr std::array<std::string_view, 5> station_columns{"parcels", "held", "late", "short",
                                                                 "tank_only"};
struct StationCounts {
    std::array<std::optional<std::int64_t>, station_columns.size()> counts{};
    friend bool operator==(const StationCounts&, const StationCounts&) = default;
};
struct StationChange {
    std::string id;                              // empty: no engine gets there, or it is not known
    std::string name;                            // of the later result where it has one
    std::optional<StationCounts> before, after;  // none: the station is not there
};

struct Comparison {
    AnswerChanges parcels, targets;
    // Every station of both; none where one of the results has no such table.
    std::optional<std::vector<StationChange>> stations;
    std::vector<InputChange> inputs;

    // No answer and no input is another.
    bool nothing_changed() const;
    bool no_answer_changed() const;
};

Comparison compare(const StoredResult& before, const StoredResult& after);

}  // namespace farwater::planning
