// What may stand in a district file: its tables with their keys, and the fields of every input
// section. One set of tables drives the checking of the file, the reading of the data and the
// reference page, so that the three cannot differ.
#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace farwater::io {

using WordList = std::span<const std::string_view> (*)();

// --- fields of the input sections ---------------------------------------------------------------

enum class FieldKind : std::uint8_t {
    text,
    number,
    whole,  // a number without fraction
    yes_no,
    word,  // one of a closed list
    date,
    months,
    usable,  // a number or the word "unlimited"
};

struct FieldRow {
    std::string_view name;  // ends in its unit where it has one
    FieldKind kind;
    bool required;          // the layer must have a column for it
    double low, high;       // allowed range of numbers, in the field's unit
    WordList words;         // null unless kind is word
    std::string_view what;  // one clause
};

enum class ShapeNeed : std::uint8_t {
    none,  // a table; shapes are not looked at
    line,
    area,   // polygons
    place,  // points; of a polygon its inside point
};

struct SectionRow {
    std::string_view name;
    bool required;  // the district file must have it, and its layer at least one record
    ShapeNeed shape;
    std::span<const FieldRow> fields;
    std::string_view what;
};

std::span<const SectionRow> section_rows();
const SectionRow* find_section(std::string_view name);  // null when there is none
const FieldRow* find_field(const SectionRow& section, std::string_view name);

// --- keys of the tables of the file ---

enum class KeyKind : std::uint8_t {
    text,
    crs,  // a text that PROJ knows as a coordinate system
    number,
    whole,
    yes_no,
    date,
    months,      // a text
    texts,       // a list of texts
    words,       // a list of words of a closed list
    word,        // a text, one of a closed list
    limit,       // a number or the text "unlimited"
    pairs,       // a table of texts
    pair_tables  // a table of tables of texts
};

struct KeyRow {
    std::string_view name;
    KeyKind kind;
    bool required;
    double low, high;
    WordList words;
    std::string_view standard;  // the default, as a person reads it; empty where there is none
    std::string_view what;
};
constexpr KeyRow required(KeyRow row) {
    row.required = true;
    return row;
}

std::span<const KeyRow> top_keys();
std::span<const KeyRow> layer_keys();
std::span<const KeyRow> road_layer_keys();  // of [roads]: those of every layer and schema
std::span<const KeyRow> elevation_keys();
std::span<const KeyRow> join_keys();
std::span<const KeyRow> season_keys();
std::span<const KeyRow> period_keys();
std::span<const KeyRow> need_keys();
std::span<const KeyRow> rating_keys();
std::span<const KeyRow> next_source_keys();
std::span<const KeyRow> improvement_keys();

// Every table that may stand at the top: the sections, elevation, join, season, period, need,
// rating, next_source, improvement, assumptions.
std::vector<std::string_view> top_tables();

}  // namespace farwater::io
