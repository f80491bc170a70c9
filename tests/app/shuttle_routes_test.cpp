// What a run says about the ways of the shuttles: lines, default speeds, bridges to be rated.
#include <algorithm>
#include <cmath>
#include <map>
#include <sstream>

#include <catch2/catch.hpp>
#include <ogrsf_frmts.h>

#include "tests/app/small_district.h"
#include "tests/support/program.h"
#include "tests/support/temporary_folder.h"

using namespace farwater::support;

namespace {

// The small district with a posted road, a bridge that every shuttle crosses and one off the way.
std::filesystem::path write_bridges(const std::filesystem::path& folder) {
    const auto district = write_small_district(folder);
    put(folder / "roads.csv",
        "WKT,name,class,bridge,speed_limit_mph,weight_limit_lb\n"
        "\"LINESTRING(500000 4500000,502000 4500000)\",Main,paved,,30,\n"
        "\"LINESTRING(502000 4500000,502100 4500000)\",Mill Bridge,paved,yes,,\n"
        "\"LINESTRING(502100 4500000,502200 4500000)\",Town Bridge,paved,yes,,90000\n"
        "\"LINESTRING(502200 4500000,504000 4500000)\",Main,paved,,,\n"
        "\"LINESTRING(502000 4500000,502000 4501000)\",Loop Bridge,paved,yes,,\n"
        "\"LINESTRING(502000 4501000,504000 4501000,504000 4500000)\",Loop,paved,,,\n");
    return district;
}

// Rows of a CSV by column; no quote stands in a cell.
std::vector<std::map<std::string, std::string>> rows_of(const std::filesystem::path& file) {
    std::istringstream text(bytes_of(file).substr(3));
    const auto cells = [](const std::string& line) {
        std::vector<std::string> list(1);
        bool quoted = false;
        for (const char letter : line) {
            if (letter == '"') {
                quoted = !quoted;
            } else if (letter == ',' && !quoted) {
                list.emplace_back();
            } else if (letter != '\r') {
                list.back() += letter;
            }
        }
        return list;
    };
    std::string line;
    std::getline(text, line);
    const std::vector<std::string> names = cells(line);
    std::vector<std::map<std::string, std::string>> rows;
    while (std::getline(text, line)) {
        const std::vector<std::string> row = cells(line);
        REQUIRE(row.size() == names.size());
        rows.emplace_back();
        for (std::size_t i = 0; i < row.size(); ++i) {
            rows.back()[names[i]] = row[i];
        }
    }
    return rows;
}

}  // namespace

TEST_CASE("only bridges that a shuttle or first engine crosses unposted are to be rated",
          "[unit]") {
    const TemporaryFolder folder;
    const auto district = write_bridges(folder.path() / "d");
    REQUIRE(run_program(FARWATER_PROGRAM, {"run", district.string()}).exit_code == 0);
    const std::string worklist = bytes_of(folder.path() / "d/result/tables/worklist.csv");
    CHECK(worklist.find("Mill Bridge,find the bridge's rating: apparatus crosses it without one "
                        "for 2 parcels") != std::string::npos);
    CHECK(worklist.find("Town Bridge") == std::string::npos);
    CHECK(worklist.find("Loop Bridge") == std::string::npos);
}

TEST_CASE("an answer says how far the round trip is and how much of it rests on default speeds",
          "[unit]") {
    const TemporaryFolder folder;
    const auto district = write_bridges(folder.path() / "d");
    REQUIRE(run_program(FARWATER_PROGRAM, {"run", district.string()}).exit_code == 0);
    const auto parcels = rows_of(folder.path() / "d/result/tables/shortfalls.csv");
    const auto routes = rows_of(folder.path() / "d/result/tables/shuttle_routes.csv");
    const auto found =
        std::ranges::find_if(parcels, [](const auto& row) { return row.at("parcel_id") == "008"; });
    REQUIRE(found != parcels.end());
    const auto& parcel = *found;
    REQUIRE(routes.size() >= 2);
    double minutes = 0.0;
    double miles = 0.0;
    for (const auto& route : routes) {
        if (route.at("dump_site_id") == parcel.at("dump_site_id")) {
            minutes += std::stod(route.at("drive_min"));
            miles += std::stod(route.at("drive_mi"));
            CHECK(route.at("unposted_bridges") == "1");
            CHECK(route.at("source_id") == "D1");
        }
    }
    CHECK(std::stod(parcel.at("round_trip_min")) == Approx(minutes).margin(0.11));
    CHECK(std::stod(parcel.at("round_trip_mi")) == Approx(miles).margin(0.011));
    // 1,000 m on the posted limit of 30 mph, the rest on the default of 35 (empty 38.5).
    const double posted = 1000.0 / 1609.344 / 30.0 * 60.0;
    const double rest = minutes - 2.0 * posted;
    CHECK(std::stod(parcel.at("default_speed_pct")) ==
          Approx(std::ceil(100.0 * rest / minutes)).margin(1.0));
}

TEST_CASE("the layer of shuttle ways has lines from fill site to dump site", "[unit]") {
    const TemporaryFolder folder;
    const auto district = write_bridges(folder.path() / "d");
    REQUIRE(run_program(FARWATER_PROGRAM, {"run", district.string()}).exit_code == 0);
    GDALAllRegister();
    const GDALDatasetUniquePtr dataset(
        GDALDataset::Open((folder.path() / "d/result/supply.gpkg").c_str(), GDAL_OF_VECTOR));
    REQUIRE(dataset);
    OGRLayer* layer = dataset->GetLayerByName("shuttle_routes");
    REQUIRE(layer != nullptr);
    CHECK(wkbFlatten(layer->GetGeomType()) == wkbLineString);
    for (const auto& feature : layer) {
        const auto* line = feature->GetGeometryRef()->toLineString();
        REQUIRE(line->getNumPoints() >= 2);
        const bool loaded = feature->GetFieldAsString("direction") == std::string("loaded");
        const int at_source = loaded ? 0 : line->getNumPoints() - 1;
        CHECK(line->getX(at_source) == Approx(501000.0));
        CHECK(line->getY(at_source) == Approx(4500000.0));
        CHECK(line->get_Length() / 1609.344 ==
              Approx(feature->GetFieldAsDouble("drive_mi")).margin(0.006));
    }
}

TEST_CASE("a list of closed roads behind the centrelines closes them", "[unit]") {
    const TemporaryFolder folder;
    const auto district = write_small_district(folder.path() / "d");
    const auto supplied = [&] {
        REQUIRE(run_program(FARWATER_PROGRAM, {"run", district.string()}).exit_code == 0);
        return !rows_of(folder.path() / "d/result/tables/shuttle_routes.csv").empty();
    };
    const std::string road = "\"LINESTRING(500000 4500000,502000 4500000)\"";
    const auto roads_with = [&](const std::string& first, const std::string& last) {
        put(folder.path() / "d/roads.csv", "WKT,name,class,access\n" + first +
                                               "\"LINESTRING(502000 4500000,504000 "
                                               "4500000)\",Main,paved,\n" +
                                               last);
    };
    const std::string open = road + ",Main,paved,\n";
    const std::string closed = road + ",,,closed\n";
    roads_with(open, "");
    CHECK(supplied());
    roads_with(open, closed);
    CHECK_FALSE(supplied());
    CHECK(bytes_of(folder.path() / "d/result/tables/data_problems.csv")
              .find("drawn as row 1 (Main); they differ in class, access") != std::string::npos);
    roads_with(closed, open);
    CHECK_FALSE(supplied());
}
