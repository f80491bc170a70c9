// One input layer, opened, with its columns bound to the fields of its section.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "io/district_file.h"
#include "io/records/csv_rows.h"
#include "io/records/dataset.h"
#include "io/settings/schema.h"

namespace farwater::io {

struct RoadSchema;

// Where the values of one field come from.
struct BoundField {
    const FieldRow* field = nullptr;     // null for a column that is no field
    std::string column;                  // theirs; empty = the layer has none
    int index = -1;                      // of the column; -1 = none
    bool is_fid = false;                 // the column is the layer's own record number
    ValueMap values;                     // their value -> our word, as the district file says
    const RoadSchema* schema = nullptr;  // knows further words of theirs; null = none
    std::string unit;                    // of their column; empty where the field has none
    std::string_view ours;               // the unit of the field; empty where it has none
    double factor = 1.0;                 // from that unit to the field's

    // Some value of theirs may have a word of ours.
    bool has_words() const { return !values.empty() || schema != nullptr; }
};

// Finds a field by its name: every record asks for each of its fields, some several times.
class FieldPlaces {
public:
    FieldPlaces() = default;
    // Precondition: fewer than 128 fields, names all different. They must outlive the places.
    explicit FieldPlaces(std::span<const FieldRow> fields);
    std::size_t of(std::string_view name) const;  // precondition: there is one

private:
    static std::size_t slot_of(std::string_view name);
    std::span<const FieldRow> fields_;
    std::array<std::uint8_t, 256> place_plus_one_{};  // 0 = free
};

struct LayerSource {
    LayerSpec spec;
    const SectionRow* section = nullptr;
    OpenLayer open;
    std::vector<BoundField> fields;  // one per field of the section, in its order
    std::vector<BoundField> also;    // columns that are no field, in the order asked for
    FieldPlaces places;              // of `fields`
    std::optional<CsvRows> csv;      // of a CSV file

    bool has(std::string_view field) const;  // the layer has a column for it
    // A comma in a number can be a decimal one: the table is parted by semicolons.
    bool commas_doubtful() const { return csv && csv->separator == ';'; }
    // Likewise a point before three figures can part thousands, where no cell of the column shows
    // that it does not. `index` is the column's.
    bool points_doubtful(int index) const;
    bool has_coordinates() const;                           // columns for the fields x and y
    const BoundField& bound(std::string_view field) const;  // precondition: the section has it
};

// Opens the layer and binds its columns: by `columns` of the section, else by its schema, else by a
// column of the field's own name, as io/records/column_names.h finds it. A field whose column the
// section maps elsewhere takes no words and no unit from the schema. The schema's further columns
// follow in `also`, missing ones with index -1. Only bound columns will be fetched. Throws
// InputError: what open_layer throws; a mapped column, one of `also`, the schema's column of the
// class, or the column of a required field missing (names the columns that exist); several columns
// that can be the one; a CSV file whose rows swallow each other; no shapes and no columns of
// coordinates, or no CRS, where shapes are needed.
LayerSource open_source(const LayerSpec& spec, const SectionRow& section,
                        const std::vector<std::string>& also = {});

std::string layer_name(const LayerSource& source);

// The box round the layer's shapes, in its own coordinates; of the records under `where` only. O(1)
// for most formats without a filter, else O(records). Throws InputError when no record has a shape.
CrsExtent extent_of(const LayerSource& source);

// The sentence "SECTION (FILE): what." as an InputError.
[[noreturn]] void fail_input(const LayerSpec& spec, const std::string& what);

}  // namespace farwater::io
