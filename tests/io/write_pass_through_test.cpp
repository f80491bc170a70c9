#include <chrono>
#include <memory>
#include <string>
#include <vector>

#include <catch2/catch.hpp>
#include <gdal_priv.h>
#include <ogrsf_frmts.h>

#include "io/error.h"
#include "io/fingerprint.h"
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

constexpr const char* square = "POLYGON ((0 0,0 10,10 10,10 0,0 0))";
constexpr const char* with_hole =
    "POLYGON ((0 0,0 10.123456789,10 10,10 0,0 0),(1 1,2 1,2 2,1 2,1 1))";
constexpr const char* two_parts = "MULTIPOLYGON (((0 0,0 1,1 1,1 0,0 0)),((5 5,5 6,6 6,6 5,5 5)))";

struct InputColumn {
    const char* name;
    OGRFieldType type = OFTString;
    OGRFieldSubType subtype = OFSTNone;
};

// One feature for each WKT (null = no geometry); every column gets the feature's number.
void make_input(const fs::path& file, const char* driver_name,
                const std::vector<const char*>& shapes,
                const std::vector<InputColumn>& columns = {{"id"}}, int epsg = 32618,
                OGRwkbGeometryType type = wkbUnknown) {
    GDALAllRegister();
    GDALDriver* driver = GetGDALDriverManager()->GetDriverByName(driver_name);
    const GDALDatasetUniquePtr dataset(driver->Create(file.c_str(), 0, 0, 0, GDT_Unknown, nullptr));
    OGRSpatialReference crs;
    crs.importFromEPSG(epsg);
    crs.SetAxisMappingStrategy(OAMS_TRADITIONAL_GIS_ORDER);
    OGRLayer* layer = dataset->CreateLayer("parcels", type == wkbNone ? nullptr : &crs, type);
    for (const InputColumn& column : columns) {
        OGRFieldDefn definition(column.name, column.type);
        definition.SetSubType(column.subtype);
        REQUIRE(layer->CreateField(&definition) == OGRERR_NONE);
    }
    for (std::size_t i = 0; i < shapes.size(); ++i) {
        OGRFeature feature(layer->GetLayerDefn());
        for (int column = 0; column < feature.GetFieldCount(); ++column) {
            feature.SetField(column, static_cast<int>(i));
        }
        if (shapes[i] != nullptr) {
            OGRGeometry* shape = nullptr;
            REQUIRE(OGRGeometryFactory::createFromWkt(shapes[i], nullptr, &shape) == OGRERR_NONE);
            feature.SetGeometryDirectly(shape);
        }
        REQUIRE(layer->CreateFeature(&feature) == OGRERR_NONE);
    }
}

PassThroughInput input_of(const fs::path& file, std::size_t features) {
    PassThroughInput input;
    input.spec.section = "parcels";
    input.spec.file = file.filename().string();
    input.spec.path = file;
    input.features = features;
    return input;
}

PassThroughTable supply() {
    PassThroughTable table;
    table.input = "parcels";
    table.results.name = "parcel_supply";
    table.results.columns = {{"cautious_gpm", ColumnType::real, "A flow.", 0}};
    table.results.fill = [](std::size_t record, Row& row) {
        row.values[0] = 100.0 * static_cast<double>(record);
    };
    return table;
}

bool pass_through(const fs::path& out, const PassThroughInput& input,
                  const PassThroughTable& table = supply(), const WorkingCrs& crs = utm_18(),
                  const Work& work = {}) {
    GeoPackageWriter writer(out, crs, fixed_date);
    return writer.write(table, input, work) && writer.close(work);
}

std::string geometry_type(const fs::path& file) {
    return rows_of(file, "SELECT geometry_type_name, z, m FROM gpkg_geometry_columns", 3);
}

std::vector<unsigned char> wkb_of(const char* wkt) {
    OGRGeometry* shape = nullptr;
    OGRGeometryFactory::createFromWkt(wkt, nullptr, &shape);
    const std::unique_ptr<OGRGeometry> owner(shape);
    std::vector<unsigned char> wkb(shape->WkbSize());
    shape->exportToWkb(wkbNDR, wkb.data(), wkbVariantIso);
    return wkb;
}

}  // namespace

