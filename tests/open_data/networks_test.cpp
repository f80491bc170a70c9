// The road networks of real places: what joining crossings changes, and what is reported.
#include <algorithm>
#include <map>
#include <string>

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include "routing/access.h"
#include "routing/gaps.h"
#include "routing/islands.h"
#include "routing/network.h"
#include "tests/io/read_scene.h"
#include "tests/open_data/open_data.h"

using namespace farwater;

namespace {

// A road layer, and where in it one square parcel and the stations stand, so that roads alone are
// looked at.
struct Place {
    std::string set;
    std::string roads;  // file
    std::string more;   // of the section [roads]
    std::string crs;    // of the corner
    double x = 0.0, y = 0.0;
    double size = 0.0;
};

District read(const Place& place, const std::filesystem::path& data) {
    const auto corner = [&](int right, int up) {
        return fmt::format("{} {}", place.x + right * place.size, place.y + up * place.size);
    };
    io::ReadScene scene;
    scene
        .table("parcels",
               fmt::format("parcel_id,WKT\nA,\"POLYGON (({},{},{},{},{}))\"\n", corner(0, 0),
                           corner(1, 0), corner(1, 1), corner(0, 1), corner(0, 0)))
        .table("stations",
               fmt::format("station_id,WKT\nS1,POINT ({0})\nS2,POINT ({0})\n", corner(0, 0)))
        .section("parcels", "crs = \"" + place.crs + "\"")
        .section("stations", "crs = \"" + place.crs + "\"")
        .source("roads", (data / place.set / place.roads).string(), place.more);
    return scene.read().district;
}

struct Found {
    int parts = 0;
    std::size_t nodes = 0;
    std::size_t edges = 0;
    std::map<ProblemId, int> problems;

    int count(ProblemId id) const { return problems.contains(id) ? problems.at(id) : 0; }
};

Found found_in(District district, bool join_crossings) {
    district.assumptions.join_crossings = join_crossings;
    const auto [network, problems] = routing::build_network(district, Work{});
    const auto access = routing::find_access(district, network, {}, Work{}).access;
    Found found{1 + *std::ranges::max_element(network.component),
                network.nodes.size(),
                network.edges.size(),
                {}};
    std::vector<Problem> all = problems;
    for (const auto& more : {routing::gap_problems(district, network, Work{}),
                             routing::island_problems(district, network, access, Work{})}) {
        all.insert(all.end(), more.begin(), more.end());
    }
    for (const Problem& problem : all) {
        ++found.problems[problem.id];
    }
    return found;
}

}  // namespace

TEST_CASE("roads of Swellendam are drawn through their junctions", "[open-data]") {
    const Place place{"swellendam_za",
                      "training_data.gpkg",
                      "layer = \"roads\"\ncolumns = { name = \"name\", bridge = \"bridge\", tunnel "
                      "= \"tunnel\", level = \"layer\" }",
                      "EPSG:32734",
                      440000,
                      6235000,
                      300};
    const auto data = open_data::folder_of(place.set);
    if (!data) {
        return;
    }
    const District district = read(place, *data);
    const Found apart = found_in(district, false);
    const Found joined = found_in(district, true);
    CHECK(apart.parts == 5);  // the data's own README: split at shared vertices
    CHECK(joined.parts == 5);
}

TEST_CASE("the state's inventory of Shutesbury is drawn through its junctions", "[open-data]") {
    const Place place{"shutesbury_ma",
                      "massdot_roadinv_raw.geojson",
                      "columns = { name = \"St_Name\" }",
                      "EPSG:4326",
                      -72.44,
                      42.45,
                      0.002};
    const auto data = open_data::folder_of(place.set);
    if (!data) {
        return;
    }
    const District district = read(place, *data);
    const Found apart = found_in(district, false);
    const Found joined = found_in(district, true);
    CHECK(apart.parts == 6);  // the data's own README: split at shared vertices
    CHECK(joined.parts == 6);
}

TEST_CASE("OpenStreetMap's roads of Shutesbury are drawn through their junctions", "[open-data]") {
    const Place place{"shutesbury_ma",
                      "osm_roads.geojson",
                      "schema = \"osm\"",
                      "EPSG:4326",
                      -72.44,
                      42.45,
                      0.002};
    const auto data = open_data::folder_of(place.set);
    if (!data) {
        return;
    }
    const District district = read(place, *data);
    const Found apart = found_in(district, false);
    const Found joined = found_in(district, true);
    CHECK(apart.parts > 1);
    CHECK(joined.parts == apart.parts);  // no road crosses another without a junction
}

TEST_CASE("the streets of Tompkins County are drawn from junction to junction", "[open-data]") {
    const Place place{"tompkins_ny", "streets.shp", "", "EPSG:26918", 378000, 4700000, 300};
    const auto data = open_data::folder_of(place.set);
    if (!data) {
        return;
    }
    const District district = read(place, *data);
    const Found apart = found_in(district, false);
    const Found joined = found_in(district, true);
    CHECK(apart.parts == 9);  // the data's own README
    CHECK(joined.parts == 9);
}

TEST_CASE("the roads of Washington are one network", "[open-data]") {
    const Place place{"washington_nh", "roads.geojson", "", "EPSG:4326", -72.1, 43.18, 0.002};
    const auto data = open_data::folder_of(place.set);
    if (!data) {
        return;
    }
    const District district = read(place, *data);
    const Found apart = found_in(district, false);
    const Found joined = found_in(district, true);
    CHECK(apart.parts == 1);  // the data's own README
    CHECK(joined.parts == 1);
}
