// Roads by a named open standard: invented ones, small enough to be read by eye.
#include <algorithm>

#include <catch2/catch.hpp>
#include <fmt/format.h>
#include <gdal_priv.h>
#include <ogrsf_frmts.h>

#include "io/inputs/osm_config.h"
#include "io/inputs/road_schemas.h"
#include "io/records/dataset.h"
#include "tests/io/read_scene.h"

using namespace farwater;
using namespace farwater::io;

namespace {

constexpr const char* hollow = "tests/io/data/hollow.osm";

ReadScene osm_scene(const std::string& more = "") {
    ReadScene scene;
    scene.file("hollow.osm", support::bytes_of(hollow));
    scene.source("roads", "hollow.osm", "schema = \"osm\"\n" + more);
    return scene;
}

const Road& road_named(const std::vector<Road>& roads, const std::string& name) {
    const auto found = std::find_if(roads.begin(), roads.end(),
                                    [&](const Road& road) { return road.name == name; });
    if (found == roads.end()) {
        throw std::runtime_error("no road " + name);
    }
    return *found;
}

// "paved_lane open both", and the limits that are there.
std::string told(const Road& road) {
    std::string text =
        fmt::format("{} {} {}", word(road.kind), word(road.access), word(road.one_way));
    text += road.surface ? fmt::format(" on {}", word(*road.surface)) : "";
    text += road.bridge ? " bridge" : "";
    text += road.tunnel ? " tunnel" : "";
    text += road.level != 0 ? fmt::format(" level {}", road.level) : "";
    text += road.posted_speed ? fmt::format(" {:.1f} mph", in_mph(*road.posted_speed)) : "";
    text += road.weight_limit ? fmt::format(" {:.0f} lb", in_pounds(*road.weight_limit)) : "";
    text += road.height_limit ? fmt::format(" {:.2f} ft high", in_feet(*road.height_limit)) : "";
    text += road.width ? fmt::format(" {:.2f} ft wide", in_feet(*road.width)) : "";
    return text;
}

std::string table_of_roads(const std::string& columns, const std::vector<std::string>& records) {
    std::string text = columns + ",WKT\n";
    for (std::size_t i = 0; i < records.size(); ++i) {
        text += fmt::format("{},\"LINESTRING (700000 {},700300 {})\"\n", records[i],
                            4769990 - i * 20, 4769990 - i * 20);
    }
    return text;
}

ReadScene table_scene(const std::string& columns, const std::vector<std::string>& records,
                      const std::string& more) {
    ReadScene scene;
    scene.table("roads", table_of_roads(columns, records))
        .section("roads", "crs = \"EPSG:32618\"\n" + more);
    return scene;
}

}  // namespace

TEST_CASE("roads of OpenStreetMap are not read without their configuration") {
    prepare_gdal();
    VSIUnlink("/vsimem/farwater/osmconf.ini");
    REQUIRE(VSIMkdirRecursive("/vsimem/farwater/osmconf.ini", 0755) == 0);
    CHECK_THROWS_AS(osm_config_file(), InputError);
    CHECK(VSIRmdir("/vsimem/farwater/osmconf.ini") == 0);
    CHECK(osm_config_file() == "/vsimem/farwater/osmconf.ini");
}

