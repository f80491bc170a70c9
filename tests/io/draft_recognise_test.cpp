// What layers are taken for: by shape, columns and sizes, by the name last.
#include <algorithm>

#include <catch2/catch.hpp>
#include <gdal_priv.h>
#include <ogrsf_frmts.h>

#include "io/records/dataset.h"
#include "tests/io/draft_folder.h"
#include "tests/support/program.h"

using namespace farwater;
using namespace farwater::io;
using farwater::support::contains;
using Strings = std::vector<std::string>;

namespace {

OGRwkbGeometryType type_of(MadeShape shape) {
    return shape == MadeShape::point  ? wkbPoint
           : shape == MadeShape::line ? wkbLineString
           : shape == MadeShape::area ? wkbPolygon
                                      : wkbNone;
}

bool holds(const Strings& list, const std::string& one) {
    return std::ranges::find(list, one) != list.end();
}

MadeLayer houses(const std::string& name) {
    MadeLayer layer{name, MadeShape::area, {"BLDG_ID"}, {}};
    for (int i = 0; i < 40; ++i) {
        layer.rows.push_back({square_wkt(i + 0.4, 0.4, 0.1), {"B" + std::to_string(i)}});
    }
    return layer;
}

}  // namespace

void farwater::io::make_file(const std::filesystem::path& file, const char* driver,
                             const std::vector<MadeLayer>& layers) {
    prepare_gdal();
    std::filesystem::create_directories(file.parent_path());
    GDALDriver* made_by = GetGDALDriverManager()->GetDriverByName(driver);
    const GDALDatasetUniquePtr dataset(
        made_by->Create(file.c_str(), 0, 0, 0, GDT_Unknown, nullptr));
    if (!dataset) {
        throw std::runtime_error("cannot make " + file.string());
    }
    for (const MadeLayer& made : layers) {
        OGRSpatialReference crs;
        crs.importFromEPSG(4326);
        crs.SetAxisMappingStrategy(OAMS_TRADITIONAL_GIS_ORDER);
        OGRLayer* layer =
            dataset->CreateLayer(made.name.c_str(), made.shape == MadeShape::none ? nullptr : &crs,
                                 type_of(made.shape), nullptr);
        if (layer == nullptr) {
            throw std::runtime_error("cannot make layer " + made.name);
        }
        for (const std::string& column : made.columns) {
            OGRFieldDefn field(column.c_str(), OFTString);
            layer->CreateField(&field);
        }
        for (const auto& [wkt, cells] : made.rows) {
            OGRFeature feature(layer->GetLayerDefn());
            for (std::size_t i = 0; i < cells.size(); ++i) {
                feature.SetField(static_cast<int>(i), cells[i].c_str());
            }
            OGRGeometry* shape = nullptr;
            if (!wkt.empty() &&
                OGRGeometryFactory::createFromWkt(wkt.c_str(), nullptr, &shape) == OGRERR_NONE) {
                feature.SetGeometryDirectly(shape);
            }
            if (layer->CreateFeature(&feature) != OGRERR_NONE) {
                throw std::runtime_error("cannot write into layer " + made.name);
            }
        }
    }
}

TEST_CASE("a county's layers are told apart by shapes and columns") {
    DraftFolder folder;
    folder.geopackage(
        "county.gpkg",
        {lots("cadastre", "PIN"),
         houses("footprints"),
         lines("centerlines", {"FULLNAME", "RDCLASS", "POSTED"}, {"Mill Rd", "II", "35"}),
         lines("streams", {"NAME"}, {"Mill Brook"}),
         {"hydro",
          MadeShape::area,
          {"GNIS_Name", "FType"},
          {{square_wkt(3, 5, 2), {"Mill Pond", "390"}}}},
         {"site_points",
          MadeShape::point,
          {"Add_Number", "St_Name"},
          {{spot_wkt(1.5, 0.5), {"7", "Mill"}}}},
         {"town", MadeShape::area, {"NAME"}, {{square_wkt(0, 0, 40), {"Town"}}}}});
    const Strings recognised = folder.recognised();
    CHECK(recognised == Strings{"parcels from county.gpkg, layer cadastre",
                                "roads from county.gpkg, layer centerlines",
                                "buildings from county.gpkg, layer footprints",
                                "mapped_water from county.gpkg, layer hydro"});
    const Strings passed = folder.passed_over();
    CHECK(holds(passed,
                "county.gpkg, layer streams: neither columns, shapes nor name tell what it is"));
    CHECK(holds(passed,
                "county.gpkg, layer town: an outline or a few areas, not told to be anything"));
}

