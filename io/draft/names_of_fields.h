// By which names a column can be a field, and how near its own name comes to one.
#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <string_view>

#include "io/draft/known_columns.h"
#include "io/draft/name_words.h"
#include "io/settings/schema.h"

namespace farwater::io {

// A name of a field: its own, or a known one (io/draft/known_columns.h).
struct FieldName {
    const FieldRow* field = nullptr;
    std::string_view plain;  // the name as a plain one
    NameWords words;
    Doubt doubt = Doubt::none;
    bool own = false;
};

// A column's name, looked at once.
struct ColumnName {
    std::string plain;
    NameWords words;
    NameWords without_thing;  // without what only says what the table is of
};

// From the nearest on.
enum class Nearness : std::uint8_t {
    plain,          // the same but for letters' case and signs
    words,          // the same words, whatever their order and abbreviation
    without_thing,  // likewise, but for "road" in a table of roads
};

// Those of the section: its own fields' first, then the known ones in the order of their table.
// O(1) after the first call.
std::span<const FieldName> names_of_section(const SectionRow& section);

ColumnName column_name_of(std::string_view name, const SectionRow& section);

// Whether the column is called so. A name with a unit means columns that say one; a unit that
// measures something else is another thing.
bool is_called(const ColumnName& column, const FieldName& name, Nearness nearness);

// The unit of the column where it is not the field's own; empty: it is, or nobody says.
std::string_view unit_beside_own(const FieldRow& field, const ColumnName& column);

}  // namespace farwater::io