TEST_CASE("tags of OpenStreetMap are roads") {
    const std::vector<Road> roads = osm_scene().read().district.roads;
    const auto road = [&](const std::string& name) { return told(road_named(roads, name)); };
    CHECK(road("Mill Road") == "state open both on paved 45.0 mph");
    CHECK(road("Dirt Hill") == "paved_lane open both on gravel");
    CHECK(road("Camp Lane") == "drive private both");
    CHECK(road("Old Track") == "narrow unmaintained both");
    CHECK(road("Circle") == "paved open forward");
    CHECK(road("Turnpike") == "state open forward 65.2 mph");
    CHECK(road("Two-way Pike") == "state open both");
    CHECK(road("Back Street") == "paved_lane open backward");
    CHECK(road("Low Bridge") ==
          "paved open both bridge level 1 20000 lb 12.50 ft high 12.47 ft wide");
    CHECK(road("Tube") == "paved open both tunnel level -1 7716 lb 11.48 ft high 13.12 ft wide");
    CHECK(road("New Road") == "narrow closed both");
    CHECK(road("Green Lane") == "paved_lane closed both");
    CHECK(road("Tide Road") == "paved_lane closed both");
    CHECK(road("Odd Road") == "narrow gated both");
    CHECK(road("Sand Road") == "narrow open both on gravel");
    CHECK(road("Route 9") == "state open both");
    CHECK(road("Signal Road") == "paved_lane open both");
    CHECK(road("Riddle Road") == "paved_lane closed both");
    CHECK(road("Permit Way") == "paved_lane private both");
    CHECK(road("Slate Road") == "paved_lane open both on gravel");
}

TEST_CASE("of OpenStreetMap lines those without a highway are not read, paths are counted") {
    const ReadScene scene = osm_scene();
    CHECK(count_of(scene.read(), "roads") == "22 = 20 + 0 + 2");
    const Sentences sentences = scene.sentences();
    CHECK(
        sentences ==
        Sentences{
            "roads (hollow.osm), row 15, column oneway: holds a value that the district file does "
            "not map; the most cautious meaning is taken (\"reversible\", taken as closed, since "
            "its direction is not known); add it to the layer's values table.",
            "roads (hollow.osm), row 16, column highway: holds a value that the district file does "
            "not map; the most cautious meaning is taken (\"goatway\", taken as narrow); add it to "
            "the layer's values table.",
            "roads (hollow.osm), row 16, column access: holds a value that the district file does "
            "not map; the most cautious meaning is taken (\"highway=goatway\", taken as gated); "
            "add it to the layer's values table.",
            "roads (hollow.osm), row 19, column oneway: holds a value that the district file does "
            "not map; the most cautious meaning is taken (\"alternating\", taken as both; waiting "
            "for the turn is not counted); add it to the layer's values table.",
            "roads (hollow.osm), row 20, column oneway: holds a value that the district file does "
            "not map; the most cautious meaning is taken (\"no;yes\", taken as closed, since its "
            "direction is not known); add it to the layer's values table.",
            "roads (hollow.osm), row 22, column surface: holds a value that the district file does "
            "not map; the most cautious meaning is taken (\"slate\", taken as gravel); add "
            "it to the layer's values table.",
            "roads (hollow.osm), row 22, column maxspeed: holds something that is no plain number; "
            "the value counts as not known (\"fast\"); write digits only, with a point for "
            "decimals.",
            "roads (hollow.osm), column highway: holds lines that are no roads for apparatus; they "
            "are left out (1 path, 1 steps); where apparatus drive on such lines, name their class "
            "in the values of [roads].",
        });
}

TEST_CASE("the district file goes before the schema, field by field") {
    const std::vector<Road> roads =
        osm_scene(
            "values = { class = { path = \"narrow\", track = \"gravel\" }, one_way = { "
            "reversible = \"both\" } }\nunits = { weight_limit_lb = \"short_ton\" }\ncolumns = "
            "{ speed_limit_mph = \"layer\", access = \"access\" }")
            .read()
            .district.roads;
    const auto road = [&](const std::string& name) { return told(road_named(roads, name)); };
    CHECK(road("Brook Path") == "narrow open both");
    CHECK(road("Old Track") == "gravel unmaintained both");
    CHECK(road("Tide Road") == "paved_lane open both");
    CHECK(road("Tube").find(" 7000 lb ") != std::string::npos);
    CHECK(road("Low Bridge").find(" 1.0 mph ") != std::string::npos);  // no unit of the schema
    CHECK(road("Mill Road") == "state open both on paved");
    CHECK(road("Camp Lane") == "drive private both");  // the schema's own column keeps its words
}

