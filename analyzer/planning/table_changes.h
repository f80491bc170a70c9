// One table of two results, record by record.
#pragma once

#include <span>
#include <string_view>
#include <vector>

#include "analyzer/district/stored_result.h"
#include "analyzer/planning/input_changes.h"

namespace farwater::planning {

// A table of results whose records are looked up by a key, and the columns that are inputs, not
// answers.
struct ComparedTable {
    Topic topic;
    std::string_view name, key;
    std::span<const std::string_view> columns;
};

// Records are the same where their keys are; the n-th of a key against the n-th. Columns that only
// one of the tables has are said and not compared. O(cells log records).
void add_table_changes(std::vector<InputChange>& changes, const ComparedTable& compared,
                       const StoredTable& before, const StoredTable& after);

}  // namespace farwater::planning
