#include "io/geopackage_layer.h"

#include <algorithm>
#include <cassert>
#include <cmath>

#include <gdal_priv.h>
#include <ogrsf_frmts.h>

#include "io/dataset.h"
#include "io/error.h"

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

struct SetValue {
    OGRFeature& feature;
    int field;
    std::string& buffer;  // GDAL wants text to end in a zero

    void operator()(std::monostate) const { feature.SetFieldNull(field); }
    void operator()(std::int64_t number) const {
        feature.SetField(field, static_cast<GIntBig>(number));
    }
    void operator()(bool yes) const { feature.SetField(field, yes ? 1 : 0); }
    void operator()(double number) const {
        assert(std::isfinite(number));
        if (std::isfinite(number)) {
            feature.SetField(field, number);
        } else {
            feature.SetFieldNull(field);
        }
    }
    void operator()(std::string_view text) const {
        buffer.assign(text);
        feature.SetField(field, buffer.c_str());
    }
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
    OGRFeatureUniquePtr feature;
    std::string buffer;
};

GeoPackageLayer::GeoPackageLayer(GeoPackageInMaking& file, const FeatureTable& table,
                                 int geometry_type, std::size_t rows)
    : file_(file), open_(std::make_unique<Open>()) {
    written_.name = table.name;
    written_.has_geometry = geometry_type != static_cast<int>(wkbNone);
    written_.index_missing = written_.has_geometry && rows > bottom_up_rows;
    written_.boxes.reserve(written_.index_missing ? rows : 0);

    CPLStringList options;
    options.SetNameValue("FID", "fid");
    options.SetNameValue("GEOMETRY_NAME", "geom");
    options.SetNameValue("IDENTIFIER", unique_title(file.titles, table).c_str());
    options.SetNameValue("DESCRIPTION", table.description.c_str());
    options.SetNameValue("SPATIAL_INDEX",
                         written_.has_geometry && !written_.index_missing ? "YES" : "NO");
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
    first_result_ = written_.columns.size();
    for (const Column& column : columns) {
        OGRFieldDefn definition(column.name.c_str(), type_of(column.type));
        definition.SetSubType(column.type == ColumnType::yes_no ? OFSTBoolean : OFSTNone);
        add_column(definition, column.description);
    }
}

void GeoPackageLayer::begin() {
    if (file_.dataset->StartTransaction() != OGRERR_NONE) {
        fail("cannot be written");
    }
    open_->feature.reset(OGRFeature::CreateFeature(open_->layer->GetLayerDefn()));
}

OGRFeature& GeoPackageLayer::feature() { return *open_->feature; }

void GeoPackageLayer::set_results(const Row& row) {
    int field = static_cast<int>(first_result_);
    for (const Value& value : row.values) {
        std::visit(SetValue{*open_->feature, field, open_->buffer}, value);
        ++field;
    }
}

void GeoPackageLayer::set_shape(std::unique_ptr<OGRGeometry> shape) {
    open_->feature->SetGeometryDirectly(shape.release());
}

void GeoPackageLayer::note_shape(const OGRGeometry& shape) {
    ++written_.shapes;
    if (written_.index_missing) {
        OGREnvelope box;
        shape.getEnvelope(&box);
        written_.boxes.push_back(index_box(static_cast<std::int64_t>(written_.rows), box.MinX,
                                           box.MaxX, box.MinY, box.MaxY));
    }
}

void GeoPackageLayer::add_row() {
    ++written_.rows;
    open_->feature->SetFID(static_cast<GIntBig>(written_.rows));
    const OGRGeometry* shape = open_->feature->GetGeometryRef();
    if (shape != nullptr && shape->IsEmpty() == 0) {
        note_shape(*shape);
    }
    if (open_->layer->CreateFeature(open_->feature.get()) != OGRERR_NONE) {
        fail("cannot take row " + std::to_string(written_.rows));
    }
}

void GeoPackageLayer::finish() {
    open_->feature.reset();
    if (file_.dataset->CommitTransaction() != OGRERR_NONE) {
        fail("cannot be written to the end");
    }
    file_.tables.push_back(std::move(written_));
}

void GeoPackageLayer::fail(std::string_view what) const {
    const std::string reason = open_->messages.text();
    throw OutputError(file_.file.string() + ": " + written_.name + " " + std::string(what) +
                      (reason.empty() ? "" : ": " + reason) + ". An older result is untouched.");
}

}  // namespace farwater::io
