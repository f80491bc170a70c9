#include "analyzer/planning/input_changes.h"

#include <algorithm>
#include <array>
#include <map>
#include <optional>
#include <set>
#include <span>
#include <utility>

namespace farwater::planning {
namespace {

constexpr std::array<std::string_view, topic_count> topic_words{
    "program",       "data",  "district_file", "seasons_and_periods", "assumptions",
    "need_standard", "fleet", "fill_sites",    "input_records"};
constexpr std::array<std::string_view, 5> input_happened_words{
    "changed", "came", "gone", "only_told_before", "only_told_after"};

// A table of results whose records are looked up by a key, and the columns that are inputs, not
// answers.
struct ComparedTable {
    Topic topic;
    std::string_view name, key;
    std::span<const std::string_view> columns;
};

constexpr std::array<std::string_view, 1> assumption_columns{"value"};
constexpr std::array<std::string_view, 2> standard_columns{"value", "certainty"};
constexpr std::array<std::string_view, 10> fleet_columns{
    "station_id",        "kind", "aid",     "tank_gal", "pump_gpm", "fill_limit_gpm", "offload_gpm",
    "portable_tank_gal", "crew", "min_crew"};
constexpr std::array<std::string_view, 19> fill_site_columns{
    "name",         "kind",       "standing",   "evidence",   "system",
    "rate_gpm",     "limited_by", "source_gpm", "lift_ft",    "usable_gal",
    "unlimited",    "inflow_gpm", "system_gpm", "system_gal", "places",
    "needs_engine", "assumed",    "lane_class", "open_in"};
constexpr std::array<std::string_view, 5> record_columns{"file", "records_read", "used", "repaired",
                                                         "set_aside"};
constexpr std::array compared_tables{
    ComparedTable{Topic::assumptions, "assumptions", "key", assumption_columns},
    ComparedTable{Topic::need_standard, "need_standard", "key", standard_columns},
    ComparedTable{Topic::fleet, "fleet", "unit_id", fleet_columns},
    ComparedTable{Topic::fill_sites, "fill_sites", "source_id", fill_site_columns},
    ComparedTable{Topic::input_records, "input_records", "layer", record_columns},
};

// Of the run record what the topics below, or the documents' own words, say already.
bool is_left_out(std::string_view key) {
    return key == "district_file_text" || key == "caution" || key == "not_modelled";
}

Topic topic_of_key(std::string_view key) {
    const bool program = key == "program" || key == "schema_version" || key == "libraries";
    return program ? Topic::program : key.starts_with("need_") ? Topic::need_standard : Topic::data;
}

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

void add_table(std::vector<InputChange>& changes, const ComparedTable& compared,
               const StoredResult& before, const StoredResult& after) {
    const StoredTable* was = before.table(compared.name);
    const StoredTable* is = after.table(compared.name);
    if (was != nullptr && is != nullptr) {
        TableDifferences(compared, *was, *is, changes).add();
    } else if (was != nullptr || is != nullptr) {
        changes.push_back(
            {compared.topic,
             is == nullptr ? InputHappened::only_told_before : InputHappened::only_told_after, "",
             "", "", ""});
    }
}

// By key: all values of it, in their order.
std::map<std::string, std::vector<std::string>> values_by_key(const StoredRecord& record) {
    std::map<std::string, std::vector<std::string>> values;
    for (const auto& [key, value] : record) {
        values[key].push_back(value);
    }
    return values;
}

// The keys of both, as the later one has them, each once.
std::vector<std::string> keys_in_order(const StoredRecord& before, const StoredRecord& after) {
    std::vector<std::string> keys;
    std::set<std::string> known;
    for (const StoredRecord* record : {&after, &before}) {
        for (const auto& [key, value] : *record) {
            if (known.insert(key).second) {
                keys.push_back(key);
            }
        }
    }
    return keys;
}

// `topic_of(key)`: none leaves the key out. Where a key stands several times, each value is a line
// of its own that came or is gone.
template <class TopicOf>
void add_records(std::vector<InputChange>& changes, const StoredRecord& before,
                 const StoredRecord& after, const TopicOf& topic_of) {
    const auto values_before = values_by_key(before);
    const auto values_after = values_by_key(after);
    const auto values_of = [](const auto& values, const std::string& key) {
        const auto found = values.find(key);
        return found == values.end() ? std::vector<std::string>{} : found->second;
    };
    for (const std::string& key : keys_in_order(before, after)) {
        const std::optional<Topic> topic = topic_of(key);
        std::vector<std::string> was = values_of(values_before, key);
        std::vector<std::string> is = values_of(values_after, key);
        if (!topic || was == is) {
            continue;
        }
        if (was.size() == 1 && is.size() == 1) {
            changes.push_back({*topic, InputHappened::changed, key, "", was[0], is[0]});
            continue;
        }
        for (const std::string& value : is) {
            if (const auto same = std::ranges::find(was, value); same != was.end()) {
                was.erase(same);
            } else {
                changes.push_back({*topic, InputHappened::came, key, "", "", value});
            }
        }
        for (const std::string& value : was) {
            changes.push_back({*topic, InputHappened::gone, key, "", value, ""});
        }
    }
}

// The district file's own words; assumptions are told by their table, with defaults.
std::optional<Topic> topic_of_setting(std::string_view key) {
    if (key.starts_with("assumptions.")) {
        return std::nullopt;
    }
    const bool when = key.starts_with("season.") || key.starts_with("period.");
    return when ? Topic::seasons_and_periods : Topic::district_file;
}

void add_settings(std::vector<InputChange>& changes, const StoredResult& before,
                  const StoredResult& after) {
    if (before.settings && after.settings) {
        add_records(changes, *before.settings, *after.settings, topic_of_setting);
    } else if (before.settings || after.settings) {
        changes.push_back(
            {Topic::district_file,
             after.settings ? InputHappened::only_told_after : InputHappened::only_told_before, "",
             "", "", ""});
    }
}

}  // namespace

std::string_view word(Topic topic) { return topic_words[static_cast<std::size_t>(topic)]; }

std::string_view word(InputHappened happened) {
    return input_happened_words[static_cast<std::size_t>(happened)];
}

std::vector<InputChange> input_changes(const StoredResult& before, const StoredResult& after) {
    std::vector<InputChange> changes;
    add_records(changes, before.record, after.record, [](std::string_view key) {
        return is_left_out(key) ? std::nullopt : std::optional(topic_of_key(key));
    });
    add_settings(changes, before, after);
    for (const ComparedTable& compared : compared_tables) {
        add_table(changes, compared, before, after);
    }
    std::ranges::stable_sort(changes, {}, &InputChange::topic);
    return changes;
}

}  // namespace farwater::planning