TEST_CASE("a number that only counts the records is an id only where there is no other, and told") {
    const auto stations = [](const std::vector<std::string>& columns) {
        DraftFolder folder;
        folder.geopackage("parcels.gpkg", {lots("parcels", "PIN")});
        folder.geopackage(
            "fire_stations.gpkg",
            {{"fire_stations",
              MadeShape::point,
              columns,
              {{spot_wkt(1, 1), {"101", "4", "Hill"}}, {spot_wkt(2, 1), {"102", "7", "Vale"}}}}});
        return table_of(folder.draft(), "stations");
    };
    const DraftTable better = stations({"OBJECTID", "FireStationNum", "NAME"});
    CHECK(column_for(better, "station_id") == "FireStationNum");
    CHECK(better.competing.empty());
    const DraftTable only = stations({"OBJECTID", "PHONES", "NAME"});
    CHECK(column_for(only, "station_id") == "OBJECTID");
    REQUIRE(only.competing.size() == 1);
    CHECK(
        contains(only.competing.front(), "station_id is OBJECTID, which only counts the records"));
}

TEST_CASE("three lots with an id of properties are parcels and no outline") {
    DraftFolder folder;
    MadeLayer few = lots("tax_parcels", "PRINT_KEY");
    few.rows.resize(3);
    folder.geopackage("tax_parcels.gpkg", {few});
    CHECK(folder.recognised() == Strings{"parcels from tax_parcels.gpkg"});
}

TEST_CASE("points in the place of parcels are told where they can go") {
    DraftFolder folder;
    folder.geopackage("roads.gpkg", {lines("roads", {"RDNAME"}, {"Mill Rd"})});
    folder.geopackage("parcel_points.gpkg",
                      {{"parcel_points", MadeShape::point, {"PIN"}, {{spot_wkt(1, 1), {"7"}}}}});
    const Strings passed = folder.passed_over();
    REQUIRE(passed.size() == 1);
    CHECK(contains(passed.front(),
                   "parcels are areas; properties known as points only can be "
                   "[targets]"));
    folder.geopackage("addresses.gpkg", {{"addresses",
                                          MadeShape::point,
                                          {"Add_Number", "St_Name"},
                                          {{spot_wkt(1.5, 0.5), {"7", "Mill"}}}}});
    const Strings missing = folder.draft().missing;
    CHECK(std::ranges::any_of(missing, [](const std::string& one) {
        return contains(one, "where there is none, addresses.gpkg can be the [targets]");
    }));
}

TEST_CASE("hydrants without a column for their kind are told which words it takes") {
    DraftFolder folder;
    folder.geopackage("parcels.gpkg", {lots("parcels", "PIN")});
    folder.geopackage("hydrants.gpkg", {{"hydrants",
                                         MadeShape::point,
                                         {"FACILITYID"},
                                         {{spot_wkt(1, 1), {"H1"}}, {spot_wkt(2, 1), {"H2"}}}}});
    const Strings missing = folder.draft().missing;
    CHECK(std::ranges::any_of(missing, [](const std::string& one) {
        return contains(one,
                        "lacks a column for kind (hydrant, dry_hydrant, draft_site or cistern "
                        "in each record)");
    }));
}

TEST_CASE("layers with names and columns of other languages are told") {
    DraftFolder folder;
    MadeLayer lot = lots("Flurst\u00FCcke", "flurstueckskennzeichen");
    folder.geopackage("kataster.gpkg", {lot, lines("Strassen", {"Strassenname"}, {"Ringstr."}),
                                        houses("Geb\u00E4ude")});
    CHECK(folder.recognised() == Strings{"parcels from kataster.gpkg, layer Flurst\u00FCcke",
                                         "roads from kataster.gpkg, layer Strassen",
                                         "buildings from kataster.gpkg, layer Geb\u00E4ude"});
    DraftFolder french;
    french.geopackage("cadastre.gpkg", {lots("parcelles", "id_parcelle"), houses("batiments"),
                                        lines("troncon_de_route", {"nom_voie"}, {"Rue Haute"})});
    CHECK(french.recognised() == Strings{"parcels from cadastre.gpkg, layer parcelles",
                                         "roads from cadastre.gpkg, layer troncon_de_route",
                                         "buildings from cadastre.gpkg, layer batiments"});
}

