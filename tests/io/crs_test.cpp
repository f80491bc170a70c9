#include "io/crs.h"

#include <cmath>

#include <catch2/catch.hpp>

#include "io/error.h"
#include "io/inputs/working_crs.h"

using namespace farwater;
using namespace farwater::io;

namespace {

// State Plane Massachusetts mainland in US survey feet, as .prj files spell it: no code, other
// names.
const std::string feet_of_a_prj_file =
    R"(PROJCS["NAD_1983_StatePlane_Massachusetts_Mainland_FIPS_2001_Feet",GEOGCS["GCS_North_American_1983",)"
    R"(DATUM["D_North_American_1983",SPHEROID["GRS_1980",6378137.0,298.257222101]],PRIMEM["Greenwich",0.0],)"
    R"(UNIT["Degree",0.0174532925199433]],PROJECTION["Lambert_Conformal_Conic"],)"
    R"(PARAMETER["False_Easting",656166.6666666665],PARAMETER["False_Northing",2460625.0],)"
    R"(PARAMETER["Central_Meridian",-71.5],PARAMETER["Standard_Parallel_1",41.71666666666667],)"
    R"(PARAMETER["Standard_Parallel_2",42.68333333333333],PARAMETER["Latitude_Of_Origin",41.0],)"
    R"(UNIT["Foot_US",0.3048006096012192]])";

// A town of New Hampshire, in degrees.
constexpr CrsExtent town{-72.18, 43.13, -72.01, 43.26};

CrsExtent in_crs(const std::string& code, const CrsExtent& degrees) {
    const WorkingCrs plane = described_crs(crs_from_text(code), "", 0.0);
    const ToPlane to_plane(crs_from_text("EPSG:4326"), plane);
    const Point low = to_plane(degrees.west, degrees.south).value();
    const Point high = to_plane(degrees.east, degrees.north).value();
    const double unit = plane.metres_per_unit;
    return {low.x / unit, low.y / unit, high.x / unit, high.y / unit};
}

WorkingCrs chosen(const std::string& given, const std::string& parcels,
                  const CrsExtent& degrees = town) {
    const bool plain = parcels == "EPSG:4326";
    return choose_working_crs(given, crs_from_text(parcels),
                              plain ? degrees : in_crs(parcels, degrees));
}

}  // namespace

TEST_CASE("x is east and y is north whatever the authority's axis order") {
    // 26986 of (-71.06, 42.36), as gdaltransform 3.6.2 gives it.
    const ToPlane to_plane(crs_from_text("EPSG:4326"),
                           described_crs(crs_from_text("EPSG:26986"), "", 0.0));
    const Point place = to_plane(-71.06, 42.36).value();
    CHECK(place.x == Approx(236246.8).margin(0.1));
    CHECK(place.y == Approx(901149.1).margin(0.1));
}

TEST_CASE("the plane is in metres whatever the unit of the working CRS") {
    const Crs degrees = crs_from_text("EPSG:4326");
    const ToPlane in_feet(degrees, described_crs(crs_from_text("EPSG:2249"), "", 0.0));
    const ToPlane in_metres(degrees, described_crs(crs_from_text("EPSG:26986"), "", 0.0));
    const Point a = in_feet(-71.06, 42.36).value();
    const Point b = in_metres(-71.06, 42.36).value();
    CHECK(a.x == Approx(b.x).margin(0.001));
    CHECK(a.y == Approx(b.y).margin(0.001));
    const ToPlane same(crs_from_text("EPSG:2249"),
                       described_crs(crs_from_text("EPSG:2249"), "", 0.0));
    CHECK(same(1000.0, 2000.0)->x == Approx(304.800609601).epsilon(1e-12));
}

TEST_CASE("a place that a CRS cannot draw has no point") {
    const ToPlane to_plane(crs_from_text("EPSG:4326"),
                           described_crs(crs_from_text("EPSG:2249"), "", 0.0));
    CHECK_FALSE(to_plane(-71.5, -90.0));
    CHECK_FALSE(to_plane(0.0, 500.0));
    CHECK_FALSE(to_plane(std::nan(""), 42.0));
}

TEST_CASE("a CRS is known by its numbers, not by its code or names") {
    const Crs prj = crs_from_text(feet_of_a_prj_file);
    REQUIRE(prj);
    CHECK(same_crs(prj, crs_from_text("EPSG:2249")));
    CHECK_FALSE(same_crs(prj, crs_from_text("EPSG:26986")));
    CHECK_FALSE(same_crs(crs_from_text("EPSG:32618"), crs_from_text("EPSG:32619")));
    CHECK(same_crs(crs_from_text("EPSG:4326"), crs_from_text("OGC:CRS84")));
    CHECK_FALSE(same_crs(crs_from_text("EPSG:4326"), crs_from_text("EPSG:32618")));
    CHECK_FALSE(same_crs(nullptr, nullptr));
}

TEST_CASE("text that names no CRS on earth is none") {
    CHECK_FALSE(crs_from_text("EPSG:999999"));
    CHECK_FALSE(crs_from_text(""));
    CHECK_FALSE(crs_from_text("Maine"));
    CHECK_FALSE(crs_from_text(R"(LOCAL_CS["plan",UNIT["metre",1]])"));
    CHECK_FALSE(crs_from_text(
        R"(GEOGCS["Undefined geographic SRS",DATUM["unknown",SPHEROID["unknown",6378137,298.257223563]],)"
        R"(PRIMEM["Greenwich",0],UNIT["degree",0.0174532925199433]])"));
    CHECK_FALSE(crs_from_layer(nullptr));
}

