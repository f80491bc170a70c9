// The columns of an input that go through to a result layer: their names, types and values.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "io/feature_table.h"
#include "io/geopackage_layer.h"

class OGRFeature;
class OGRFeatureDefn;

namespace farwater::io {

// How a column's values get into the result.
enum class Carry : std::uint8_t { as_it_is, real, as_text };

std::vector<std::string> names_of(const OGRFeatureDefn& columns);

// Gives the layer the input's columns, under the names of carried_names. Comes back with one entry
// for each, in their order. Throws OutputError.
std::vector<Carry> add_carried_columns(GeoPackageLayer& layer, const OGRFeatureDefn& columns,
                                       const std::vector<Column>& results);

// Moves the values: each feature owns what the other had until both are used again.
void carry_values(OGRFeature& from, OGRFeature& to, const std::vector<Carry>& carries);

}  // namespace farwater::io