TEST_CASE("columns are matched as people write them, each for one field") {
    DraftFolder folder;
    folder.geopackage("parcels.gpkg", {lots("parcels", "Map/Lot")});
    folder.geopackage("roads.gpkg",
                      {lines("roads", {"Street Name", "Speed_Limit", "Posted Tons", "WIDTH"},
                             {"Mill Rd", "35", "15", "18"})});
    const Draft draft = folder.draft();
    CHECK(column_for(table_of(draft, "parcels"), "parcel_id") == "Map/Lot");
    CHECK(column_for(table_of(draft, "parcels"), "address") == "SITE_ADDR");
    const DraftTable roads = table_of(draft, "roads");
    CHECK(column_for(roads, "name") == "Street Name");
    CHECK(column_for(roads, "speed_limit_mph") == "Speed_Limit");
    CHECK(column_for(roads, "weight_limit_lb") == "Posted Tons");
    CHECK(contains(draft.district_file, "units = { weight_limit_lb = \"short_ton\" }"));
    // Feet or metres: nobody says.
    CHECK(column_for(roads, "width_ft").empty());
    CHECK(roads.likely == Strings{"width_ft"});
    CHECK(contains(draft.district_file, "\n# width_ft = \"WIDTH\"  # likely, if in ft\n"));
}

TEST_CASE("an id is none where two records share it") {
    DraftFolder folder;
    MadeLayer layer = lots("parcels", "PIN");
    layer.rows[7].second[0] = layer.rows[8].second[0];
    folder.geopackage("parcels.gpkg", {layer});
    const DraftTable parcels = table_of(folder.draft(), "parcels");
    CHECK(column_for(parcels, "parcel_id").empty());
    CHECK(parcels.likely == Strings{"parcel_id"});
    CHECK(parcels.lacks == Strings{"a column for parcel_id"});
    CHECK_FALSE(parcels.suggested);
    CHECK(
        holds(folder.draft().missing,
              "parcels.gpkg could be parcels, but lacks a column for parcel_id; PIN is likely it, "
              "though some records share one or have none: take the # away there"));
}

TEST_CASE("a layer that is nearly told says which column would tell it") {
    DraftFolder folder;
    MadeLayer layer = lots("parcels", "PIN");
    layer.rows.resize(20);  // too few to be told by how they tile the ground
    layer.rows[7].second[0] = layer.rows[8].second[0];
    layer.columns.emplace_back("needed_gpm");
    folder.geopackage("parcels.gpkg", {layer});
    folder.text("stations.csv", "station_id,lon,lat\nS1,-72,43\n");
    CHECK(folder.recognised() == Strings{"stations from stations.csv"});
    CHECK(folder.passed_over() ==
          Strings{"parcels.gpkg: could be parcels, but lacks a column for parcel_id"});
}

TEST_CASE("of two layers that could be the roads the one with a schema is taken, the other named") {
    DraftFolder folder;
    folder.geopackage("a_roads.gpkg", {lines("roads", {"name"}, {"Mill Rd"})});
    folder.geopackage("tags.gpkg", {lines("ways", {"name", "highway", "oneway"},
                                          {"Mill Rd", "residential", "no"})});
    const Draft draft = folder.draft();
    const DraftTable roads = table_of(draft, "roads");
    CHECK(roads.source == "tags.gpkg");
    REQUIRE(roads.others.size() == 1);
    CHECK(roads.others.front() == std::pair<std::string, std::string>(
                                      "a_roads.gpkg", "columns, sizes and name say less of it"));
    CHECK(contains(draft.district_file, "schema = \"osm\""));
    CHECK(contains(draft.district_file,
                   "# Could be the same thing, and is not used: a_roads.gpkg (2 records): columns, "
                   "sizes and name say\n# less of it.\n"));
}

TEST_CASE("a schema's lines that are no roads are not taken for roads") {
    DraftFolder folder;
    folder.geopackage("roads.gpkg", {lines("roads", {"MTFCC", "FULLNAME"}, {"S1400", "Mill Rd"})});
    folder.geopackage("tiger.gpkg",
                      {lines("lines", {"MTFCC", "FULLNAME"}, {"R1011", "Mill Line"})});
    folder.geopackage("osm.gpkg", {lines("paths", {"highway"}, {"footway"})});
    CHECK(folder.recognised() == Strings{"roads from roads.gpkg"});
    CHECK(contains(folder.draft().district_file, "schema = \"mtfcc\""));
    CHECK(folder.passed_over() == Strings{"osm.gpkg: lines that are no roads for apparatus",
                                          "tiger.gpkg: lines that are no roads for apparatus"});
}

