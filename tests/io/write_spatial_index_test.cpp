#include <random>
#include <string>
#include <vector>

#include <catch2/catch.hpp>
#include <gdal_priv.h>
#include <ogrsf_frmts.h>

#include "io/error.h"
#include "io/geopackage/spatial_index.h"
#include "tests/io/geopackage_tables.h"
#include "tests/support/temporary_folder.h"

namespace {

using namespace farwater;
using namespace farwater::io;
using namespace farwater::io::test;
using farwater::support::bytes_of;
using farwater::support::TemporaryFolder;

// Schema of the index and of all that belongs to it.
std::string index_schema(const std::filesystem::path& file) {
    return rows_of(file,
                   "SELECT type, name, tbl_name, sql FROM sqlite_master WHERE name LIKE 'rtree%' "
                   "ORDER BY name",
                   4) +
           rows_of(file,
                   "SELECT table_name, column_name, extension_name, definition, scope FROM "
                   "gpkg_extensions WHERE extension_name = 'gpkg_rtree_index'",
                   5);
}

std::unique_ptr<GDALDataset, GDALDatasetUniquePtrDeleter> open_to_edit(
    const std::filesystem::path& file) {
    return GDALDatasetUniquePtr(GDALDataset::Open(file.c_str(), GDAL_OF_VECTOR | GDAL_OF_UPDATE));
}

OGREnvelope random_window(std::mt19937& random) {
    std::uniform_real_distribution<double> place(0.0, 10000.0);
    std::uniform_real_distribution<double> side(0.0, 600.0);
    OGREnvelope window;
    window.MinX = place(random);
    window.MinY = place(random);
    window.MaxX = window.MinX + side(random);
    window.MaxY = window.MinY + side(random);
    return window;
}

// 60,000 rectangles over 10 km, in no order.
FeatureTable scattered(std::size_t rows, unsigned seed) {
    FeatureTable table;
    table.name = "scattered";
    table.shape = ShapeKind::polygon;
    table.rows = rows;
    table.fill = [random = std::mt19937(seed)](std::size_t, Row& row) mutable {
        const OGREnvelope box = random_window(random);
        row.shape = {{box.MinX, box.MinY},
                     {box.MinX + 20.0, box.MinY},
                     {box.MinX + 20.0, box.MinY + 30.0},
                     {box.MinX, box.MinY}};
    };
    return table;
}

std::vector<GIntBig> in_window(OGRLayer& layer, const OGREnvelope& window) {
    layer.SetSpatialFilterRect(window.MinX, window.MinY, window.MaxX, window.MaxY);
    std::vector<GIntBig> fids;
    for (const auto& feature : layer) {
        fids.push_back(feature->GetFID());
    }
    layer.SetSpatialFilter(nullptr);
    std::sort(fids.begin(), fids.end());
    return fids;
}

std::vector<GIntBig> in_window_by_scan(OGRLayer& layer, const OGREnvelope& window) {
    OGRPolygon frame;
    auto ring = std::make_unique<OGRLinearRing>();
    ring->addPoint(window.MinX, window.MinY);
    ring->addPoint(window.MaxX, window.MinY);
    ring->addPoint(window.MaxX, window.MaxY);
    ring->addPoint(window.MinX, window.MaxY);
    ring->closeRings();
    frame.addRing(ring.get());
    std::vector<GIntBig> fids;
    for (const auto& feature : layer) {
        OGREnvelope box;
        feature->GetGeometryRef()->getEnvelope(&box);
        if (box.Intersects(window) != 0 && feature->GetGeometryRef()->Intersects(&frame) != 0) {
            fids.push_back(feature->GetFID());
        }
    }
    return fids;
}

void check_windows(OGRLayer& layer, std::mt19937& random, int windows) {
    for (int i = 0; i < windows; ++i) {
        const OGREnvelope window = random_window(random);
        CHECK(in_window(layer, window) == in_window_by_scan(layer, window));
    }
}

}  // namespace

TEST_CASE("boxes are rounded outwards to single precision") {
    const IndexBox box = index_box(3, 4700000.1, 4700000.1, -0.1, 0.1);
    CHECK(static_cast<double>(box.min_x) <= 4700000.1);
    CHECK(static_cast<double>(box.max_x) >= 4700000.1);
    CHECK(box.max_x - box.min_x == 0.5F);
    CHECK(static_cast<double>(box.min_y) <= -0.1);
    CHECK(static_cast<double>(box.max_y) >= 0.1);
    const IndexBox exact = index_box(3, 1.5, 1.5, 2.0, 2.0);
    CHECK((exact.min_x == 1.5F && exact.max_x == 1.5F && exact.max_y == 2.0F));
}