TEST_CASE("input columns keep their names, taken ones get in_ in front") {
    const std::vector<std::string> taken{"fid", "geom", "held"};
    CHECK(carried_names({"a", "b"}, taken) == std::vector<std::string>{"a", "b"});
    CHECK(carried_names({"FID", "Geom", "HELD"}, taken) ==
          std::vector<std::string>{"in_FID", "in_Geom", "in_HELD"});
    CHECK(carried_names({"id", "ID", "Id"}, taken) ==
          std::vector<std::string>{"id", "in_ID", "in_Id_2"});
    CHECK(carried_names({"in_fid", "fid"}, taken) ==
          std::vector<std::string>{"in_fid", "in_fid_2"});
    CHECK(carried_names({"", ""}, taken) == std::vector<std::string>{"column", "in_column"});
}

TEST_CASE("shapes go through byte for byte where the input is in the working CRS") {
    const TemporaryFolder folder;
    const auto in = folder / "in.gpkg";
    const auto out = folder / "out.gpkg";
    make_input(in, "GPKG", {square, two_parts, with_hole, nullptr, "POLYGON EMPTY"});
    REQUIRE(pass_through(out, input_of(in, 5)));
    CHECK(rows_of(out, "SELECT fid, id, cautious_gpm FROM parcel_supply", 3) ==
          "1|0|0.0\n2|1|100.0\n3|2|200.0\n4|3|300.0\n5|4|400.0\n");
    CHECK(rows_of(out, "SELECT hex(geom) FROM parcel_supply") ==
          rows_of(in, "SELECT hex(geom) FROM parcels"));
    CHECK(geometry_type(out) == "GEOMETRY|0|0\n");
    CHECK(rows_of(out, "SELECT count(*) FROM rtree_parcel_supply_geom") == "3\n");
}

TEST_CASE("whoever wants to sees each kept record's rings in metres on the way") {
    const TemporaryFolder folder;
    const auto in = folder / "in.gpkg";
    make_input(in, "GPKG",
               {with_hole, two_parts, nullptr, "POINT (1 1)",
                "CURVEPOLYGON (CIRCULARSTRING (0 0,10 10,20 0,10 -10,0 0))", square},
               {{"id"}}, 2249);
    PassThroughTable table = supply();
    table.keeps = [](std::size_t record) { return record != 5; };
    std::vector<std::vector<Polyline>> seen;
    table.sees = [&](std::size_t record, std::span<const Polyline> rings) {
        CHECK(record == seen.size());
        seen.emplace_back(rings.begin(), rings.end());
    };
    REQUIRE(pass_through(folder / "out.gpkg", input_of(in, 6), table, feet_crs()));
    REQUIRE(seen.size() == 5);
    const double foot = feet_crs().metres_per_unit;
    REQUIRE(seen[0].size() == 2);
    CHECK(seen[0][0][1] == Point{0.0, 10.123456789 * foot});
    CHECK(seen[0][1].front() == Point{foot, foot});
    CHECK(seen[0][1].front() == seen[0][1].back());
    CHECK(seen[1].size() == 2);
    CHECK(seen[2].empty());
    CHECK(seen[3].empty());
    REQUIRE(seen[4].size() == 1);
    CHECK(seen[4][0].size() > 20);  // an arc in short straight pieces
}

