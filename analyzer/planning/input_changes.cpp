#include "analyzer/planning/input_changes.h"

#include <algorithm>
#include <array>
#include <map>
#include <optional>
#include <set>
#include <utility>

#include "analyzer/planning/table_changes.h"

namespace farwater::planning {
namespace {

constexpr std::array<std::string_view, topic_count> topic_words{
    "program",       "data",  "district_file", "seasons_and_periods", "assumptions",
    "need_standard", "fleet", "fill_sites",    "input_records"};
constexpr std::array<std::string_view, 5> input_happened_words{
    "changed", "came", "gone", "only_told_before", "only_told_after"};

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

void add_table(std::vector<InputChange>& changes, const ComparedTable& compared,
               const StoredResult& before, const StoredResult& after) {
    const StoredTable* was = before.table(compared.name);
    const StoredTable* is = after.table(compared.name);
    if (was != nullptr && is != nullptr) {
        add_table_changes(changes, compared, *was, *is);
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

using ValuesByKey = std::map<std::string, std::vector<std::string>>;

std::vector<std::string> values_of(const ValuesByKey& values, const std::string& key) {
    const auto found = values.find(key);
    return found == values.end() ? std::vector<std::string>{} : found->second;
}

// Of a key that stands several times each value is a line of its own that came or is gone.
void add_values(std::vector<InputChange>& changes, Topic topic, const std::string& key,
                std::vector<std::string> was, const std::vector<std::string>& is) {
    if (was.size() == 1 && is.size() == 1) {
        if (was != is) {
            changes.push_back({topic, InputHappened::changed, key, "", was[0], is[0]});
        }
        return;
    }
    for (const std::string& value : is) {
        if (const auto same = std::ranges::find(was, value); same != was.end()) {
            was.erase(same);
        } else {
            changes.push_back({topic, InputHappened::came, key, "", "", value});
        }
    }
    for (const std::string& value : was) {
        changes.push_back({topic, InputHappened::gone, key, "", value, ""});
    }
}

// `topic_of(key)`: none leaves the key out.
template <class TopicOf>
void add_records(std::vector<InputChange>& changes, const StoredRecord& before,
                 const StoredRecord& after, const TopicOf& topic_of) {
    const ValuesByKey values_before = values_by_key(before);
    const ValuesByKey values_after = values_by_key(after);
    for (const std::string& key : keys_in_order(before, after)) {
        if (const std::optional<Topic> topic = topic_of(key)) {
            add_values(changes, *topic, key, values_of(values_before, key),
                       values_of(values_after, key));
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
