// Which columns of a layer are fields of ours, were it an input of some section.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "io/draft/layer_look.h"
#include "io/settings/schema.h"

namespace farwater::io {

struct RoadSchema;

// Why a column is taken for a field.
enum class MatchBy : std::uint8_t {
    own_name,  // the reading finds it by itself
    schema,    // the schema of the layer presets it
    known_name,
};

struct ColumnMatch {
    const FieldRow* field = nullptr;
    const ColumnLook* column = nullptr;  // of the look
    MatchBy by = MatchBy::own_name;
    std::string_view unit;      // of their column; empty = that of the field
    bool unit_by_size = false;  // nobody says the unit, but the numbers can be in no other
    bool told_apart = true;     // false: other columns are called the same, so it must be named
    bool weak_id = false;       // an id that only counts the records, for there is no better one
    std::vector<std::string> foreign_words;  // values looked at that are no words of ours
    std::vector<std::string> rivals;         // columns that are called so too, and are not taken
};

struct SectionMatch {
    const SectionRow* section = nullptr;
    const RoadSchema* schema = nullptr;
    std::vector<ColumnMatch> sure;       // at most one for each field, in the section's order
    std::vector<ColumnMatch> likely;     // of fields that no sure one is for
    std::vector<const FieldRow*> lacks;  // required fields without a sure column
    bool no_roads =
        false;  // most lines of the sample are none by the schema: paths, rails, streams
};

// Fields of the section's own names first, then those of the layer's road schema, then known names,
// the nearest first (io/draft/names_of_fields.h), of equally near ones a column with something in
// it. An id must be there and differ in all records of the sample, a number must be one, and words
// must mostly be ours but for classes and kinds, which `values` can map: else it is no match, or a
// likely one. Of several columns for one field the others are its rivals. `look` must outlive what
// comes back. O(names x columns).
SectionMatch match_columns(const LayerLook& look, const SectionRow& section);

const ColumnMatch* find_match(const std::vector<ColumnMatch>& matches, std::string_view field);

// The columns of coordinates of a table without shapes are there and hold degrees, or no rows yet.
bool has_degrees(const SectionMatch& match);

}  // namespace farwater::io