TEST_CASE("the layer's type is that of its records where they agree") {
    const TemporaryFolder folder;
    const auto shape = GENERATE(values<std::pair<const char*, const char*>>(
        {{square, "POLYGON|0|0\n"},
         {two_parts, "MULTIPOLYGON|0|0\n"},
         {"POLYGON Z ((0 0 1,0 1 2,1 1 3,0 0 1))", "POLYGON|1|0\n"},
         {"LINESTRING (0 0,1 1)", "LINESTRING|0|0\n"},
         {"POINT M (0 0 5)", "POINT|0|1\n"},
         {"CURVEPOLYGON (CIRCULARSTRING (0 0,1 1,2 0,1 -1,0 0))", "CURVEPOLYGON|0|0\n"}}));
    CAPTURE(shape.first);
    make_input(folder / "in.gpkg", "GPKG", {shape.first, nullptr, shape.first});
    REQUIRE(pass_through(folder / "out.gpkg", input_of(folder / "in.gpkg", 3)));
    CHECK(geometry_type(folder / "out.gpkg") == shape.second);
    CHECK(rows_of(folder / "out.gpkg", "SELECT hex(geom) FROM parcel_supply") ==
          rows_of(folder / "in.gpkg", "SELECT hex(geom) FROM parcels"));
}

TEST_CASE("a shapefile with polygons of one and of two parts goes through") {
    const TemporaryFolder folder;
    make_input(folder / "parcels.shp", "ESRI Shapefile", {square, two_parts}, {{"id"}}, 32618,
               wkbPolygon);
    REQUIRE(pass_through(folder / "out.gpkg", input_of(folder / "parcels.shp", 2)));
    CHECK(geometry_type(folder / "out.gpkg") == "GEOMETRY|0|0\n");
    CHECK(rows_of(folder / "out.gpkg", "SELECT count(*) FROM parcel_supply") == "2\n");
}

TEST_CASE("shapes of another CRS are transformed once") {
    const TemporaryFolder folder;
    make_input(folder / "in.gpkg", "GPKG", {"POINT (-72.1 43.2)"}, {{"id"}}, 4326);
    REQUIRE(pass_through(folder / "out.gpkg", input_of(folder / "in.gpkg", 1)));

    OGRSpatialReference from;
    OGRSpatialReference to;
    from.importFromEPSG(4326);
    to.importFromEPSG(32618);
    from.SetAxisMappingStrategy(OAMS_TRADITIONAL_GIS_ORDER);
    to.SetAxisMappingStrategy(OAMS_TRADITIONAL_GIS_ORDER);
    const std::unique_ptr<OGRCoordinateTransformation> way(
        OGRCreateCoordinateTransformation(&from, &to));
    OGRPoint expected(-72.1, 43.2);
    REQUIRE(expected.transform(way.get()) == OGRERR_NONE);

    const GDALDatasetUniquePtr dataset(
        GDALDataset::Open((folder / "out.gpkg").c_str(), GDAL_OF_VECTOR));
    const OGRFeatureUniquePtr feature(dataset->GetLayer(0)->GetFeature(1));
    CHECK(feature->GetGeometryRef()->toPoint()->getX() == expected.getX());
    CHECK(feature->GetGeometryRef()->toPoint()->getY() == expected.getY());
    CHECK(expected.getY() > 4'700'000.0);
}

TEST_CASE("a shape that has no place in the working CRS becomes NULL and the others go through") {
    const TemporaryFolder folder;
    make_input(folder / "in.gpkg", "GPKG", {"POINT (-72.1 43.2)", "POINT (-72 1e10)"}, {{"id"}},
               4326);
    REQUIRE(pass_through(folder / "out.gpkg", input_of(folder / "in.gpkg", 2)));
    CHECK(rows_of(folder / "out.gpkg", "SELECT id, geom IS NULL FROM parcel_supply", 2) ==
          "0|0\n1|1\n");
}