TEST_CASE("an index from the leaves up has the schema that GDAL gives its own") {
    const TemporaryFolder folder;
    REQUIRE(write_file(folder / "ours.gpkg", {points("p", 1000)}));
    std::filesystem::copy_file(folder / "ours.gpkg", folder / "gdal.gpkg");
    build_index_by_gdal(folder / "gdal.gpkg", "p");
    CHECK(index_schema(folder / "ours.gpkg") == index_schema(folder / "gdal.gpkg"));
    CHECK(rows_of(folder / "ours.gpkg", "SELECT length(data) FROM rtree_p_geom_node LIMIT 1") ==
          rows_of(folder / "gdal.gpkg", "SELECT length(data) FROM rtree_p_geom_node LIMIT 1"));
}

TEST_CASE("an index from the leaves up answers windows as a scan does, also after edits by GDAL") {
    const TemporaryFolder folder;
    const unsigned seed = std::random_device()();
    CAPTURE(seed);
    std::mt19937 random(seed);
    const auto file = folder / "a.gpkg";
    REQUIRE(write_file(file, {scattered(60'000, seed)}));
    {
        const auto dataset = open_to_edit(file);
        OGRLayer& layer = *dataset->GetLayer(0);
        check_windows(layer, random, 20);

        dataset->StartTransaction();
        for (int i = 0; i < 1000; ++i) {
            const auto fid = static_cast<GIntBig>(1 + random() % 60'000);
            const OGRFeatureUniquePtr feature(layer.GetFeature(fid));
            if (!feature) {
                continue;
            }
            if (i % 3 == 0) {
                REQUIRE(layer.DeleteFeature(fid) == OGRERR_NONE);
                continue;
            }
            const OGREnvelope box = random_window(random);
            auto ring = std::make_unique<OGRLinearRing>();
            ring->addPoint(box.MinX, box.MinY);
            ring->addPoint(box.MaxX, box.MinY);
            ring->addPoint(box.MaxX, box.MaxY);
            ring->closeRings();
            OGRPolygon polygon;
            polygon.addRing(ring.get());
            feature->SetGeometry(&polygon);
            if (i % 3 == 1) {
                feature->SetFID(OGRNullFID);
                REQUIRE(layer.CreateFeature(feature.get()) == OGRERR_NONE);
            } else {
                REQUIRE(layer.SetFeature(feature.get()) == OGRERR_NONE);
            }
        }
        REQUIRE(dataset->CommitTransaction() == OGRERR_NONE);
        check_windows(layer, random, 20);
    }
    CHECK(rows_of(file, "SELECT rtreecheck('rtree_scattered_geom')") == "ok\n");
    CHECK(rows_of(file, "SELECT count(*) FROM rtree_scattered_geom") ==
          rows_of(file, "SELECT count(*) FROM scattered"));
}

TEST_CASE("features without a shape are not in an index from the leaves up") {
    const TemporaryFolder folder;
    FeatureTable table = points("p", 60'000);
    table.fill = [](std::size_t index, Row& row) {
        if (index % 7 == 0) {
            row.shape = {{static_cast<double>(index), 1.0}};
        }
    };
    REQUIRE(write_file(folder / "a.gpkg", {table}));
    CHECK(rows_of(folder / "a.gpkg", "SELECT count(*), min(id), max(id) FROM rtree_p_geom", 3) ==
          "8572|1|59998\n");
    CHECK(rows_of(folder / "a.gpkg",
                  "SELECT id FROM rtree_p_geom WHERE minx > 34.5 AND maxx < 35.5") == "36\n");
}

TEST_CASE("an index that does not pass its check is taken back and GDAL builds its own") {
    const TemporaryFolder folder;
    const auto file = folder / "a.gpkg";
    REQUIRE(write_file(file, {points("p", 0)}));
    const std::string before = bytes_of(file);
    // The same feature twice, and one of whose boxes the left side is right of the right side.
    const std::vector<std::vector<IndexBox>> bad{
        {index_box(1, 0, 1, 0, 1), index_box(1, 0, 1, 0, 1)}, {index_box(1, 5, 1, 0, 1)}};
    for (const std::vector<IndexBox>& boxes : bad) {
        SqliteFile sqlite(file);
        sqlite.run("BEGIN");
        CHECK_FALSE(fill_spatial_index(sqlite, "p", boxes));
        CHECK(sqlite.in_transaction());
        CHECK(sqlite.integer("SELECT count(*) FROM rtree_p_geom") == 0);
        sqlite.run("COMMIT");
    }
    CHECK(bytes_of(file).size() == before.size());
    CHECK(rows_of(file, "SELECT rtreecheck('rtree_p_geom')") == "ok\n");
}

TEST_CASE("GDAL builds an index anew where there is a layer") {
    const TemporaryFolder folder;
    const auto file = folder / "a.gpkg";
    REQUIRE(write_file(file, {points("p", 100)}));
    SqliteFile(file).run("UPDATE rtree_p_geom_rowid SET nodeno = 99 WHERE rowid = 5");
    build_index_by_gdal(file, "p");
    CHECK(rows_of(file, "SELECT rtreecheck('rtree_p_geom')") == "ok\n");
    CHECK(rows_of(file, "SELECT count(*) FROM rtree_p_geom") == "100\n");
    CHECK_THROWS_AS(build_index_by_gdal(file, "no_such_layer"), OutputError);
}
