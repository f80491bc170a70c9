#include "io/geopackage/geopackage_layer.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <optional>

#include <gdal_priv.h>
#include <ogrsf_frmts.h>

#include "io/error.h"
#include "io/geopackage/layer_shapes.h"
#include "io/records/dataset.h"

namespace farwater::io {

namespace {

OGRFieldType type_of(ColumnType type) {
    switch (type) {
        case ColumnType::integer:
            return OFTInteger64;
        case ColumnType::real:
            return OFTReal;
        case ColumnType::yes_no:
            return OFTInteger;
        case ColumnType::text:
            break;
    }
    return OFTString;
}

struct AddValue {
    SqliteRows& cells;

    void operator()(std::monostate) const { cells.add_null(); }
    void operator()(std::int64_t number) const { cells.add(number); }
    void operator()(bool yes) const { cells.add(std::int64_t{yes ? 1 : 0}); }
    void operator()(double number) const {
        assert(std::isfinite(number));
        std::isfinite(number) ? cells.add(number) : cells.add_null();
    }
    // Readers take a zero for the end of a text.
    void operator()(std::string_view text) const { cells.add(text.substr(0, text.find('\0'))); }
};

std::string unique_title(std::vector<std::string>& titles, const FeatureTable& table) {
    std::string title = table.title.empty() ? table.name : table.title;
    if (std::ranges::find(titles, title) != titles.end()) {
        title += " (" + table.name + ")";
    }
    titles.push_back(title);
    return title;
}

}  // namespace

struct GeoPackageLayer::Open {
    GdalMessages messages;
    OGRLayer* layer = nullptr;
    std::vector<std::string> triggers;  // to be made again after the last row
    std::optional<GeoPackageBlobWriter> blob;
    std::optional<SqliteRows> rows;
    LayerShapes shapes;
};

GeoPackageLayer::GeoPackageLayer(GeoPackageInMaking& file, const FeatureTable& table,
                                 int geometry_type)
    : file_(file), geometry_type_(geometry_type), open_(std::make_unique<Open>()) {
    written_.name = table.name;
    written_.has_geometry = geometry_type != static_cast<int>(wkbNone);

    CPLStringList options;
    options.SetNameValue("FID", "fid");
    options.SetNameValue("GEOMETRY_NAME", "geom");
    options.SetNameValue("IDENTIFIER", unique_title(file.titles, table).c_str());
    options.SetNameValue("DESCRIPTION", table.description.c_str());
    const std::unique_ptr<OGRSpatialReference> crs(
        written_.has_geometry && file.crs ? file.crs->Clone() : nullptr);
    open_->layer =
        file.dataset->CreateLayer(table.name.c_str(), crs.get(),
                                  static_cast<OGRwkbGeometryType>(geometry_type), options.List());
    if (open_->layer == nullptr) {
        fail("cannot be made");
    }
}

GeoPackageLayer::~GeoPackageLayer() = default;

void GeoPackageLayer::add_column(OGRFieldDefn& column, std::string_view description) {
    if (open_->layer->CreateField(&column) != OGRERR_NONE) {
        fail("cannot take the column " + std::string(column.GetNameRef()));
    }
    written_.columns.push_back({column.GetNameRef(), std::string(description)});
}

void GeoPackageLayer::add_result_columns(const std::vector<Column>& columns) {
    for (const Column& column : columns) {
        OGRFieldDefn definition(column.name.c_str(), type_of(column.type));
        definition.SetSubType(column.type == ColumnType::yes_no ? OFSTBoolean : OFSTNone);
        add_column(definition, column.description);
    }
}

// What GDAL does for each row by a trigger, we do once for all.
void GeoPackageLayer::hold_triggers() {
    SqliteStatement triggers = file_.sqlite->prepare(
        "SELECT name, sql FROM sqlite_master WHERE type = 'trigger' AND tbl_name = " +
        sql_text(written_.name) + " ORDER BY rowid");
    std::vector<std::string> names;
    while (triggers.step()) {
        names.push_back(triggers.text(0));
        open_->triggers.push_back(triggers.text(1));
    }
    for (const std::string& name : names) {
        file_.sqlite->run("DROP TRIGGER " + sql_name(name));
    }
}

void GeoPackageLayer::begin() {
    if (open_->layer->SyncToDisk() != OGRERR_NONE || open_->messages.failed()) {
        fail("cannot be made");
    }
    SqliteFile& sqlite = *file_.sqlite;
    const std::int64_t srs_id = sqlite.integer(
        "SELECT srs_id FROM gpkg_geometry_columns WHERE table_name = " + sql_text(written_.name));
    sqlite.run("BEGIN IMMEDIATE");
    hold_triggers();
    open_->blob.emplace(static_cast<std::int32_t>(srs_id));
    open_->rows.emplace(sqlite, written_.name,
                        written_.columns.size() + (written_.has_geometry ? 2 : 1));
}

SqliteRows& GeoPackageLayer::cells() { return *open_->rows; }

void GeoPackageLayer::start_row(const OGRGeometry* shape) {
    const auto fid = static_cast<std::int64_t>(++written_.rows);
    open_->rows->add(fid);
    if (!written_.has_geometry) {
        return;
    }
    if (shape == nullptr) {
        open_->rows->add_null();
        return;
    }
    const ShapeBlob blob = (*open_->blob)(*shape);
    open_->rows->add(blob.bytes);
    open_->shapes.note(fid, *shape, blob.box);
}

bool GeoPackageLayer::start_row(std::span<const unsigned char> shape,
                                std::vector<Polyline>* rings) {
    const std::optional<CopiedShape> copied =
        written_.has_geometry ? open_->blob->copy(shape, rings) : std::nullopt;
    if (!copied) {
        return false;
    }
    const auto fid = static_cast<std::int64_t>(++written_.rows);
    open_->rows->add(fid);
    open_->rows->add(copied->blob.bytes);
    open_->shapes.note(fid, copied->type, copied->blob.box);
    return true;
}

void GeoPackageLayer::add_results(const Row& row) {
    for (const Value& value : row.values) {
        std::visit(AddValue{*open_->rows}, value);
    }
}

// The rows are in the table, the boxes in the index.
void GeoPackageLayer::end_rows() {
    open_->rows->finish();
    open_->rows.reset();
    if (written_.has_geometry) {
        const std::vector<IndexBox>& boxes = open_->shapes.boxes();
        written_.shapes = boxes.size();
        written_.index_right = fill_spatial_index(*file_.sqlite, written_.name, boxes);
    }
}

void GeoPackageLayer::commit() {
    SqliteFile& sqlite = *file_.sqlite;
    sqlite.prepare("UPDATE gpkg_ogr_contents SET feature_count = ? WHERE table_name = ?")
        .bind(1, static_cast<std::int64_t>(written_.rows))
        .bind(2, written_.name)
        .run();
    for (const std::string& trigger : open_->triggers) {
        sqlite.run(trigger);
    }
    sqlite.run("COMMIT");
    file_.tables.push_back(std::move(written_));
}

void GeoPackageLayer::finish() {
    end_rows();
    if (written_.has_geometry) {
        open_->shapes.describe(*file_.sqlite, written_.name, geometry_type_);
    }
    commit();
}

void GeoPackageLayer::finish_with_type_of_rows(int otherwise) {
    assert(!written_.has_geometry || geometry_type_ == static_cast<int>(wkbUnknown));
    end_rows();
    if (written_.has_geometry) {
        const int type = open_->shapes.common_type(otherwise);
        if (type != geometry_type_) {
            declare_shape_type(*file_.sqlite, written_.name, type);
        }
        open_->shapes.describe(*file_.sqlite, written_.name, type);
    }
    commit();
}

void GeoPackageLayer::fail(std::string_view what) const {
    const std::string reason = open_->messages.text();
    throw OutputError(file_.file.string() + ": " + written_.name + " " + std::string(what) +
                      (reason.empty() ? "" : ": " + reason) + ". An older result is untouched.");
}

}  // namespace farwater::io
