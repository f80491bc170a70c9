// The columns of an input that go through to a result layer: their names, types and values.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "io/feature_table.h"
#include "io/geopackage/geopackage_layer.h"
#include "io/geopackage/sqlite_rows.h"

class OGRFeature;
class OGRFeatureDefn;

namespace farwater::io {

// How a column's values get into the result.
enum class Carry : std::uint8_t { integer, integer64, real, text, bytes, date, time, as_text };

std::vector<std::string> names_of(const OGRFeatureDefn& columns);

// Gives the layer the input's columns, under the names of carried_names. Comes back with one entry
// for each, in their order. Throws OutputError.
std::vector<Carry> add_carried_columns(GeoPackageLayer& layer, const OGRFeatureDefn& columns,
                                       const std::vector<Column>& results);

// Adds a cell for each column, in the form that GDAL gives it in a GeoPackage.
void add_carried_cells(OGRFeature& from, const std::vector<Carry>& carries, SqliteRows& cells);

}  // namespace farwater::io