TEST_CASE("a road by schema takes one column from elsewhere without the schema's words") {
    const Sentences sentences = table_scene("highway,access,allowed", {"residential,private,no"},
                                            "schema = \"osm\"\ncolumns = { access = \"allowed\" }")
                                    .sentences();
    REQUIRE(sentences.size() == 1);
    CHECK(sentences[0].find("column allowed: holds a value that the district file does not map") !=
          std::string::npos);
}

TEST_CASE("the schema osm reads tags from any table") {
    const ReadScene scene = table_scene(
        "highway,maxspeed,oneway", {"tertiary,25 mph,no", "footway,,", ",,yes", "service,,yes"},
        "schema = \"osm\"");
    const ReadResult read = scene.read();
    CHECK(count_of(read, "roads") == "4 = 2 + 0 + 2");
    REQUIRE(read.district.roads.size() == 2);
    CHECK(told(read.district.roads[0]) == "paved open both 25.0 mph");
    CHECK(told(read.district.roads[1]) == "drive open forward");
    CHECK(scene.sentences().back().find("(1 footway, 1 without class)") == std::string::npos);
    CHECK(scene.sentences().back().find("(1 without class, 1 footway)") != std::string::npos);
}

TEST_CASE("road feature class codes of the census are roads") {
    const ReadScene scene = table_scene(
        "FULLNAME,MTFCC",
        {"I- 7,S1100", "State Rte 9,S1200", "Mill Rd,S1400", "Jeep Trl,S1500", "Ramp,S1630",
         "Frontage Rd,S1640", "Town Walk,S1710", "Stairs,S1720", "Alley,S1730", "Log Rd,S1740",
         "Census,S1750", "Lot,S1780", "Rail,R1011", "Brook,H3010", "New Rd,S1999", "Bike,S1820"},
        "schema = \"mtfcc\"");
    const ReadResult read = scene.read();
    CHECK(count_of(read, "roads") == "16 = 10 + 0 + 6");
    std::vector<std::string> roads;
    for (const Road& road : read.district.roads) {
        roads.push_back(road.name.text() + ": " + told(road));
    }
    CHECK(roads == std::vector<std::string>{
                       "I- 7: state open both", "State Rte 9: state open both",
                       "Mill Rd: paved_lane open both", "Jeep Trl: narrow unmaintained both",
                       "Ramp: state open both", "Frontage Rd: paved_lane open both",
                       "Alley: narrow open both", "Log Rd: narrow private both",
                       "Lot: drive open both", "New Rd: narrow gated both"});
    CHECK(scene.sentences().back().find("(1 H3010, 1 R1011, 1 S1710, 1 S1720, 1 S1750, 1 S1820)") !=
          std::string::npos);
}

TEST_CASE("road centrelines of the emergency-calling model are roads, from a GeoPackage too") {
    const std::vector<std::string> records{"North,Old,Mill,Road,Primary,B,45",
                                           ",,Mill,Lane,LOCAL,FT,25",
                                           ",,Oak,,Local,TF,",
                                           ",,Trail,,Vehicular Trail,,0",
                                           ",,Walk,,Walkway/Pedestrian Trail,,",
                                           ",,Log,Road,Private,B,",
                                           ",,Lot,,Parking Lot,,"};
    const std::string columns = "St_PreDir,St_PreMod,St_Name,St_PosTyp,RoadClass,OneWay,SpeedLimit";
    ReadScene scene = table_scene(columns, records, "schema = \"ng911\"");
    const auto check = [&] {
        const ReadResult read = scene.read();
        CHECK(count_of(read, "roads") == "7 = 6 + 0 + 1");
        std::vector<std::string> roads;
        for (const Road& road : read.district.roads) {
            roads.push_back(road.name.text() + ": " + told(road));
        }
        CHECK(roads == std::vector<std::string>{
                           "Old North Mill Road: state open both 45.0 mph",
                           "Mill Lane: paved_lane open forward 25.0 mph",
                           "Oak: paved_lane open backward", "Trail: narrow unmaintained both",
                           "Log Road: narrow private both", "Lot: drive open both"});
    };
    check();
    // The same table as GDAL's GeoPackage, with a number column.
    prepare_gdal();
    const GDALDatasetUniquePtr from(
        GDALDataset::Open((scene / "roads.csv").c_str(), GDAL_OF_VECTOR));
    const GDALDatasetUniquePtr to(GetGDALDriverManager()->GetDriverByName("GPKG")->Create(
        (scene / "roads.gpkg").c_str(), 0, 0, 0, GDT_Unknown, nullptr));
    REQUIRE(to->CopyLayer(from->GetLayer(0), "RoadCenterLine") != nullptr);
    to->FlushCache();
    scene.source("roads", "roads.gpkg", "crs = \"EPSG:32618\"\nschema = \"ng911\"");
    check();
}