TEST_CASE("a repaired record gets its repaired shape, a record set aside gets no row") {
    const TemporaryFolder folder;
    const auto out = folder / "out.gpkg";
    make_input(folder / "in.gpkg", "GPKG",
               {square, "POLYGON ((0 0,1 1,1 0,0 1,0 0))", square, square});
    PassThroughInput input = input_of(folder / "in.gpkg", 4);
    input.repaired = {{1, wkb_of(with_hole)}, {2, wkb_of(two_parts)}};
    PassThroughTable table = supply();
    table.keeps = [](std::size_t record) { return record != 2; };
    REQUIRE(pass_through(out, input, table));
    CHECK(rows_of(out, "SELECT fid, id, cautious_gpm FROM parcel_supply", 3) ==
          "1|0|0.0\n2|1|100.0\n3|3|300.0\n");
    CHECK(geometry_type(out) == "POLYGON|0|0\n");
    const GDALDatasetUniquePtr dataset(GDALDataset::Open(out.c_str(), GDAL_OF_VECTOR));
    const OGRFeatureUniquePtr feature(dataset->GetLayer(0)->GetFeature(2));
    OGRGeometry* expected = nullptr;
    REQUIRE(OGRGeometryFactory::createFromWkt(with_hole, nullptr, &expected) == OGRERR_NONE);
    CHECK(feature->GetGeometryRef()->Equals(expected) != 0);
    OGRGeometryFactory::destroyGeometry(expected);
}

TEST_CASE("every column goes through with its type, under a new name where the name is taken") {
    const TemporaryFolder folder;
    const auto in = folder / "in.gpkg";
    const auto out = folder / "out.gpkg";
    make_input(in, "GPKG", {square, square},
               {{"name"},
                {"Cautious_GPM"},
                {"stories", OFTInteger, OFSTInt16},
                {"number", OFTInteger64},
                {"lit", OFTInteger, OFSTBoolean},
                {"ratio", OFTReal, OFSTFloat32},
                {"area", OFTReal}});
    {
        const GDALDatasetUniquePtr dataset(
            GDALDataset::Open(in.c_str(), GDAL_OF_VECTOR | GDAL_OF_UPDATE));
        OGRFieldDefn sold("sold", OFTDate);
        OGRFieldDefn changed("changed", OFTDateTime);
        OGRFieldDefn photo("photo", OFTBinary);
        for (OGRFieldDefn* column : {&sold, &changed, &photo}) {
            REQUIRE(dataset->GetLayer(0)->CreateField(column) == OGRERR_NONE);
        }
        dataset->ReleaseResultSet(dataset->ExecuteSQL(
            "UPDATE parcels SET name = '007 \"x\"', number = 9000000000, area = 0.1, "
            "sold = '2020-02-29', changed = '2020-02-29T12:30:15.250Z', photo = x'00FF10' "
            "WHERE fid = 1",
            nullptr, nullptr));
        dataset->ReleaseResultSet(
            dataset->ExecuteSQL("UPDATE parcels SET name = '', area = 9e999, lit = NULL "
                                "WHERE fid = 2",
                                nullptr, nullptr));
    }
    REQUIRE(pass_through(out, input_of(in, 2)));
    const std::string columns = "SELECT name, type FROM pragma_table_info('parcel_supply')";
    CHECK(rows_of(out, columns, 2) ==
          "fid|INTEGER\ngeom|POLYGON\nname|TEXT\nin_Cautious_GPM|TEXT\nstories|SMALLINT\n"
          "number|INTEGER\nlit|BOOLEAN\nratio|FLOAT\narea|REAL\nsold|DATE\nchanged|DATETIME\n"
          "photo|BLOB\ncautious_gpm|REAL\n");
    CHECK(rows_of(out,
                  "SELECT name, in_Cautious_GPM, stories, number, lit, ratio, area, sold, changed, "
                  "hex(photo), cautious_gpm FROM parcel_supply",
                  11) ==
          "007 \"x\"|0|0|9000000000|0|0.0|0.1|2020-02-29|2020-02-29T12:30:15.250Z|00FF10|0.0\n"
          "|1|1|1||1.0|||||100.0\n");
    CHECK(rows_of(out, "SELECT typeof(name), typeof(area) FROM parcel_supply WHERE fid = 2", 2) ==
          "text|null\n");
    CHECK(rows_of(out, "SELECT column_name, description FROM gpkg_data_columns", 2) ==
          "in_Cautious_GPM|Column Cautious_GPM of the input, as it stands there.\n"
          "cautious_gpm|A flow.\n");
}

