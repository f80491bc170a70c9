// Open standards whose road layers can be read by naming the standard: which of their columns is
// which field of ours, what their words mean, and which of their lines are no road for apparatus.
// `schema = "osm"` in [roads]; what the district file maps itself goes first, field by field.
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "io/district_file.h"

namespace farwater::io {

struct PresetColumn {
    std::string_view field;
    std::string_view column;  // theirs; not required but for class
    std::string_view unit;    // of theirs; empty = that of the field's name, or none
};

struct PresetWord {
    std::string_view theirs;  // lower case
    std::string_view ours;
};

struct PresetValues {
    std::string_view field;
    std::span<const PresetWord> words;
};

struct RoadSchema {
    std::string_view name;    // as the district file writes it
    std::string_view what;    // one clause
    std::string_view source;  // document and section
    std::string_view where;   // filter that the section has unless it names its own
    std::span<const PresetColumn> columns;
    std::span<const PresetValues> values;
    std::span<const std::string_view> left_out;  // of the class column; * ends what begins so
    std::span<const std::string_view> further;   // columns that are no field; may be missing
};

std::span<const RoadSchema> road_schemas();
std::span<const std::string_view> road_schema_names();
const RoadSchema* find_road_schema(std::string_view name);  // null when there is none

const PresetColumn* preset_column(const RoadSchema& schema, std::string_view field);
// Our word for theirs in any case; empty when the schema has none.
std::string_view preset_word(const RoadSchema& schema, std::string_view field,
                             std::string_view theirs);
// Whether a line of this class, in any case, is no road for apparatus; a blank one may be a road.
bool is_left_out(const RoadSchema& schema, std::string_view their_class);

// The section with what its schema presets for the whole layer: filter and, for OpenStreetMap
// files, GDAL's layer and configuration. Nothing that the section says itself is changed.
LayerSpec with_schema(LayerSpec spec);

}  // namespace farwater::io