TEST_CASE("a layer that does not keep to its schema is refused in one sentence") {
    CHECK(table_scene("name,CLASS", {"Mill Road,S1400"}, "schema = \"mtfcc\"").refusal() ==
          "roads (roads.csv): schema = \"mtfcc\" needs a column MTFCC for class; name another in "
          "[roads] columns, or leave schema out; the layer has name, CLASS, WKT.");
    CHECK(
        table_scene("name,CLASS", {"Mill Road,S1400"}, "schema = \"osm\"").refusal() ==
        "roads (roads.csv): schema = \"osm\" is for data with a column highway, and the layer has "
        "name, CLASS, WKT; leave schema out, and name the column of the road's class in [roads] "
        "columns with its words in values.class.");
}

TEST_CASE("an unknown schema, or one of another layer, is a fault of the district file") {
    CHECK_THROWS_WITH(osm_scene().section("roads", "schema = \"osn\"").district_file(),
                      Catch::Contains("[roads] schema must be") && Catch::Contains("osm"));
    CHECK_THROWS_WITH(ReadScene().section("stations", "schema = \"osm\"").district_file(),
                      Catch::Contains("[stations] has no key \"schema\""));
}

TEST_CASE("the district file may name its own configuration of the OpenStreetMap driver") {
    ReadScene scene;
    scene.file("hollow.osm", support::bytes_of(hollow))
        .file("own.ini", "[lines]\nosm_id=yes\nattributes=name,highway\nother_tags=no\n")
        .source("roads", "hollow.osm",
                "schema = \"osm\"\nopen_options = [\"CONFIG_FILE=own.ini\"]");
    const auto hash_of = [](const ReadResult& read) {
        for (const InputRecord& input : read.inputs) {
            if (input.section == "roads") {
                return input.sha256;
            }
        }
        return std::string();
    };
    const ReadResult read = scene.read();
    CHECK(told(road_named(read.district.roads, "Mill Road")) == "state open both");
    // The configuration is part of the input.
    scene.file("own.ini", "[lines]\nosm_id=yes\nattributes=name,highway,maxspeed\n");
    CHECK(hash_of(read) != hash_of(scene.read()));
    CHECK(hash_of(read).size() == 64);
}

TEST_CASE("what a schema presets are fields and words of ours") {
    const SectionRow& roads = *find_section("roads");
    for (const RoadSchema& schema : road_schemas()) {
        for (const PresetColumn& column : schema.columns) {
            CAPTURE(schema.name, column.field);
            CHECK(find_field(roads, column.field) != nullptr);
        }
        for (const PresetValues& values : schema.values) {
            const FieldRow* field = find_field(roads, values.field);
            REQUIRE(field != nullptr);
            for (const PresetWord& word : values.words) {
                CAPTURE(schema.name, word.theirs, word.ours);
                CHECK((field->kind == FieldKind::yes_no
                           ? word.ours == "yes"
                           : std::ranges::count(field->words(), word.ours) == 1));
                CHECK_FALSE((values.field == "class" && is_left_out(schema, word.theirs)));
                CHECK(std::ranges::count(values.words, word.theirs, &PresetWord::theirs) == 1);
            }
        }
    }
}