TEST_CASE("a railroad is no road, and a name alone tells roads, water and buildings") {
    DraftFolder folder;
    folder.geopackage("railroad.gpkg", {lines("railroad", {"NAME"}, {"B&M"})});
    folder.geopackage("streets.gpkg", {lines("streets", {"A"}, {"x"})});
    folder.geopackage("ponds.gpkg",
                      {{"ponds", MadeShape::area, {"A"}, {{square_wkt(1, 1, 1), {"x"}}}}});
    CHECK(folder.recognised() ==
          Strings{"roads from streets.gpkg", "mapped_water from ponds.gpkg"});
}

TEST_CASE("a list of runs or incidents is no staffing, though it names units and shifts") {
    DraftFolder folder;
    folder.geopackage("parcels.gpkg", {lots("parcels", "PIN")});
    for (const char* name : {"timed_runs.csv", "incidents_2025.csv"}) {
        folder.text(name, "INC_NO,UNIT,SHIFT,TURNOUT\n25-1,T1,night,6\n25-2,T1,day,5\n");
    }
    CHECK(folder.recognised() == Strings{"parcels from parcels.gpkg"});
    folder.text("shifts.csv", "UNIT,SHIFT,TURNOUT\nT1,night,6\nT1,day,5\n");
    CHECK(folder.recognised() == Strings{"parcels from parcels.gpkg", "staffing from shifts.csv"});
}

TEST_CASE("a layer that is nowhere near the parcels is left out") {
    DraftFolder folder;
    folder.geopackage("parcels.gpkg", {lots("parcels", "PIN")});
    folder.geopackage(
        "roads.gpkg",
        {{"roads", MadeShape::line, {"name"}, {{"LINESTRING (11 50,11.1 50)", {"Weg"}}}}});
    CHECK(folder.recognised() == Strings{"parcels from parcels.gpkg"});
    CHECK(folder.passed_over() == Strings{"roads.gpkg: roads, but nowhere near the parcels"});
}

TEST_CASE("tables with degrees are points, with metres they lack a coordinate system") {
    DraftFolder folder;
    folder.text("fire_stations.csv",
                "Station,Name,Lon,Lat\nS1,Central,-71.99,43\nS2,North,-71.98,43\n");
    folder.text("hydrants.csv", "HydrantID,Type,Easting,Northing\nH1,hydrant,700000,4770000\n");
    const Draft draft = folder.draft();
    const DraftTable stations = table_of(draft, "stations");
    CHECK(column_for(stations, "x") == "Lon");
    CHECK(column_for(stations, "station_id") == "Station");
    CHECK(contains(draft.district_file, "file = \"fire_stations.csv\"\ncrs = \"EPSG:4326\"\n"));
    // The workbook has a sheet for water instead.
    CHECK(draft.sheets == Strings{"apparatus", "water_sources", "dump_site_places"});
    CHECK(contains(draft.district_file,
                   "# hydrants.csv could be water_sources, but lacks the coordinate system of its "
                   "columns of"));
}

TEST_CASE("an assessor's table is joined by the key that both hold, and by no record number") {
    DraftFolder folder;
    MadeLayer parcels = lots("parcels", "PIN");
    parcels.columns.emplace_back("OBJECTID");
    std::string same = "MBLU,OBJECTID,STORIES,TOTAL_VAL\n";
    std::string other = "OBJECTID,STORIES,YEAR_BUILT,GRADE\n";
    for (std::size_t i = 0; i < parcels.rows.size(); ++i) {
        const std::string number = std::to_string(i + 1);
        parcels.rows[i].second.push_back(number);
        same += parcels.rows[i].second[0] + "," + number + ",2,250000\n";
        other += number + ",2,1987,C\n";
    }
    folder.geopackage("parcels.gpkg", {parcels});
    folder.text("other.csv", other);
    CHECK(folder.recognised() == Strings{"parcels from parcels.gpkg"});
    folder.text("table.csv", same);
    const DraftTable join = table_of(folder.draft(), "join");
    CHECK(join.source == "table.csv");
    CHECK(column_for(join, "key") == "MBLU");
    CHECK(column_for(join, "storeys") == "STORIES");
    CHECK(column_for(join, "value") == "TOTAL_VAL");
    CHECK_FALSE(join.suggested);
}

