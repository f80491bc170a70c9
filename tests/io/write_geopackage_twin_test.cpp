// What the writer puts into a GeoPackage by SQLite, against the same features put there by GDAL's
// own CreateFeature, one by one: every cell, every shape, every word of the tables that describe.
#include <array>
#include <cmath>
#include <limits>
#include <memory>
#include <random>
#include <set>
#include <string>
#include <vector>

#include <catch2/catch.hpp>
#include <gdal_priv.h>
#include <ogrsf_frmts.h>

#include "io/geopackage_writer.h"
#include "io/pass_through.h"
#include "tests/io/geopackage_tables.h"
#include "tests/support/temporary_folder.h"

namespace {

using namespace farwater;
using namespace farwater::io;
using namespace farwater::io::test;
using farwater::support::TemporaryFolder;
namespace fs = std::filesystem;

using Random = std::mt19937;

template <class Things>
const auto& one_of(const Things& things, Random& random) {
    return things[random() % things.size()];
}

// --- features to write -------------------------------------------------------------------------

const std::vector<const char*> polygons{"POLYGON ((0 0,0 10,10 10,10 0,0 0))",
                                        "POLYGON ((-3 0.1,0 1e7,1e-9 10,-3 0.1))"};
const std::vector<const char*> lines_with_heights{"LINESTRING Z (0 0 1,5 5 -2)",
                                                  "LINESTRING Z (0 0 1,5 5 -2,7 7 1e9)"};
const std::vector<const char*> measured{"MULTIPOINT M ((0 0 1),(1 1 2))"};
const std::vector<const char*> curved{"CURVEPOLYGON (CIRCULARSTRING (0 0,1 1,2 0,1 -1,0 0))"};
const std::vector<const char*> all_sorts{
    "POINT (1 2)",
    "POINT Z (1 2 3)",
    "POINT ZM (1 2 3 4)",
    "POINT EMPTY",
    "LINESTRING EMPTY",
    "POLYGON Z EMPTY",
    "GEOMETRYCOLLECTION (POINT EMPTY)",
    "LINESTRING ZM (1 2 3 9,3 4 5 9)",
    "POLYGON ((0 0,0 10.123456789,10 10,10 0,0 0),(1 1,2 1,2 2,1 2,1 1))",
    "MULTIPOLYGON (((0 0,0 1,1 1,1 0,0 0)),((5 5,5 6,6 6,6 5,5 5)))",
    "MULTILINESTRING M ((0 0 1,1 1 1),(2 2 2,3 3 3))",
    "GEOMETRYCOLLECTION (POINT (1 1),CIRCULARSTRING (0 0,1 1,2 0))",
    "COMPOUNDCURVE (CIRCULARSTRING (0 0,1 1,2 0),(2 0,3 0))",
    "MULTISURFACE (CURVEPOLYGON (CIRCULARSTRING (0 0,1 1,2 0,1 -1,0 0)))",
    "TIN (((0 0,0 1,1 1,0 0)))"};
const std::vector<const char*> no_shapes{};

struct ColumnKind {
    const char* name;
    OGRFieldType type;
    OGRFieldSubType subtype;
};

constexpr std::array kinds{
    ColumnKind{"whole", OFTInteger, OFSTNone},  ColumnKind{"small", OFTInteger, OFSTInt16},
    ColumnKind{"yes", OFTInteger, OFSTBoolean}, ColumnKind{"large", OFTInteger64, OFSTNone},
    ColumnKind{"real", OFTReal, OFSTNone},      ColumnKind{"single", OFTReal, OFSTFloat32},
    ColumnKind{"text", OFTString, OFSTNone},    ColumnKind{"json", OFTString, OFSTJSON},
    ColumnKind{"day", OFTDate, OFSTNone},       ColumnKind{"moment", OFTDateTime, OFSTNone},
    ColumnKind{"bytes", OFTBinary, OFSTNone}};

const std::vector<std::string> texts{"",
                                     "plain",
                                     "'; DROP TABLE parcels; --",
                                     "\"quoted\", `ticked`, 100 % ?1 :a @b $c",
                                     "Höhe 水 \U0001F692",
                                     "\xC3\xBF\xC3\xBE such text",
                                     "line\nline\r\n\ttab",
                                     "0012",
                                     "1e5",
                                     std::string(20'000, 'x')};
const std::vector<double> reals{
    0.0, -0.0, 0.1, 1.0 / 3.0, -1e308, 5e-324, 4.0, 1e300, std::numeric_limits<double>::infinity()};
const std::vector<GIntBig> wholes{0,
                                  1,
                                  -1,
                                  9'000'000'000,
                                  std::numeric_limits<GIntBig>::max(),
                                  std::numeric_limits<GIntBig>::min()};

void set_random_cell(OGRFeature& feature, int column, Random& random) {
    switch (kinds[static_cast<std::size_t>(column)].type) {
        case OFTInteger:
            return feature.SetField(column, static_cast<int>(random() % 2));
        case OFTInteger64:
            return feature.SetField(column, one_of(wholes, random));
        case OFTReal:
            return feature.SetField(column, one_of(reals, random));
        case OFTString:
            return feature.SetField(column, one_of(texts, random).c_str());
        case OFTBinary:
            return feature.SetField(column, static_cast<int>(random() % 5), "\0\xFFxy");
        default: {
            constexpr std::array<int, 5> zones{0, 1, 100, 104, 78};
            return feature.SetField(
                column, 1 + static_cast<int>(random() % 9999), 1 + static_cast<int>(random() % 12),
                1 + static_cast<int>(random() % 28), static_cast<int>(random() % 24), 59, 15.25F,
                one_of(zones, random));
        }
    }
}

std::unique_ptr<OGRGeometry> shape_of(const char* wkt) {
    OGRGeometry* shape = nullptr;
    REQUIRE(OGRGeometryFactory::createFromWkt(wkt, nullptr, &shape) == OGRERR_NONE);
    return std::unique_ptr<OGRGeometry>(shape);
}

OGRSpatialReference utm() {
    OGRSpatialReference crs;
    crs.importFromEPSG(32618);
    crs.SetAxisMappingStrategy(OAMS_TRADITIONAL_GIS_ORDER);
    return crs;
}

GDALDatasetUniquePtr new_geopackage(const fs::path& file) {
    GDALAllRegister();
    const char* options[] = {"VERSION=1.2", "DATETIME_FORMAT=UTC", nullptr};
    return GDALDatasetUniquePtr(GetGDALDriverManager()->GetDriverByName("GPKG")->Create(
        file.c_str(), 0, 0, 0, GDT_Unknown, const_cast<char**>(options)));
}

void make_input(const fs::path& file, const std::vector<const char*>& shapes, std::size_t rows,
                Random& random) {
    const GDALDatasetUniquePtr dataset = new_geopackage(file);
    OGRSpatialReference crs = utm();
    OGRLayer* layer = dataset->CreateLayer("parcels", &crs, wkbUnknown);
    for (const ColumnKind& kind : kinds) {
        OGRFieldDefn definition(kind.name, kind.type);
        definition.SetSubType(kind.subtype);
        REQUIRE(layer->CreateField(&definition) == OGRERR_NONE);
    }
    for (std::size_t row = 0; row < rows; ++row) {
        OGRFeature feature(layer->GetLayerDefn());
        for (int column = 0; column < feature.GetFieldCount(); ++column) {
            if (random() % 4 != 0) {
                set_random_cell(feature, column, random);
            }
        }
        if (!shapes.empty() && random() % 8 != 0) {
            feature.SetGeometryDirectly(shape_of(one_of(shapes, random)).release());
        }
        REQUIRE(layer->CreateFeature(&feature) == OGRERR_NONE);
    }
}

// --- the twin ----------------------------------------------------------------------------------

OGRwkbGeometryType common_type(OGRLayer& layer) {
    std::set<OGRwkbGeometryType> found;
    for (const auto& feature : layer) {
        if (feature->GetGeometryRef() != nullptr) {
            found.insert(feature->GetGeometryRef()->getGeometryType());
        }
    }
    return found.empty() ? layer.GetGeomType() : found.size() == 1 ? *found.begin() : wkbUnknown;
}

bool is_kept(OGRFieldType type) {
    constexpr std::array kept{OFTInteger, OFTInteger64, OFTReal,    OFTString,
                              OFTBinary,  OFTDate,      OFTDateTime};
    return std::find(kept.begin(), kept.end(), type) != kept.end();
}

OGRLayer* new_layer(GDALDataset& dataset, OGRLayer& like) {
    const OGRwkbGeometryType type = common_type(like);
    const char* options[] = {"FID=fid", "GEOMETRY_NAME=geom", "IDENTIFIER=copy",
                             "DESCRIPTION=", nullptr};
    OGRSpatialReference crs = utm();
    OGRLayer* layer = dataset.CreateLayer("copy", type == wkbNone ? nullptr : &crs, type,
                                          const_cast<char**>(options));
    for (int i = 0; i < like.GetLayerDefn()->GetFieldCount(); ++i) {
        const OGRFieldDefn& column = *like.GetLayerDefn()->GetFieldDefn(i);
        OGRFieldDefn definition(column.GetNameRef(),
                                is_kept(column.GetType()) ? column.GetType() : OFTString);
        definition.SetSubType(column.GetSubType() == OFSTJSON || !is_kept(column.GetType())
                                  ? OFSTNone
                                  : column.GetSubType());
        REQUIRE(layer->CreateField(&definition) == OGRERR_NONE);
    }
    return layer;
}

void set_cell(const OGRFeature& from, OGRFeature& to, int column) {
    const bool real = from.GetFieldDefnRef(column)->GetType() == OFTReal;
    if (!from.IsFieldSetAndNotNull(column) ||
        (real && !std::isfinite(from.GetFieldAsDouble(column)))) {
        to.SetFieldNull(column);
    } else if (is_kept(from.GetFieldDefnRef(column)->GetType())) {
        to.SetField(column, const_cast<OGRFeature&>(from).GetRawFieldRef(column));
    } else {
        to.SetField(column, const_cast<OGRFeature&>(from).GetFieldAsString(column));
    }
}

void copy_by_gdal(const fs::path& in, const fs::path& out) {
    GDALAllRegister();
    const CPLConfigOptionSetter date("OGR_CURRENT_DATE", fixed_date.c_str(), false);
    const GDALDatasetUniquePtr from(GDALDataset::Open(in.c_str(), GDAL_OF_VECTOR));
    const GDALDatasetUniquePtr to = new_geopackage(out);
    OGRLayer& source = *from->GetLayer(0);
    OGRLayer& layer = *new_layer(*to, source);
    for (const auto& feature : source) {
        OGRFeature copy(layer.GetLayerDefn());
        for (int column = 0; column < copy.GetFieldCount(); ++column) {
            set_cell(*feature, copy, column);
        }
        copy.SetGeometryDirectly(feature->StealGeometry());
        REQUIRE(layer.CreateFeature(&copy) == OGRERR_NONE);
    }
}

void copy_by_us(const fs::path& in, const fs::path& out, std::size_t records) {
    PassThroughInput input;
    input.spec.section = "parcels";
    input.spec.file = in.filename().string();
    input.spec.path = in;
    input.features = records;
    PassThroughTable table;
    table.results.name = "copy";
    GeoPackageWriter writer(out, utm_18(), fixed_date);
    REQUIRE(writer.write(table, input, Work{}));
    REQUIRE(writer.close(Work{}));
}

// --- comparing ---------------------------------------------------------------------------------

// Every cell as SQLite keeps it, with its type.
std::string stored(const fs::path& file) {
    const SqliteFile sqlite(file);
    std::string cells = "fid";
    SqliteStatement columns = sqlite.prepare("SELECT name FROM pragma_table_info('copy')");
    while (columns.step()) {
        const std::string name = sql_name(columns.text(0));
        cells += " || '|' || typeof(" + name + ") || quote(" + name + ")";
    }
    return rows_of(file, "SELECT " + cells + " FROM copy ORDER BY fid");
}

// Every feature as GDAL reads it.
std::string read_by_gdal(const fs::path& file) {
    const GDALDatasetUniquePtr dataset(GDALDataset::Open(file.c_str(), GDAL_OF_VECTOR));
    std::string text;
    for (const auto& feature : *dataset->GetLayerByName("copy")) {
        text += std::to_string(feature->GetFID());
        for (int i = 0; i < feature->GetFieldCount(); ++i) {
            text += feature->IsFieldSetAndNotNull(i) ? "|" : "|NULL";
            text += feature->GetFieldAsString(i);
        }
        const OGRGeometry* shape = feature->GetGeometryRef();
        text += shape == nullptr ? "|NULL" : "|" + shape->exportToWkt();
        text += "\n";
    }
    return text;
}

// What describes the layer. GDAL prints an extent with 18 digits, of which the last may be off.
std::string described(const fs::path& file) {
    return rows_of(file,
                   "SELECT type, name, sql FROM sqlite_master WHERE tbl_name LIKE '%copy%' "
                   "ORDER BY type, name",
                   3) +
           rows_of(file, "SELECT * FROM gpkg_geometry_columns", 6) +
           rows_of(file, "SELECT * FROM gpkg_ogr_contents", 2) +
           rows_of(file, "SELECT * FROM sqlite_sequence", 2) +
           rows_of(file,
                   "SELECT * FROM gpkg_extensions WHERE extension_name <> 'gpkg_schema' "
                   "ORDER BY extension_name",
                   5) +
           rows_of(file,
                   "SELECT table_name, data_type, identifier, description, last_change, srs_id, "
                   "printf('%.9g %.9g %.9g %.9g', min_x, min_y, max_x, max_y) FROM gpkg_contents",
                   7);
}

std::string in_index(const fs::path& file) {
    return rows_of(file, "SELECT id FROM rtree_copy_geom ORDER BY id");
}

}  // namespace

TEST_CASE("rows written by SQLite are the rows that GDAL writes one by one") {
    const auto& shapes = *GENERATE(values<const std::vector<const char*>*>(
        {&polygons, &lines_with_heights, &measured, &curved, &all_sorts, &no_shapes}));
    const std::size_t rows = GENERATE(1U, 2U, 31U, 64U, 300U);
    const unsigned seed = std::random_device()();
    CAPTURE(shapes.size(), rows, seed);
    Random random(seed);
    const TemporaryFolder folder;
    make_input(folder / "in.gpkg", shapes, rows, random);
    copy_by_gdal(folder / "in.gpkg", folder / "gdal.gpkg");
    copy_by_us(folder / "in.gpkg", folder / "ours.gpkg", rows);
    CHECK(stored(folder / "ours.gpkg") == stored(folder / "gdal.gpkg"));
    CHECK(read_by_gdal(folder / "ours.gpkg") == read_by_gdal(folder / "gdal.gpkg"));
    CHECK(described(folder / "ours.gpkg") == described(folder / "gdal.gpkg"));
    CHECK(in_index(folder / "ours.gpkg") == in_index(folder / "gdal.gpkg"));
}

TEST_CASE("lists, times and time zones are written by SQLite as by GDAL") {
    const TemporaryFolder folder;
    support::put(folder / "in.geojson", R"({"type": "FeatureCollection",
        "crs": {"type": "name", "properties": {"name": "urn:ogc:def:crs:EPSG::32618"}},
        "features": [
        {"type": "Feature", "geometry": {"type": "Point", "coordinates": [500000, 4700000]},
         "properties": {"tags": ["a", "b"], "at": "12:30:15", "n": [1, 2], "r": [0.5], "big":
             9000000000, "on": "2020-02-29", "when": "2020-03-01T00:30:00+01:45", "any": {"a": 1},
             "yes": true}},
        {"type": "Feature", "geometry": null, "properties": {"tags": null, "n": null,
             "when": "2019-12-31T23:59:59.999Z", "any": null}},
        {"type": "Feature", "geometry": null, "properties": {
             "when": "2019-12-31T23:59:59", "any": 5}}]})");
    copy_by_gdal(folder / "in.geojson", folder / "gdal.gpkg");
    copy_by_us(folder / "in.geojson", folder / "ours.gpkg", 3);
    CHECK(stored(folder / "ours.gpkg") == stored(folder / "gdal.gpkg"));
    CHECK(read_by_gdal(folder / "ours.gpkg") == read_by_gdal(folder / "gdal.gpkg"));
    CHECK(described(folder / "ours.gpkg") == described(folder / "gdal.gpkg"));
}
