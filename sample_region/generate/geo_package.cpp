#include <stdexcept>
#include <utility>

#include <fmt/format.h>
#include <gdal_priv.h>
#include <ogrsf_frmts.h>

#include "sample_region/generate/geo_files.h"

namespace farwater::sample {
namespace {

OGRwkbGeometryType type_of(Shape shape) {
    switch (shape) {
        case Shape::point:
            return wkbPoint;
        case Shape::line:
            return wkbLineString;
        case Shape::polygon:
            return wkbPolygon;
        case Shape::multi_polygon:
            return wkbMultiPolygon;
    }
    return wkbUnknown;
}

OGRFieldType type_of(ColumnKind kind) {
    switch (kind) {
        case ColumnKind::text:
            return OFTString;
        case ColumnKind::whole:
            return OFTInteger;
        case ColumnKind::real:
            return OFTReal;
    }
    return OFTString;
}

std::unique_ptr<OGRLinearRing> closed_ring(const Polyline& ring) {
    auto result = std::make_unique<OGRLinearRing>();
    result->setNumPoints(static_cast<int>(ring.size()) + 1);
    for (std::size_t i = 0; i <= ring.size(); ++i) {
        const Point p = ring[i % ring.size()];
        result->setPoint(static_cast<int>(i), p.x, p.y);
    }
    return result;
}

std::unique_ptr<OGRGeometry> geometry_of(Point p, Shape) {
    return std::make_unique<OGRPoint>(p.x, p.y);
}

std::unique_ptr<OGRGeometry> geometry_of(const Polyline* line, Shape shape) {
    if (shape == Shape::polygon) {
        auto polygon = std::make_unique<OGRPolygon>();
        polygon->addRingDirectly(closed_ring(*line).release());
        return polygon;
    }
    auto result = std::make_unique<OGRLineString>();
    result->setNumPoints(static_cast<int>(line->size()));
    for (std::size_t i = 0; i < line->size(); ++i) {
        result->setPoint(static_cast<int>(i), (*line)[i].x, (*line)[i].y);
    }
    return result;
}

std::unique_ptr<OGRGeometry> geometry_of(const Polygons* parts, Shape) {
    auto result = std::make_unique<OGRMultiPolygon>();
    for (const Polygon& part : *parts) {
        auto polygon = std::make_unique<OGRPolygon>();
        for (const Polyline& ring : part.rings) {
            polygon->addRingDirectly(closed_ring(ring).release());
        }
        result->addGeometryDirectly(polygon.release());
    }
    return result;
}

std::unique_ptr<OGRGeometry> geometry_of(std::monostate, Shape) { return nullptr; }

void set_cell(OGRFeature& feature, int field, const Cell& cell) {
    if (const auto* whole = std::get_if<std::int64_t>(&cell)) {
        feature.SetField(field, static_cast<int>(*whole));
    } else if (const auto* real = std::get_if<double>(&cell)) {
        feature.SetField(field, *real);
    } else if (const auto* text = std::get_if<std::string_view>(&cell)) {
        feature.SetField(field, std::string(*text).c_str());
    } else {
        feature.SetFieldNull(field);
    }
}

}  // namespace

struct GeoPackage::Open {
    struct Layer {
        OGRLayer* layer = nullptr;
        Shape shape = Shape::point;
    };
    std::string path;
    GDALDatasetUniquePtr dataset;
    OGRSpatialReference crs;
    std::vector<Layer> layers;
};

GeoPackage::GeoPackage(const std::filesystem::path& path, int epsg)
    : open_(std::make_unique<Open>()) {
    GDALAllRegister();
    // Stands in the file instead of the time of writing.
    CPLSetConfigOption("OGR_CURRENT_DATE", "2026-05-31T00:00:00.000Z");
    open_->path = path.string();
    std::filesystem::remove(path);
    GDALDriver* driver = GetGDALDriverManager()->GetDriverByName("GPKG");
    open_->dataset.reset(driver->Create(path.c_str(), 0, 0, 0, GDT_Unknown, nullptr));
    if (!open_->dataset || open_->crs.importFromEPSG(epsg) != OGRERR_NONE) {
        throw std::runtime_error(
            fmt::format("{}: cannot be created: {}", path.string(), CPLGetLastErrorMsg()));
    }
    open_->crs.SetAxisMappingStrategy(OAMS_TRADITIONAL_GIS_ORDER);
    open_->dataset->StartTransaction();
}

GeoPackage::~GeoPackage() = default;

int GeoPackage::add_layer(const char* name, Shape shape, std::span<const Column> columns,
                          bool indexed) {
    CPLStringList options;
    options.SetNameValue("SPATIAL_INDEX", indexed ? "YES" : "NO");
    OGRLayer* layer =
        open_->dataset->CreateLayer(name, &open_->crs, type_of(shape), options.List());
    if (layer == nullptr) {
        throw std::runtime_error(fmt::format("{}: layer {} cannot be created", open_->path, name));
    }
    for (const Column& column : columns) {
        OGRFieldDefn field(std::string(column.name).c_str(), type_of(column.kind));
        layer->CreateField(&field);
    }
    open_->layers.push_back({layer, shape});
    return static_cast<int>(open_->layers.size()) - 1;
}

void GeoPackage::write(int layer, std::span<const Cell> cells, const Geometry& geometry) {
    const Open::Layer& into = open_->layers.at(static_cast<std::size_t>(layer));
    OGRFeature feature(into.layer->GetLayerDefn());
    for (std::size_t i = 0; i < cells.size(); ++i) {
        set_cell(feature, static_cast<int>(i), cells[i]);
    }
    auto shape =
        std::visit([&](const auto& value) { return geometry_of(value, into.shape); }, geometry);
    if (shape) {
        feature.SetGeometryDirectly(shape.release());
    }
    if (into.layer->CreateFeature(&feature) != OGRERR_NONE) {
        throw std::runtime_error(fmt::format("{}: {}", open_->path, CPLGetLastErrorMsg()));
    }
}

void GeoPackage::close() {
    CPLErrorReset();
    open_->dataset->CommitTransaction();
    open_->dataset.reset();
    CPLSetConfigOption("OGR_CURRENT_DATE", nullptr);
    if (CPLGetLastErrorType() == CE_Failure) {
        throw std::runtime_error(fmt::format("{}: {}", open_->path, CPLGetLastErrorMsg()));
    }
}

}  // namespace farwater::sample
