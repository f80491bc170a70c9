// Names that data give to our fields, and the words by which files and layers are told apart.
#pragma once

#include <cstdint>
#include <span>
#include <string_view>
#include <vector>

namespace farwater::io {

// Why a column of a name is only likely the field: a mistake would help.
enum class Doubt : std::uint8_t {
    none,
    unit,     // unless the column says its unit
    meaning,  // also then
};

// Further names of a field, beside its own. All are plain names (io/records/column_names.h), parted
// by blanks, the better ones first. A name stands for all that have the same words
// (io/draft/name_words.h); one that ends in a unit for those that say one.
struct KnownColumn {
    std::string_view section;
    std::string_view field;
    std::string_view names;
    Doubt doubt = Doubt::none;
};

// What else tells a section.
struct SectionSigns {
    std::string_view section;
    std::string_view columns;     // plain names of columns that no field takes
    std::string_view called;      // parts of the name of a file or layer
    std::string_view not_called;  // parts that speak against it
};

std::span<const KnownColumn> known_columns();
// Words that only say what the table is of, as in "RoadSurface" or "Unit Crew"; empty: none.
std::string_view words_of_thing(std::string_view section);
const SectionSigns* find_signs(std::string_view section);  // null: it is told by its columns alone

// The words of such a list.
std::vector<std::string_view> words_in(std::string_view list);

}  // namespace farwater::io
