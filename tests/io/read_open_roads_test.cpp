// Roads of real data by schema and by free mapping, read from the folder FARWATER_OPEN_DATA.
#include <cstdlib>
#include <iostream>
#include <optional>

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include "tests/io/read_scene.h"

using namespace farwater;
using namespace farwater::io;

namespace {

std::optional<std::string> open_data() {
    const char* root = std::getenv("FARWATER_OPEN_DATA");
    if (root == nullptr) {
        std::cout << "SKIPPED: FARWATER_OPEN_DATA is not set\n";
        return std::nullopt;
    }
    return std::filesystem::absolute(root).string() + "/";
}

// One parcel and the stations in the middle of the data, so that roads alone are looked at.
ReadScene scene_at(double x, double y, double size, const std::string& crs) {
    const auto corner = [&](int right, int up) {
        return fmt::format("{} {}", x + right * size, y + up * size);
    };
    ReadScene scene;
    scene
        .table("parcels",
               fmt::format("parcel_id,WKT\nA,\"POLYGON (({},{},{},{},{}))\"\n", corner(0, 0),
                           corner(1, 0), corner(1, 1), corner(0, 1), corner(0, 0)))
        .table("stations",
               fmt::format("station_id,WKT\nS1,POINT ({0})\nS2,POINT ({0})\n", corner(0, 0)));
    scene.section("parcels", "crs = \"" + crs + "\"").section("stations", "crs = \"" + crs + "\"");
    return scene;
}

template <class Test>
std::size_t count(const std::vector<Road>& roads, Test test) {
    return static_cast<std::size_t>(std::count_if(roads.begin(), roads.end(), test));
}

std::size_t problems(const ReadResult& read, ProblemId id) {
    const auto& all = read.district.problems;
    return static_cast<std::size_t>(std::count_if(
        all.begin(), all.end(), [id](const Problem& problem) { return problem.id == id; }));
}

}  // namespace

TEST_CASE("miles per hour in tags of OpenStreetMap are posted speeds", "[open-data]") {
    const auto data = open_data();
    if (!data) {
        return;
    }
    ReadScene scene = scene_at(-119.74, 39.52, 0.002, "EPSG:4326");
    scene.source("roads", "/vsigzip/" + *data + "osm_small/reno-east-nv.osm.gz",
                 "schema = \"osm\"");
    const ReadResult read = scene.read();
    const std::vector<Road>& roads = read.district.roads;
    CHECK(count_of(read, "roads") == "1572 = 1572 + 0 + 0");
    CHECK(count(roads, [](const Road& road) { return road.posted_speed.has_value(); }) == 794);
    CHECK(count(roads, [](const Road& road) { return road.posted_speed == mph(65); }) == 97);
    CHECK(count(roads, [](const Road& road) { return road.posted_speed == mph(15); }) == 17);
    // 827 say so, one roundabout does not and need not.
    CHECK(count(roads, [](const Road& road) { return road.one_way == OneWay::forward; }) == 828);
    CHECK(count(roads, [](const Road& road) { return road.one_way == OneWay::backward; }) == 0);
    CHECK(problems(read, ProblemId::number_unreadable) == 0);
    CHECK(problems(read, ProblemId::value_not_mapped) == 0);
}

TEST_CASE("a state's road inventory says 999 and 0 where nothing is recorded", "[open-data]") {
    const auto data = open_data();
    if (!data) {
        return;
    }
    ReadScene scene = scene_at(-72.44, 42.45, 0.002, "EPSG:4326");
    scene.source("roads", *data + "shutesbury_ma/massdot_roadinv_raw.geojson",
                 "columns = { name = \"St_Name\", class = \"F_F_Class\", speed_limit_mph = "
                 "\"Speed_Lim\", width_ft = \"Surface_Wd\", one_way = \"Operation\" }\n"
                 "values = { class = { 4 = \"state\", 5 = \"paved\", 6 = \"paved\", 7 = "
                 "\"paved_lane\" }, one_way = { 1 = \"forward\", 2 = \"both\" } }");
    const ReadResult read = scene.read();
    const std::vector<Road>& roads = read.district.roads;
    CHECK(count_of(read, "roads") == "285 = 285 + 0 + 0");
    CHECK(count(roads, [](const Road& road) { return road.posted_speed == mph(45); }) == 13);
    CHECK(count(roads, [](const Road& road) { return road.posted_speed == mph(50); }) == 4);
    CHECK(count(roads, [](const Road& road) { return road.posted_speed.has_value(); }) == 17);
    CHECK(count(roads, [](const Road& road) { return road.width == feet(20); }) == 42);
    CHECK(count(roads, [](const Road& road) { return road.width.has_value(); }) == 177);
    CHECK(count(roads, [](const Road& road) { return road.access == RoadAccess::closed; }) == 0);
    CHECK(problems(read, ProblemId::number_out_of_range) == 0);
}

TEST_CASE("its operation code unmapped closes the roads instead of turning them round",
          "[open-data]") {
    const auto data = open_data();
    if (!data) {
        return;
    }
    ReadScene scene = scene_at(-72.44, 42.45, 0.002, "EPSG:4326");
    scene.source("roads", *data + "shutesbury_ma/massdot_roadinv_raw.geojson",
                 "columns = { one_way = \"Operation\" }");
    const ReadResult read = scene.read();
    CHECK(count(read.district.roads, [](const Road& road) {
              return road.access == RoadAccess::closed;
          }) == read.district.roads.size());
    CHECK(problems(read, ProblemId::value_not_mapped) == 1);  // one for the whole column
}

TEST_CASE("tags of OpenStreetMap in GeoJSON are read by the same schema", "[open-data]") {
    const auto data = open_data();
    if (!data) {
        return;
    }
    ReadScene scene = scene_at(-72.44, 42.45, 0.002, "EPSG:4326");
    scene.source("roads", *data + "shutesbury_ma/osm_roads.geojson", "schema = \"osm\"");
    const ReadResult read = scene.read();
    const std::vector<Road>& roads = read.district.roads;
    CHECK(count_of(read, "roads") == "1482 = 1328 + 0 + 154");  // 149 paths, 5 footways
    CHECK(count(roads, [](const Road& road) { return road.posted_speed.has_value(); }) == 84);
    CHECK(count(roads, [](const Road& road) { return road.weight_limit == short_tons(10); }) == 1);
    CHECK(count(roads, [](const Road& road) { return road.height_limit == feet(13); }) == 1);
    CHECK(problems(read, ProblemId::number_unreadable) == 1);  // maxheight=below_default
    CHECK(problems(read, ProblemId::value_not_mapped) == 0);
}

TEST_CASE("a county's streets without attributes are narrow roads and say so", "[open-data]") {
    const auto data = open_data();
    if (!data) {
        return;
    }
    ReadScene scene = scene_at(378000, 4700000, 300, "EPSG:26918");
    scene.source("roads", *data + "tompkins_ny/streets.shp");
    const ReadResult read = scene.read();
    CHECK(count_of(read, "roads") == "9202 = 9202 + 0 + 0");
    CHECK(count(read.district.roads, [](const Road& road) {
              return road.kind == RoadClass::narrow && !road.posted_speed;
          }) == read.district.roads.size());
    CHECK(problems(read, ProblemId::road_no_speed) == 1);
    scene.source("roads", *data + "tompkins_ny/streets.shp", "schema = \"mtfcc\"");
    CHECK(scene.refusal().find("needs a column MTFCC") != std::string::npos);
}