TEST_CASE("lists and times of day become text") {
    const TemporaryFolder folder;
    support::put(folder / "in.geojson", R"({"type": "FeatureCollection", "features": [
        {"type": "Feature", "geometry": {"type": "Point", "coordinates": [-72, 43]},
         "properties": {"tags": ["a", "b"], "at": "12:30:15", "n": [1, 2]}},
        {"type": "Feature", "geometry": null, "properties": {"tags": null, "n": null}}]})");
    REQUIRE(pass_through(folder / "out.gpkg", input_of(folder / "in.geojson", 2)));
    CHECK(rows_of(folder / "out.gpkg", "SELECT tags, at, n, geom IS NULL FROM parcel_supply", 4) ==
          "(2:a,b)|12:30:15|(2:1,2)|0\n|||1\n");
}

// GDAL 3.6 itself takes the hours off on both sides of Greenwich.
TEST_CASE("times east and west of Greenwich become UTC") {
    const TemporaryFolder folder;
    support::put(folder / "in.geojson", R"({"type": "FeatureCollection", "features": [
        {"type": "Feature", "geometry": null, "properties": {"at": "2019-12-31T23:59:59.999-08:00"}},
        {"type": "Feature", "geometry": null, "properties": {"at": "2020-03-01T00:30:00+01:45"}},
        {"type": "Feature", "geometry": null, "properties": {"at": "2020-02-29T12:30:15.25Z"}},
        {"type": "Feature", "geometry": null, "properties": {"at": "2020-02-29T12:30:15"}}]})");
    REQUIRE(pass_through(folder / "out.gpkg", input_of(folder / "in.geojson", 4)));
    CHECK(rows_of(folder / "out.gpkg", "SELECT at FROM parcel_supply") ==
          "2020-01-01T07:59:59.999Z\n2020-02-29T22:45:00.000Z\n"
          "2020-02-29T12:30:15.250Z\n2020-02-29T12:30:15.000Z\n");
}

TEST_CASE("a table without shapes goes through as a table, and results may be none") {
    const TemporaryFolder folder;
    make_input(folder / "in.gpkg", "GPKG", {nullptr, nullptr}, {{"id"}, {"fid_1"}}, 0, wkbNone);
    PassThroughTable table;
    table.results.name = "fleet";
    REQUIRE(pass_through(folder / "out.gpkg", input_of(folder / "in.gpkg", 2), table));
    CHECK(rows_of(folder / "out.gpkg", "SELECT * FROM fleet", 3) == "1|0|0\n2|1|1\n");
    CHECK(rows_of(folder / "out.gpkg", "SELECT data_type FROM gpkg_contents") == "attributes\n");
}

TEST_CASE("records are counted under the section's filter") {
    const TemporaryFolder folder;
    make_input(folder / "in.gpkg", "GPKG", {square, two_parts, square}, {{"id", OFTInteger}});
    PassThroughInput input = input_of(folder / "in.gpkg", 2);
    input.spec.where = "id <> 1";
    REQUIRE(pass_through(folder / "out.gpkg", input));
    CHECK(rows_of(folder / "out.gpkg", "SELECT id, cautious_gpm FROM parcel_supply", 2) ==
          "0|0.0\n2|100.0\n");
    CHECK(geometry_type(folder / "out.gpkg") == "POLYGON|0|0\n");
}

TEST_CASE("an input that changed since the first pass is refused") {
    const TemporaryFolder folder;
    const auto in = folder / "in.gpkg";
    make_input(in, "GPKG", {square, square, square});
    const std::string sha256 = sha256_of_files({in});
    const auto attempt = [&](std::size_t features, const std::string& fingerprint) {
        PassThroughInput input = input_of(in, features);
        input.sha256 = fingerprint;
        fs::remove(folder / "out.gpkg");
        pass_through(folder / "out.gpkg", input);
    };
    CHECK_NOTHROW(attempt(3, sha256));
    CHECK_NOTHROW(attempt(3, ""));
    CHECK_THROWS_AS(attempt(2, sha256), InputError);
    CHECK_THROWS_WITH(attempt(2, sha256), Catch::Contains("more records than before"));
    CHECK_THROWS_WITH(attempt(4, sha256), Catch::Contains("it has 3 records, before 4"));
    {
        const GDALDatasetUniquePtr dataset(
            GDALDataset::Open(in.c_str(), GDAL_OF_VECTOR | GDAL_OF_UPDATE));
        dataset->ReleaseResultSet(
            dataset->ExecuteSQL("UPDATE parcels SET id = '9' WHERE fid = 3", nullptr, nullptr));
    }
    CHECK_THROWS_AS(attempt(3, sha256), InputError);
    CHECK_THROWS_WITH(attempt(3, sha256),
                      Catch::Contains("parcels (in.gpkg): changed while the run was using it"));
    CHECK_NOTHROW(attempt(3, ""));
}

