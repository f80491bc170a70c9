#include "io/geopackage/layer_shapes.h"

#include <algorithm>

#include <ogr_geometry.h>

#include "io/error.h"

namespace farwater::io {

namespace {

OGRwkbGeometryType gdal_type(int type) { return static_cast<OGRwkbGeometryType>(type); }

ShapeBox cover(const ShapeBox& a, const ShapeBox& b) {
    return {std::min(a.min_x, b.min_x), std::max(a.max_x, b.max_x), std::min(a.min_y, b.min_y),
            std::max(a.max_y, b.max_y)};
}

// "POLYGON", whether it has heights or not.
std::string name_of_type(int type) { return OGRToOGCGeomType(gdal_type(type)); }

// As gpkg_geometry_columns counts heights and measures: 1 all shapes have them, 2 some, 0 none.
std::int64_t how_many_have(int (*has)(OGRwkbGeometryType), int declared,
                           const std::set<int>& types) {
    if (has(gdal_type(declared)) != 0) {
        return 1;
    }
    return std::ranges::any_of(types, [has](int type) { return has(gdal_type(type)) != 0; }) ? 2
                                                                                             : 0;
}

void write_extent(SqliteFile& file, const std::string& table, const ShapeBox& extent) {
    file.prepare(
            "UPDATE gpkg_contents SET min_x = ?, min_y = ?, max_x = ?, max_y = ? "
            "WHERE table_name = ?")
        .bind(1, extent.min_x)
        .bind(2, extent.min_y)
        .bind(3, extent.max_x)
        .bind(4, extent.max_y)
        .bind(5, table)
        .run();
}

void register_extension(SqliteFile& file, const std::string& table, int type) {
    const std::string name = "gpkg_geom_" + name_of_type(type);
    file.prepare(
            "INSERT OR IGNORE INTO gpkg_extensions VALUES(?, 'geom', ?, "
            "'http://www.geopackage.org/spec120/#extension_geometry_types', 'read-write')")
        .bind(1, table)
        .bind(2, name)
        .run();
}

}  // namespace

void LayerShapes::note(std::int64_t fid, const OGRGeometry& shape,
                       const std::optional<ShapeBox>& box) {
    const int type = shape.getGeometryType();
    note(fid, type, box);
    if (wkbFlatten(gdal_type(type)) >= wkbGeometryCollection) {
        note_extension(shape);
    }
}

void LayerShapes::note(std::int64_t fid, int type, const std::optional<ShapeBox>& box) {
    if (type != last_type_) {
        types_.insert(type);
        last_type_ = type;
    }
    if (box) {
        extent_ = extent_ ? cover(*extent_, *box) : *box;
        boxes_.push_back(index_box(fid, box->min_x, box->max_x, box->min_y, box->max_y));
    }
}

// Shapes beyond the seven simple ones are an extension each, also inside a collection.
void LayerShapes::note_extension(const OGRGeometry& shape) {
    const OGRwkbGeometryType type = wkbFlatten(shape.getGeometryType());
    if (type > wkbGeometryCollection && std::ranges::find(extensions_, type) == extensions_.end()) {
        extensions_.push_back(type);
    }
    if (const auto* collection = dynamic_cast<const OGRGeometryCollection*>(&shape)) {
        for (const OGRGeometry* part : *collection) {
            note_extension(*part);
        }
    }
}

int LayerShapes::common_type(int otherwise) const {
    if (types_.empty()) {
        return otherwise;
    }
    return types_.size() == 1 ? *types_.begin() : static_cast<int>(wkbUnknown);
}

void LayerShapes::describe(SqliteFile& file, const std::string& table, int type) const {
    if (extent_) {
        write_extent(file, table, *extent_);
    }
    for (const int extension : extensions_) {
        register_extension(file, table, extension);
    }
    if (wkbFlatten(gdal_type(type)) > wkbGeometryCollection) {
        register_extension(file, table, type);
    }
    file.prepare("UPDATE gpkg_geometry_columns SET z = ?, m = ? WHERE table_name = ?")
        .bind(1, how_many_have(OGR_GT_HasZ, type, types_))
        .bind(2, how_many_have(OGR_GT_HasM, type, types_))
        .bind(3, table)
        .run();
}

void declare_shape_type(SqliteFile& file, const std::string& table, int type) {
    const std::string before = "\"geom\" GEOMETRY";
    const std::string after = "\"geom\" " + name_of_type(type);
    const std::string where =
        " FROM sqlite_master WHERE type = 'table' AND name = " + sql_text(table);
    std::string schema = file.text("SELECT sql" + where);
    const std::size_t column = schema.find(before);
    if (column == std::string::npos) {
        throw OutputError("The layer " + table + " has not the schema that GDAL should give it.");
    }
    schema.replace(column, before.size(), after);
    file.run("PRAGMA writable_schema = ON");
    file.prepare("UPDATE sqlite_master SET sql = ? WHERE type = 'table' AND name = ?")
        .bind(1, schema)
        .bind(2, table)
        .run();
    file.run("PRAGMA writable_schema = RESET");
    file.run("UPDATE gpkg_geometry_columns SET geometry_type_name = " +
             sql_text(name_of_type(type)) + " WHERE table_name = " + sql_text(table));
}

}  // namespace farwater::io
