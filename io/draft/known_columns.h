// Names that data give to our fields, and the words by which files and layers are told apart.
#pragma once

#include <span>
#include <string_view>
#include <vector>

namespace farwater::io {

// Further names of a field, beside its own. All are plain names (io/records/column_names.h), parted
// by blanks, the better ones first. Where the unit is no part of the name it is that of the field,
// `unit` says otherwise.
struct KnownColumn {
    std::string_view section;
    std::string_view field;
    std::string_view names;
    std::string_view unit = {};
    // What a column of this name holds is likely this field, but not sure: its unit or its meaning
    // may be another, and a mistake would help.
    bool only_likely = false;
};

// What else tells a section.
struct SectionSigns {
    std::string_view section;
    std::string_view columns;     // plain names of columns that no field takes
    std::string_view called;      // parts of the name of a file or layer
    std::string_view not_called;  // parts that speak against it
};

std::span<const KnownColumn> known_columns();
const SectionSigns* find_signs(std::string_view section);  // null: it is told by its columns alone

// The words of such a list.
std::vector<std::string_view> words_in(std::string_view list);

}  // namespace farwater::io
