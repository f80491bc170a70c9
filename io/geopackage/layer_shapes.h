// What a GeoPackage's own tables say of a layer's shapes: their type, their extent, the extensions
// that they need. GDAL writes that for rows that it inserts itself; for ours we do, in its words.
#pragma once

#include <cstdint>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "io/geopackage/geopackage_blob.h"
#include "io/geopackage/spatial_index.h"
#include "io/geopackage/sqlite_file.h"

class OGRGeometry;

namespace farwater::io {

// A geometry type is GDAL's OGRwkbGeometryType.
class LayerShapes {
public:
    // `box`: of the shape, none when it is empty. O(1) but for collections.
    void note(std::int64_t fid, const OGRGeometry& shape, const std::optional<ShapeBox>& box);

    // The same for a shape of one of the six simple types, which are no collections.
    void note(std::int64_t fid, int type, const std::optional<ShapeBox>& box);

    // The type that all shapes have, heights and measures included; the general one where they
    // differ; `otherwise` where there are none.
    int common_type(int otherwise) const;

    const std::vector<IndexBox>& boxes() const { return boxes_; }  // of the shapes not empty

    // Writes extent, extensions and, where the shapes have heights or measures that `type` does not
    // speak of, that there are some. Throws OutputError.
    void describe(SqliteFile& file, const std::string& table, int type) const;

private:
    void note_extension(const OGRGeometry& shape);

    int last_type_ = -1;
    std::set<int> types_;
    std::vector<int> extensions_;  // in the order of their first appearance
    std::optional<ShapeBox> extent_;
    std::vector<IndexBox> boxes_;
};

// Makes `type` the declared one of a layer that GDAL declared as the general one, and that has rows
// by now: its column `geom`, its row of gpkg_geometry_columns. Throws OutputError. Inside a
// transaction that changes the schema afterwards, or other connections will not see it.
//
// Source: the rewriting of sqlite_schema is the way of "ALTER TABLE" (sqlite.org), chapter 7, for
// changes that do not touch what is stored.
void declare_shape_type(SqliteFile& file, const std::string& table, int type);

}  // namespace farwater::io
