// Whether what stands in a column can be read as a field.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "io/draft/layer_look.h"
#include "io/settings/schema.h"

namespace farwater::io {

struct RoadSchema;

// At least half of the different values of the sample can be read as this field, numbers in `unit`
// (empty = the field's own); also where there is no value.
bool mostly_reads(const FieldRow& field, std::string_view unit, const ColumnLook& column);

// A field whose values are words that `values` can map: of a list, or months.
bool takes_words(const FieldRow& field);

// The values that are no words of the field, nor of the schema where there is one.
std::vector<std::string> foreign_words_of(const FieldRow& field, const RoadSchema* schema,
                                          const ColumnLook& column);

}  // namespace farwater::io
