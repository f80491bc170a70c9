#include "io/draft/names_of_fields.h"

#include <algorithm>
#include <map>
#include <vector>

#include "io/records/column_names.h"
#include "io/records/unit_words.h"

namespace farwater::io {
namespace {

std::vector<FieldName> field_names_of(const SectionRow& section) {
    std::vector<FieldName> names;
    for (const FieldRow& field : section.fields) {
        names.push_back({&field, field.name, words_of_name(field.name), Doubt::none, true});
    }
    for (const KnownColumn& known : known_columns()) {
        const FieldRow* field =
            known.section == section.name ? find_field(section, known.field) : nullptr;
        for (const std::string_view name : words_in(field == nullptr ? "" : known.names)) {
            names.push_back({field, name, words_of_name(name), known.doubt, false});
        }
    }
    return names;
}

// Inches of a length in feet are a bore or a hose's size, unless somebody measured how wide or high
// a thing is.
bool is_of_size(std::string_view unit, const FieldRow& field) {
    const bool small = unit == "in" || unit == "cm" || unit == "mm";
    return !small || unit_of_name(field.name) != "ft" || field.name == "width_ft" ||
           field.name == "height_ft" || field.name == "ice_ft";
}

bool measures_the_same(std::string_view unit, const FieldRow& field) {
    return unit.empty() ||
           (unit_factor(unit, unit_of_name(field.name)).has_value() && is_of_size(unit, field));
}

bool has_same_words(const NameWords& column, const FieldName& name) {
    const NameWords& known = name.words;
    // The own name's unit is that of the field, which a column may leave out: then it is not sure.
    const bool unit_told = known.unit.empty() || !column.unit.empty() || name.own;
    const bool fits = column.words.empty() ? column.unit == known.unit : unit_told;
    return column.words == known.words && fits;
}

}  // namespace

std::span<const FieldName> names_of_section(const SectionRow& section) {
    static const std::map<std::string_view, std::vector<FieldName>> all = [] {
        std::map<std::string_view, std::vector<FieldName>> lists;
        for (const SectionRow& one : section_rows()) {
            lists.emplace(one.name, field_names_of(one));
        }
        return lists;
    }();
    return all.at(section.name);
}

ColumnName column_name_of(std::string_view name, const SectionRow& section) {
    ColumnName column{plain_column_name(name), words_of_name(name), {}};
    column.without_thing = column.words;
    for (const std::string_view thing : words_in(words_of_thing(section.name))) {
        std::erase(column.without_thing.words, thing);
    }
    return column;
}

bool is_called(const ColumnName& column, const FieldName& name, Nearness nearness) {
    const bool has_unit = !unit_of_name(name.field->name).empty();
    const std::string_view unit = column.words.unit;
    if (has_unit ? !measures_the_same(unit, *name.field)
                 : nearness != Nearness::plain && !unit.empty() && unit != name.words.unit) {
        return false;
    }
    switch (nearness) {
        case Nearness::plain:
            return column.plain == name.plain;
        case Nearness::words:
            return has_same_words(column.words, name);
        case Nearness::without_thing:
            return !column.without_thing.words.empty() &&
                   has_same_words(column.without_thing, name);
    }
    return false;
}

std::string_view unit_beside_own(const FieldRow& field, const ColumnName& column) {
    const std::string_view unit = column.words.unit;
    const bool other = !unit.empty() && unit != unit_of_name(field.name);
    return other && measures_the_same(unit, field) ? unit : std::string_view{};
}

}  // namespace farwater::io
