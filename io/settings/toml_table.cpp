#include "io/settings/toml_table.h"

#include <algorithm>

#include <fmt/format.h>

#include "analyzer/district/assumptions.h"
#include "io/near_word.h"
#include "io/settings/toml_value.h"

namespace farwater::io {
namespace {

std::vector<std::string_view> names_of(std::span<const KeyRow> keys) {
    std::vector<std::string_view> names;
    for (const KeyRow& row : keys) {
        names.push_back(row.name);
    }
    return names;
}

}  // namespace

// Keys stand in the wrong table more often than they are misspelt.
std::string right_table_of_district(std::string_view key) {
    for (const AssumptionRow& row : assumption_rows()) {
        if (row.key == key) {
            return "; it belongs in [assumptions]";
        }
    }
    for (const KeyRow& row : top_keys()) {
        if (row.name == key) {
            return "; it belongs at the top of the file, before every table";
        }
    }
    return {};
}

TableReader::TableReader(const TomlTable& table, TomlPlace place, std::string title,
                         std::span<const KeyRow> keys, Faults& faults,
                         std::span<const std::string_view> elsewhere, RightTable right_table)
    : place_(place),
      title_(std::move(title)),
      keys_(keys),
      right_table_(right_table),
      faults_(&faults) {
    for (const TomlEntry& entry : table) {
        if (std::find(elsewhere.begin(), elsewhere.end(), entry.key) != elsewhere.end()) {
            continue;
        }
        const bool known = std::any_of(keys.begin(), keys.end(),
                                       [&](const KeyRow& row) { return row.name == entry.key; });
        if (known) {
            take(entry);
        } else {
            report_unknown(entry, elsewhere);
        }
    }
    report_missing();
}

void TableReader::take(const TomlEntry& entry) {
    const auto row = std::find_if(keys_.begin(), keys_.end(),
                                  [&](const KeyRow& key) { return key.name == entry.key; });
    nodes_[entry.key] = nullptr;  // there, so not missing; not to be used unless right
    if (!is_kind(entry.node, row->kind)) {
        // Several files where one is read want to know what to do with them.
        const bool list = row->kind == KeyKind::text && entry.node.as<TomlArray>() != nullptr;
        faults_->add(entry.node.place, fmt::format("{} {} must be {}, not {}{}", title_, entry.key,
                                                   wanted(row->kind), kind_name(entry.node),
                                                   list ? fmt::format(": {}", row->what) : ""));
        return;
    }
    const auto* text = entry.node.as<std::string>();
    if (row->required && text != nullptr &&
        text->find_first_not_of(" \t\r\n") == std::string::npos) {
        faults_->add(entry.node.place,
                     fmt::format("{} {} must not be empty: {}", title_, entry.key, row->what));
        return;
    }
    if (const std::string wrong = wrong_value(entry.node, *row); !wrong.empty()) {
        faults_->add(entry.node.place, fmt::format("{} {} {}", title_, entry.key, wrong));
        return;
    }
    nodes_[entry.key] = &entry.node;
    given_.push_back(entry.key);
}

void TableReader::report_unknown(const TomlEntry& entry,
                                 std::span<const std::string_view> elsewhere) {
    std::vector<std::string_view> names = names_of(keys_);
    names.insert(names.end(), elsewhere.begin(), elsewhere.end());
    std::string advice = right_table_(entry.key);
    if (advice.empty()) {
        advice = did_you_mean(entry.key, names);
    }
    if (advice.empty() && names.size() <= 10) {
        advice = "; it may have " + one_of(names);
    }
    const std::string_view thing = entry.node.as<TomlTable>() != nullptr ? "table" : "key";
    faults_->add(entry.key_place,
                 fmt::format("{} has no {} \"{}\"{}", title_, thing, entry.key, advice));
}

void TableReader::report_missing() {
    for (const KeyRow& row : keys_) {
        if (row.required && !nodes_.contains(row.name)) {
            faults_->add(place_, fmt::format("{} lacks {}: {}", title_, row.name, row.what));
        }
    }
}

const TomlNode* TableReader::find_node(std::string_view key) const {
    const auto found = nodes_.find(key);
    return found == nodes_.end() ? nullptr : found->second;
}

std::string TableReader::text(std::string_view key, std::string_view otherwise) const {
    const auto* text = find<std::string>(key);
    return text == nullptr ? std::string(otherwise) : *text;
}

std::optional<double> TableReader::number(std::string_view key) const {
    const TomlNode* node = find_node(key);
    return node == nullptr ? std::nullopt : number_of(*node);
}

int TableReader::whole(std::string_view key, int otherwise) const {
    const auto* whole = find<std::int64_t>(key);
    return whole == nullptr ? otherwise : static_cast<int>(*whole);
}

bool TableReader::yes_no(std::string_view key) const {
    const auto* yes = find<bool>(key);
    return yes != nullptr && *yes;
}

std::optional<Date> TableReader::date(std::string_view key) const {
    const auto* date = find<Date>(key);
    return date == nullptr ? std::nullopt : std::optional(*date);
}

std::vector<std::string> TableReader::texts(std::string_view key) const {
    const TomlNode* node = find_node(key);
    return node == nullptr ? std::vector<std::string>{} : texts_of(*node);
}

bool TableReader::unlimited(std::string_view key) const {
    const auto* text = find<std::string>(key);
    return text != nullptr && *text == unlimited_word;
}

TomlPlace TableReader::place(std::string_view key) const {
    const TomlNode* node = find_node(key);
    return node == nullptr ? place_ : node->place;
}

TomlTable TableReader::table(std::string_view key) const {
    const auto* table = find<TomlTable>(key);
    return table == nullptr ? TomlTable{} : *table;
}

std::optional<TableReader> read_top_table(const TomlTable& top, std::string_view name,
                                          std::span<const KeyRow> keys, Faults& faults) {
    const TomlEntry* entry = find_entry(top, name);
    if (entry == nullptr) {
        return std::nullopt;
    }
    const auto* table = entry->node.as<TomlTable>();
    if (table == nullptr) {
        faults.add(entry->node.place, fmt::format("{0} must be a table: [{0}]", name));
        return std::nullopt;
    }
    return TableReader(*table, entry->key_place, fmt::format("[{}]", name), keys, faults);
}

std::vector<KeyRow> assumption_keys() {
    std::vector<KeyRow> keys;
    for (const AssumptionRow& row : assumption_rows()) {
        KeyKind kind = KeyKind::number;
        if (std::holds_alternative<bool Assumptions::*>(row.member)) {
            kind = KeyKind::yes_no;
        } else if (std::holds_alternative<int Assumptions::*>(row.member)) {
            kind = KeyKind::whole;
        }
        keys.push_back({row.key, kind, false, row.low, row.high, nullptr, {}, row.what});
    }
    return keys;
}

}  // namespace farwater::io