TEST_CASE("an input that changes during the second pass is refused") {
    const TemporaryFolder folder;
    make_input(folder / "parcels.shp", "ESRI Shapefile", {square, square}, {{"id"}}, 32618,
               wkbPolygon);
    PassThroughTable table = supply();
    table.results.fill = [&](std::size_t, Row&) {
        std::ofstream(folder / "parcels.dbf", std::ios::app | std::ios::binary) << "x";
    };
    CHECK_THROWS_WITH(pass_through(folder / "out.gpkg", input_of(folder / "parcels.shp", 2), table),
                      Catch::Contains("its files changed during the writing"));
}

TEST_CASE("an input that is only linked or touched during the second pass is no other input") {
    const TemporaryFolder folder;
    const auto in = folder / "in.gpkg";
    make_input(in, "GPKG", {square, square});
    PassThroughInput input = input_of(in, 2);
    input.sha256 = sha256_of_files({in});
    PassThroughTable table = supply();
    table.results.fill = [&](std::size_t record, Row&) {
        if (record == 0) {
            fs::create_hard_link(in, folder / "backup");
            fs::last_write_time(in, fs::last_write_time(in) - std::chrono::hours(1));
        }
    };
    CHECK(pass_through(folder / "out.gpkg", input, table));
}

TEST_CASE("an input is never written to") {
    const TemporaryFolder folder;
    make_input(folder / "in.gpkg", "GPKG", {square, two_parts});
    const std::string before = support::bytes_of(folder / "in.gpkg");
    const auto time = fs::last_write_time(folder / "in.gpkg");
    REQUIRE(pass_through(folder / "out.gpkg", input_of(folder / "in.gpkg", 2)));
    CHECK(support::bytes_of(folder / "in.gpkg") == before);
    CHECK(fs::last_write_time(folder / "in.gpkg") == time);
    CHECK(std::distance(fs::directory_iterator(folder.path()), {}) == 2);
}

TEST_CASE("a stopped second pass comes back at once") {
    const TemporaryFolder folder;
    make_input(folder / "in.gpkg", "GPKG", std::vector<const char*>(5000, square));
    std::stop_source stop;
    PassThroughTable table = supply();
    std::size_t filled = 0;
    table.results.fill = [&](std::size_t record, Row&) {
        filled = record;
        stop.request_stop();
    };
    CHECK_FALSE(pass_through(folder / "out.gpkg", input_of(folder / "in.gpkg", 5000), table,
                             utm_18(), Work{stop.get_token(), 1, {}}));
    CHECK(filled < 2000);
}

TEST_CASE("a large input gets the same bytes twice and an index that holds all of it") {
    const TemporaryFolder folder;
    make_input(folder / "in.gpkg", "GPKG", std::vector<const char*>(51'000, with_hole));
    const PassThroughInput input = input_of(folder / "in.gpkg", 51'000);
    REQUIRE(pass_through(folder / "a.gpkg", input));
    REQUIRE(pass_through(folder / "b.gpkg", input));
    CHECK(support::bytes_of(folder / "a.gpkg") == support::bytes_of(folder / "b.gpkg"));
    CHECK(rows_of(folder / "a.gpkg", "SELECT count(*) FROM rtree_parcel_supply_geom") == "51000\n");
}
