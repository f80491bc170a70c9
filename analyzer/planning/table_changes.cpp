#include "analyzer/planning/table_changes.h"

#include <algorithm>
#include <map>
#include <optional>
#include <string>
#include <utility>

namespace farwater::planning {
namespace {

// The n-th record of a key has a name of its own: "join", "join (2)".
std::string numbered(const std::string& key, std::size_t nth) {
    return nth == 1 ? key : key + " (" + std::to_string(nth) + ")";
}

std::optional<std::size_t> place_of(const StoredTable& table, std::string_view column) {
    const auto found = std::ranges::find(table.columns, column);
    return found == table.columns.end()
               ? std::nullopt
               : std::optional(static_cast<std::size_t>(found - table.columns.begin()));
}

using RowsByKey = std::vector<std::pair<std::string, const std::vector<std::string>*>>;

// None without the column.
RowsByKey rows_by_key(const StoredTable& table, std::optional<std::size_t> key) {
    std::map<std::string, std::size_t> seen;
    RowsByKey rows;
    for (const std::vector<std::string>& row : table.rows) {
        if (key) {
            rows.emplace_back(numbered(row[*key], ++seen[row[*key]]), &row);
        }
    }
    return rows;
}

std::map<std::string, const std::vector<std::string>*> looked_up(const RowsByKey& rows) {
    return {rows.begin(), rows.end()};
}

// "kind tanker, tank_gal 2500": what a record says that only one result has.
std::string in_one_line(const ComparedTable& compared, const StoredTable& table,
                        const std::vector<std::string>& row) {
    std::string line;
    for (const std::string_view column : compared.columns) {
        const auto place = place_of(table, column);
        if (place && !row[*place].empty()) {
            line += line.empty() ? "" : ", ";
            line.append(column).append(" ").append(row[*place]);
        }
    }
    return line;
}

class TableDifferences {
public:
    TableDifferences(const ComparedTable& compared, const StoredTable& before,
                     const StoredTable& after, std::vector<InputChange>& changes)
        : compared_(compared), before_(before), after_(after), changes_(changes) {}

    void add() {
        const auto key_before = place_of(before_, compared_.key);
        const auto key_after = place_of(after_, compared_.key);
        // One without records, as a layer that is not written then, has nothing to tell of columns.
        const bool has_both = !before_.rows.empty() && !after_.rows.empty();
        if (has_both && (!key_before || !key_after)) {
            add_untold(compared_.key, key_before.has_value());
            return;
        }
        if (has_both) {
            add_columns_of_one();
        }
        add_rows(rows_by_key(before_, key_before), rows_by_key(after_, key_after));
    }

private:
    void add_rows(const RowsByKey& rows_before, const RowsByKey& rows_after) {
        const auto known = looked_up(rows_before);
        for (const auto& [key, row] : rows_after) {
            const auto was = known.find(key);
            if (was == known.end()) {
                changes_.push_back({compared_.topic, InputHappened::came, key, "", "",
                                    in_one_line(compared_, after_, *row)});
            } else {
                add_cells(key, *was->second, *row);
            }
        }
        const auto known_after = looked_up(rows_after);
        for (const auto& [key, row] : rows_before) {
            if (!known_after.contains(key)) {
                changes_.push_back({compared_.topic, InputHappened::gone, key, "",
                                    in_one_line(compared_, before_, *row), ""});
            }
        }
    }

    void add_untold(std::string_view column, bool in_before) {
        changes_.push_back(
            {compared_.topic,
             in_before ? InputHappened::only_told_before : InputHappened::only_told_after, "",
             std::string(column), "", ""});
    }

    void add_columns_of_one() {
        for (const std::string_view column : compared_.columns) {
            const bool in_before = place_of(before_, column).has_value();
            if (in_before != place_of(after_, column).has_value()) {
                add_untold(column, in_before);
            }
        }
    }

    void add_cells(const std::string& key, const std::vector<std::string>& was,
                   const std::vector<std::string>& is) {
        for (const std::string_view column : compared_.columns) {
            const auto before = place_of(before_, column);
            const auto after = place_of(after_, column);
            if (before && after && was[*before] != is[*after]) {
                const bool only_one = compared_.columns.size() == 1;
                changes_.push_back({compared_.topic, InputHappened::changed, key,
                                    only_one ? "" : std::string(column), was[*before], is[*after]});
            }
        }
    }

    const ComparedTable& compared_;
    const StoredTable& before_;
    const StoredTable& after_;
    std::vector<InputChange>& changes_;
};

}  // namespace

void add_table_changes(std::vector<InputChange>& changes, const ComparedTable& compared,
                       const StoredTable& before, const StoredTable& after) {
    TableDifferences(compared, before, after, changes).add();
}

}  // namespace farwater::planning
