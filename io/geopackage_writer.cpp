#include "io/geopackage_writer.h"

#include <cassert>
#include <utility>

#include <cpl_conv.h>
#include <gdal_priv.h>
#include <ogrsf_frmts.h>

#include "io/error.h"
#include "io/files/disk.h"
#include "io/geopackage/geopackage_layer.h"
#include "io/records/dataset.h"
#include "io/second_pass.h"

namespace farwater::io {

namespace {

constexpr std::size_t rows_per_step = 1024;

// GDAL's settings for the same bytes, of this thread while it lives: no clock, and no second thread
// for the index. The caller's commit brings the file to the disk, so SQLite need not.
struct SameBytes {
    explicit SameBytes(const std::string& date)
        : current_date("OGR_CURRENT_DATE", date.c_str(), false) {}
    CPLConfigOptionSetter current_date;
    CPLConfigOptionSetter index_thread{"OGR_GPKG_ALLOW_THREADED_RTREE", "NO", false};
    CPLConfigOptionSetter synchronous{"OGR_SQLITE_SYNCHRONOUS", "OFF", false};
    CPLConfigOptionSetter journal{"OGR_SQLITE_JOURNAL", "DELETE", false};
};

OGRwkbGeometryType type_of(ShapeKind kind) {
    switch (kind) {
        case ShapeKind::point:
            return wkbPoint;
        case ShapeKind::line:
            return wkbLineString;
        case ShapeKind::polygon:
            return wkbPolygon;
        case ShapeKind::areas:
            return wkbMultiPolygon;
        case ShapeKind::none:
            break;
    }
    return wkbNone;
}

OGRRawPoint in_units(Point metres, double metres_per_unit) {
    const Point rounded = rounded_to_mm(metres);
    return {rounded.x / metres_per_unit, rounded.y / metres_per_unit};
}

// Fills `points`, which is used again for every row.
void to_units(const Polyline& line, double metres_per_unit, std::vector<OGRRawPoint>& points) {
    points.clear();
    for (const Point& point : line) {
        points.push_back(in_units(point, metres_per_unit));
    }
}

std::unique_ptr<OGRGeometry> shape_of(ShapeKind kind, const std::vector<OGRRawPoint>& points) {
    if (points.empty()) {
        return nullptr;
    }
    const auto count = static_cast<int>(points.size());
    if (kind == ShapeKind::point) {
        return std::make_unique<OGRPoint>(points.front().x, points.front().y);
    }
    if (kind == ShapeKind::line) {
        auto line = std::make_unique<OGRLineString>();
        line->setPoints(count, points.data());
        return line;
    }
    auto ring = std::make_unique<OGRLinearRing>();
    ring->setPoints(count, points.data());
    ring->closeRings();
    auto polygon = std::make_unique<OGRPolygon>();
    polygon->addRingDirectly(ring.release());
    return polygon;
}

void add_ring(OGRPolygon& polygon, const Polyline& line, double metres_per_unit) {
    std::vector<OGRRawPoint> points;
    to_units(line, metres_per_unit, points);
    auto ring = std::make_unique<OGRLinearRing>();
    ring->setPoints(static_cast<int>(points.size()), points.data());
    ring->closeRings();
    polygon.addRingDirectly(ring.release());
}

std::unique_ptr<OGRGeometry> shape_of(const MultiPolygon& areas, double metres_per_unit) {
    if (areas.empty()) {
        return nullptr;
    }
    auto whole = std::make_unique<OGRMultiPolygon>();
    for (const Polygon& area : areas) {
        auto polygon = std::make_unique<OGRPolygon>();
        add_ring(*polygon, area.shell, metres_per_unit);
        for (const Polyline& hole : area.holes) {
            add_ring(*polygon, hole, metres_per_unit);
        }
        whole->addGeometryDirectly(polygon.release());
    }
    return whole;
}

}  // namespace

struct GeoPackageWriter::State {
    std::string date;
    GeoPackageInMaking making;
};

GeoPackageWriter::GeoPackageWriter(const std::filesystem::path& file, const WorkingCrs& crs,
                                   const std::string& date, Fingerprints known)
    : state_(std::make_unique<State>()) {
    prepare_gdal();
    const SameBytes settings(date);
    const GdalMessages messages;
    CPLStringList options;
    options.SetNameValue("VERSION", "1.2");
    options.SetNameValue("DATETIME_FORMAT", "UTC");
    GDALDriver* driver = GetGDALDriverManager()->GetDriverByName("GPKG");
    state_->date = date;
    state_->making.file = file;
    state_->making.crs = crs_of(crs);
    state_->making.fingerprints = std::move(known);
    state_->making.metres_per_unit = crs.metres_per_unit;
    if (driver == nullptr) {
        throw OutputError(file.string() + ": cannot be made: GDAL is built without GeoPackage.");
    }
    state_->making.dataset.reset(driver->Create(file.c_str(), 0, 0, 0, GDT_Unknown, options.List()),
                                 [](GDALDataset* dataset) { GDALClose(dataset); });
    if (!state_->making.dataset) {
        throw OutputError(file.string() + ": cannot be made: " + messages.text() + ".");
    }
    state_->making.sqlite = std::make_unique<SqliteFile>(file);
    state_->making.sqlite->run("PRAGMA synchronous = OFF");
    state_->making.sqlite->run(
        "PRAGMA cache_size = -32768");  // KiB: an index is read as it is made
}

GeoPackageWriter::~GeoPackageWriter() {
    const SameBytes settings(state_->date);
    const GdalMessages messages;
    state_->making.sqlite.reset();  // a transaction that is still open would keep GDAL waiting
    state_->making.dataset.reset();
}

bool GeoPackageWriter::write(const FeatureTable& table, const Work& work) {
    const SameBytes settings(state_->date);
    GeoPackageLayer layer(state_->making, table, static_cast<int>(type_of(table.shape)));
    layer.add_result_columns(table.columns);
    layer.begin();
    Row row;
    std::vector<OGRRawPoint> points;
    for (std::size_t index = 0; index < table.rows; ++index) {
        if (index % rows_per_step == 0) {
            work.step(table.name, index, table.rows);
            if (work.stopped()) {
                return false;
            }
        }
        row.values.assign(table.columns.size(), Value{});
        row.shape.clear();
        row.areas.clear();
        table.fill(index, row);
        assert(row.values.size() == table.columns.size());
        const double metres_per_unit = state_->making.metres_per_unit;
        to_units(row.shape, metres_per_unit, points);
        layer.start_row(table.shape == ShapeKind::areas ? shape_of(row.areas, metres_per_unit).get()
                                                        : shape_of(table.shape, points).get());
        layer.add_results(row);
    }
    layer.finish();
    work.step(table.name, table.rows, table.rows);
    return true;
}

bool GeoPackageWriter::write(const PassThroughTable& table, const PassThroughInput& input,
                             const Work& work) {
    const SameBytes settings(state_->date);
    return write_second_pass(state_->making, table, input, work);
}

bool GeoPackageWriter::close(const Work& work) {
    const SameBytes settings(state_->date);
    state_->making.sqlite.reset();
    {
        const GdalMessages messages;
        state_->making.dataset.reset();
        if (messages.failed()) {
            throw OutputError(state_->making.file.string() + ": cannot be written to the end: " +
                              messages.text() + ". An older result is untouched.");
        }
    }
    return finish_geopackage(state_->making.file, std::move(state_->making.tables), work);
}

}  // namespace farwater::io