TEST_CASE("heights are stripped from a compound CRS") {
    const Crs crs = crs_from_text("EPSG:32618+5703");
    REQUIRE(crs);
    CHECK(same_crs(crs, crs_from_text("EPSG:32618")));
}

TEST_CASE("by default the working CRS is the parcels' own") {
    const WorkingCrs utm = chosen("", "EPSG:32618");
    CHECK(utm.code == "EPSG:32618");
    CHECK(utm.name == "WGS 84 / UTM zone 18N");
    CHECK(utm.chosen == "the parcels' own");
    CHECK(utm.metres_per_unit == 1.0);
    const WorkingCrs feet = chosen("", "EPSG:3437");  // New Hampshire, US survey feet
    CHECK(feet.code == "EPSG:3437");
    CHECK(feet.metres_per_unit == Approx(0.304800609601219).epsilon(1e-14));
    CHECK(feet.worst_scale_error < 1e-4);
}

TEST_CASE("a .prj file's CRS is worked in under its authority's code") {
    const Crs from_prj = crs_from_layer(crs_from_text(feet_of_a_prj_file).get());
    CHECK(code_of(from_prj) == "EPSG:2249");
}

TEST_CASE("parcels in degrees are worked in their UTM zone") {
    const WorkingCrs utm = chosen("", "EPSG:4326");
    CHECK(utm.code == "EPSG:32618");
    CHECK(
        utm.chosen ==
        "the UTM zone of the parcels' centre, since the parcels' own EPSG:4326 (WGS 84) is unfit: "
        "it is not projected: degrees are no distance");
    CHECK(utm.worst_scale_error < 1e-3);
    CHECK(chosen("", "EPSG:4326", {21.0, -34.2, 21.4, -34.0}).code == "EPSG:32734");
    CHECK(chosen("", "EPSG:4326", {179.8, -17.0, 179.99, -16.9}).code == "EPSG:32760");
}

TEST_CASE("web Mercator is never worked in") {
    CHECK(chosen("", "EPSG:3857").code == "EPSG:32618");
    CHECK_THROWS_WITH(chosen("EPSG:3857", "EPSG:4326"),
                      "crs = \"EPSG:3857\" cannot be the working CRS: web Mercator stretches "
                      "lengths; leave crs out, or "
                      "name a projected one such as EPSG:32618");
}

TEST_CASE("an equal-area CRS is not worked in") {
    const WorkingCrs utm = chosen("", "EPSG:5070");  // Albers
    CHECK(utm.code == "EPSG:32618");
    CHECK(utm.chosen.find("it is not conformal") != std::string::npos);
    CHECK_THROWS_AS(chosen("EPSG:5070", "EPSG:4326"), SettingsError);
}

TEST_CASE("a zone far away is not worked in because its lengths are off") {
    const WorkingCrs near = chosen("", "EPSG:32617");
    CHECK(near.code == "EPSG:32618");
    CHECK(near.chosen.find("its lengths are off by up to") != std::string::npos);
    CHECK_THROWS_WITH(
        chosen("EPSG:3395", "EPSG:4326"),
        Catch::Contains("its lengths are off by up to") && Catch::Contains("per thousand"));
}

TEST_CASE("a working CRS that is set is taken when it is fit") {
    const WorkingCrs working = chosen("EPSG:3437", "EPSG:4326");
    CHECK(working.code == "EPSG:3437");
    CHECK(working.chosen == "set by crs in the district file");
    CHECK_THROWS_AS(chosen("EPSG:4326", "EPSG:4326"), SettingsError);
    CHECK_THROWS_AS(chosen("EPSG:0", "EPSG:4326"), SettingsError);
}

TEST_CASE("scale errors are those of the published formulas") {
    // Transverse Mercator on its central meridian: k0 = 0.9996.
    const auto on_meridian = fidelity_of(crs_from_text("EPSG:32618"), crs_from_text("EPSG:4326"),
                                         {-75.0001, 43.0, -74.9999, 43.0002});
    REQUIRE(on_meridian);
    CHECK(on_meridian->worst_scale_error == Approx(0.0004).epsilon(1e-3));
    CHECK(on_meridian->worst_skew < 1e-7);
    // Mercator at 60 degrees of a sphere: 1 / cos 60 = 2; 0.3 % more or less on the ellipsoid.
    const auto mercator =
        fidelity_of(crs_from_text("EPSG:3395"), crs_from_text("EPSG:4326"), {0, 59.999, 0.001, 60});
    REQUIRE(mercator);
    CHECK(mercator->worst_scale_error == Approx(1.0).epsilon(0.01));
}

TEST_CASE("an extent that no plane draws truly is refused") {
    CHECK_THROWS_WITH(chosen("", "EPSG:4326", {-72.18, 0.0, 0.0, 43.26}),
                      "parcels: they extend over x -72.18 to 0, y 0 to 43.26 of EPSG:4326 (WGS "
                      "84), too far for one "
                      "plane; look for stray parcels, or take the district's own with where.");
}

TEST_CASE("coordinates that are no place on earth are refused") {
    CHECK_THROWS_WITH(
        choose_working_crs("", crs_from_text("EPSG:4326"), {229000, 900000, 230000, 901000}),
        "parcels: their coordinates (x 229000 to 230000, y 900000 to 901000) are no place in "
        "EPSG:4326 "
        "(WGS 84); correct the layer's crs in [parcels].");
}
