#include "io/settings/field_tables.h"

#include <algorithm>
#include <vector>

#include <fmt/format.h>

#include "io/near_word.h"
#include "io/records/parse_cell.h"
#include "io/records/unit_words.h"
#include "io/settings/toml_value.h"

namespace farwater::io {
namespace {

// What is wrong with one of our words for a field of this kind; empty when nothing is. "" stands
// for not known in every kind.
std::string wrong_word_for(const FieldRow& field, const std::string& word) {
    if (word.empty()) {
        return {};
    }
    switch (field.kind) {
        case FieldKind::word: {
            const auto list = field.words();
            if (std::find(list.begin(), list.end(), word) != list.end()) {
                return {};
            }
            return fmt::format("must be {}, not \"{}\"{}", one_of(list), word,
                               did_you_mean(word, list));
        }
        case FieldKind::yes_no:
            return parse_yes_no(word) ? "" : "must be yes or no";
        case FieldKind::number:
        case FieldKind::whole:
            return parse_number(word) ? "" : "must be a number";
        case FieldKind::usable:
            return word == "unlimited" || parse_number(word) ? "" : "must be a number or unlimited";
        case FieldKind::date:
            return parse_year_first_date(word) ? "" : "must be a date such as 2026-05-31";
        case FieldKind::months:
            return parse_months(word) ? "" : "must be months such as 4-11";
        case FieldKind::text:
            return {};
    }
    return {};
}

std::vector<std::string_view> field_names(const SectionRow& section) {
    std::vector<std::string_view> names;
    for (const FieldRow& field : section.fields) {
        names.push_back(field.name);
    }
    return names;
}

}  // namespace

std::map<std::string, std::string, std::less<>> FieldTables::columns(const TomlTable& table) const {
    std::map<std::string, std::string, std::less<>> columns;
    for (const TomlEntry& entry : table) {
        const auto* column = entry.node.as<std::string>();
        if (field_of(entry, "columns") == nullptr) {
            continue;
        }
        if (column == nullptr || is_blank(std::string_view(*column))) {
            add(entry.node.place, "columns." + entry.key, "must be the name of a column");
            continue;
        }
        columns[entry.key] = *column;
    }
    return columns;
}

std::map<std::string, std::string, std::less<>> FieldTables::units(const TomlTable& table) const {
    std::map<std::string, std::string, std::less<>> units;
    for (const TomlEntry& entry : table) {
        const FieldRow* field = field_of(entry, "units");
        if (field == nullptr) {
            continue;
        }
        const std::string_view ours = unit_of_name(field->name);
        const std::string theirs = spelled(entry.node).value_or("");
        if (ours.empty()) {
            add(entry.key_place, "units." + entry.key, "cannot be: the field has no unit");
        } else if (!unit_factor(theirs, ours)) {
            add(entry.node.place, "units." + entry.key,
                fmt::format("must be {}", one_of(units_like(ours))));
        } else {
            units[entry.key] = theirs;
        }
    }
    return units;
}

std::map<std::string, ValueMap, std::less<>> FieldTables::values(const TomlTable& table) const {
    std::map<std::string, ValueMap, std::less<>> values;
    for (const TomlEntry& entry : table) {
        const FieldRow* field = field_of(entry, "values");
        const auto* pairs = entry.node.as<TomlTable>();
        if (field != nullptr && pairs == nullptr) {
            add(entry.node.place, "values." + entry.key, "must be a table: their value = our word");
        } else if (field != nullptr) {
            values[entry.key] = value_map(*field, *pairs);
        }
    }
    return values;
}

ValueMap FieldTables::value_map(const FieldRow& field, const TomlTable& pairs) const {
    ValueMap map;
    for (const TomlEntry& pair : pairs) {
        const std::optional<std::string> word = spelled(pair.node);
        const std::string wrong = word ? wrong_word_for(field, *word) : "must be a text";
        if (!wrong.empty()) {
            add(pair.node.place, fmt::format("values.{}.{}", field.name, pair.key), wrong);
            continue;
        }
        map[pair.key] = *word;
    }
    return map;
}

const FieldRow* FieldTables::field_of(const TomlEntry& entry, std::string_view table) const {
    const FieldRow* field = find_field(*section_, entry.key);
    if (field == nullptr) {
        const std::vector<std::string_view> names = field_names(*section_);
        std::string advice = did_you_mean(entry.key, names);
        advice = advice.empty() ? "; its fields are " + one_of(names) : advice;
        faults_->add(entry.key_place, fmt::format("{} has no field \"{}\" for its {} table{}",
                                                  title_, entry.key, table, advice));
    }
    return field;
}

void FieldTables::add(TomlPlace place, const std::string& key, const std::string& what) const {
    faults_->add(place, fmt::format("{} {} {}", title_, key, what));
}

}  // namespace farwater::io
