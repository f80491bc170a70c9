#include "analyzer/planning/comparison.h"

#include <algorithm>
#include <charconv>

namespace farwater::planning {
namespace {

std::string cell_of(const StoredTable& table, const std::vector<std::string>& row,
                    std::string_view column) {
    const auto found = std::ranges::find(table.columns, column);
    return found == table.columns.end()
               ? std::string()
               : row[static_cast<std::size_t>(found - table.columns.begin())];
}

// None for what is no whole number.
std::optional<std::int64_t> count_in(const std::string& cell) {
    std::int64_t count = 0;
    const char* end = cell.data() + cell.size();
    const auto read = std::from_chars(cell.data(), end, count);
    return read.ec == std::errc() && read.ptr == end ? std::optional(count) : std::nullopt;
}

StationCounts counts_of(const StoredTable& table, const std::vector<std::string>& row) {
    StationCounts counts;
    for (std::size_t i = 0; i < station_columns.size(); ++i) {
        counts.counts[i] = count_in(cell_of(table, row, station_columns[i]));
    }
    return counts;
}

std::optional<std::vector<StationChange>> station_changes(const StoredTable* before,
                                                          const StoredTable* after) {
    if (before == nullptr || after == nullptr) {
        return std::nullopt;
    }
    std::vector<StationChange> changes;
    for (const std::vector<std::string>& row : after->rows) {
        changes.push_back({cell_of(*after, row, "station_id"), cell_of(*after, row, "name"),
                           std::nullopt, counts_of(*after, row)});
    }
    for (const std::vector<std::string>& row : before->rows) {
        const std::string id = cell_of(*before, row, "station_id");
        const auto known = std::ranges::find_if(changes, [&](const StationChange& change) {
            return change.id == id && !change.before;
        });
        if (known != changes.end()) {
            known->before = counts_of(*before, row);
        } else {
            changes.push_back(
                {id, cell_of(*before, row, "name"), counts_of(*before, row), std::nullopt});
        }
    }
    return changes;
}

}  // namespace

bool Comparison::no_answer_changed() const {
    return parcels.changes.empty() && targets.changes.empty();
}

bool Comparison::nothing_changed() const { return no_answer_changed() && inputs.empty(); }

Comparison compare(const StoredResult& before, const StoredResult& after) {
    return {.parcels = answer_changes(before.parcels, after.parcels),
            .targets = answer_changes(before.targets, after.targets),
            .stations = station_changes(before.table("by_station"), after.table("by_station")),
            .inputs = input_changes(before, after)};
}

}  // namespace farwater::planning