TEST_CASE("keys that were not met in the sample make a join that is only suggested") {
    DraftFolder folder;
    folder.geopackage("parcels.gpkg", {lots("parcels", "PIN")});
    folder.text("assessor.csv", "PIN,STORIES\n0007-0100,2\n0007-0103,1\n0007-0106,1\n");
    const Draft draft = folder.draft();
    CHECK(table_of(draft, "join").suggested);
    CHECK(contains(draft.district_file, "\n# [[join]]"));
    CHECK_FALSE(contains(draft.district_file, "\n[[join]]"));
}

TEST_CASE("layers lie in sub-folders too, and results, archives and deeper folders are told") {
    DraftFolder folder;
    folder.geopackage("county/parcels.gpkg", {lots("parcels", "PIN")});
    folder.geopackage("county/more/roads.gpkg", {lines("roads", {"name"}, {"Mill Rd"})});
    folder.text("result/.farwater-results", "farwater results\ncomplete\n");
    folder.text("roads.zip", "PK");
    folder.text("notes.txt", "x");
    CHECK(folder.recognised() == Strings{"parcels from county/parcels.gpkg"});
    const Draft draft = folder.draft();
    CHECK(draft.other_files == Strings{"notes.txt"});
    CHECK(contains(draft.district_file, "file = \"county/parcels.gpkg\""));
    CHECK(holds(folder.passed_over(), "roads.zip: an archive; unpack it into the folder"));
    CHECK(holds(folder.passed_over(),
                "county/more: a folder within a folder; only one level is looked into"));
}

TEST_CASE("broken files are told and hide nothing") {
    DraftFolder folder;
    folder.geopackage("parcels.gpkg", {lots("parcels", "PIN")});
    folder.text("roads.shp", "")
        .text("roads.geojson", "{\"type\":\"Feature")
        .text("a.xlsx", "PK\x03\x04");
    folder.text("utf16.csv", std::string("\xFF\xFEi\0d\0", 6));
    std::filesystem::create_symlink("nowhere", folder / "gone.csv");
    CHECK(folder.recognised() == Strings{"parcels from parcels.gpkg"});
    const Strings passed = folder.passed_over();
    CHECK(holds(passed, "roads.shp: the file is empty"));
    CHECK(holds(passed, "gone.csv: a link that leads nowhere"));
    CHECK(std::ranges::any_of(
        passed, [](const std::string& one) { return one.starts_with("roads.geojson: "); }));
    CHECK(std::ranges::any_of(passed,
                              [](const std::string& one) { return one.starts_with("a.xlsx: "); }));
}

TEST_CASE("of a large layer the first records are looked at, and it is not read for their number") {
    DraftFolder folder;
    std::string rows = "station_id,name,lon,lat,note\n";
    const std::string note(1000, 'x');
    for (int i = 0; i < 52'000; ++i) {
        rows += std::to_string(i) + ",A,-72,43," + note + "\n";
    }
    folder.text("stations.csv", rows);
    const DraftTable stations = table_of(folder.draft(), "stations");
    CHECK(stations.records == std::nullopt);
    CHECK(column_for(stations, "station_id") == "station_id");
    folder.text("stations.csv", rows.substr(0, 1'000'000));
    CHECK(table_of(folder.draft(), "stations").records > 900);
}

TEST_CASE("two hundred files are looked at") {
    DraftFolder folder;
    for (int i = 0; i < 200; ++i) {
        folder.text("t" + std::to_string(i) + ".csv", "a,b\n1,2\n");
    }
    folder.geopackage("parcels.gpkg", {lots("parcels", "PIN")});
    const Draft draft = folder.draft();
    CHECK(draft.files == 201);
    CHECK(draft.left_out.size() == 200);
    CHECK(table_of(draft, "parcels").source == "parcels.gpkg");
}

TEST_CASE("a service that a file names is not called") {
    DraftFolder folder;
    folder.geopackage("parcels.gpkg", {lots("parcels", "PIN")});
    folder.text("roads.vrt",
                "<OGRVRTDataSource><OGRVRTLayer name=\"roads\"><SrcDataSource>parcels.gpkg"
                "</SrcDataSource></OGRVRTLayer></OGRVRTDataSource>");
    CHECK(folder.recognised() == Strings{"parcels from parcels.gpkg"});
    REQUIRE(folder.passed_over().size() == 1);
    CHECK(contains(folder.passed_over().front(), "leads elsewhere"));
}
