// Buildings for the methods of needed flow: their columns, their separation, and what is odd in
// them.
#include <catch2/catch.hpp>

#include "tests/io/read_scene.h"

using namespace farwater;
using namespace farwater::io;

namespace {

// A rectangle of the scene, by its lower left corner in metres from 700000, 4770000.
std::string box(double x, double y, double width, double depth) {
    const auto corner = [&](double dx, double dy) {
        return std::to_string(700000 + x + dx) + " " + std::to_string(4770000 + y + dy);
    };
    return "\"POLYGON ((" + corner(0, 0) + "," + corner(width, 0) + "," + corner(width, depth) +
           "," + corner(0, depth) + "," + corner(0, 0) + "))\"";
}

ReadScene scene_with(const std::string& buildings, const std::string& need = "rural_supply") {
    return ReadScene().layer("buildings", buildings).end("[need]\nmethod = \"" + need + "\"\n");
}

}  // namespace

TEST_CASE("a building's columns are read, and its parcel's stand in for those that are blank") {
    const ReadResult read =
        scene_with(
            "building_id,use,construction,storeys,height_ft,eaves_ft,hazard_class,sprinklers,WKT\n"
            "b1,barn,type_3b,1.5,26,14,5,nfpa_13," +
            box(10, 10, 20, 10) +
            "\n"
            "b2,,,,,,,," +
            box(40, 10, 20, 10) + "\n")
            .layer("parcels",
                   "parcel_id,use,construction,storeys,WKT\n"
                   "A,store,type_2b,3,\"POLYGON ((700000 4770000,700100 4770000,700100 "
                   "4770100,700000 4770100,700000 4770000))\"\n")
            .read();
    const auto& buildings = read.district.buildings;
    REQUIRE(buildings.size() == 2);
    CHECK(buildings[0].parcel == ParcelIndex(0));
    CHECK(buildings[0].area_m2 == Approx(200.0));
    const BuildingTraits& barn = buildings[0].traits;
    CHECK(barn.use == BuildingUse::barn);
    CHECK(barn.construction == Construction::type_3b);
    CHECK(barn.storeys == 1.5F);
    CHECK(barn.height_m == Approx(26 * 0.3048));
    CHECK(barn.eaves_m == Approx(14 * 0.3048));
    CHECK(barn.hazard_class == 5);
    CHECK(barn.sprinklers == Sprinklers::nfpa_13);
    const BuildingTraits& other = buildings[1].traits;
    CHECK(other.use == BuildingUse::store);
    CHECK(other.construction == Construction::type_2b);
    CHECK(other.storeys == 3.0F);
    CHECK_FALSE(other.sprinklers);
    CHECK(buildings[0].separation.nearest_large_m == Approx(10.0));  // within 50 ft
}

TEST_CASE("buildings are kept only where the needed flow goes by them") {
    const std::string one = "building_id,WKT\nb1," + box(10, 10, 20, 10) + "\n";
    CHECK(scene_with(one, "column").read().district.buildings.empty());
    CHECK(scene_with(one, "fixed").read().district.buildings.empty());
    CHECK(scene_with(one, "fire_code").read().district.buildings.size() == 1);
}

TEST_CASE("what cannot be true of a building is a problem and not known") {
    const ReadScene scene = scene_with(
        "building_id,use,construction,storeys,height_ft,eaves_ft,hazard_class,sprinklers,WKT\n"
        "b1,castle,,,,,,," +
        box(10, 10, 20, 10) +
        "\n"
        "b2,,stone,,,,,," +
        box(10, 60, 20, 10) +
        "\n"
        "b3,,,300,,,,," +
        box(110, 10, 20, 10) +
        "\n"
        "b4,,,,10,12,,," +
        box(110, 60, 20, 10) +
        "\n"
        "b5,,,,,,2,perhaps," +
        box(210, 10, 20, 10) +
        "\n"
        "b6,,,,,,,," +
        box(210, 60, 1, 1) + "\n");
    CHECK(
        scene.sentences() ==
        Sentences{
            "buildings (buildings.csv), record b1, column use: holds a word that is not in the "
            "list; the value counts as not known (\"castle\"); use a word of the list.",
            "buildings (buildings.csv), record b2, column construction: holds a word that is not "
            "in the list; the value counts as not known (\"stone\"); use a word of the list.",
            "buildings (buildings.csv), record b3, column storeys: holds a number that cannot be "
            "right; the value counts as not known (300 is not within 0.5 to 110); check the "
            "value and its unit.",
            "buildings (buildings.csv), record b4, column eaves_ft: has eaves above its highest "
            "part; the eaves count as not known (12.0 ft over 10.0 ft); check which of the two "
            "columns is which.",
            "buildings (buildings.csv), record b5, column hazard_class: holds a number that "
            "cannot be right; the value counts as not known (2 is not within 3 to 7); check the "
            "value and its unit.",
            "buildings (buildings.csv), record b5, column sprinklers: holds a word that is not in "
            "the list; the value counts as not known (\"perhaps\"); use a word of the list.",
            "buildings (buildings.csv), record b6: has a footprint that no building has; its area "
            "counts as not known (10.8 square feet); draw it again, or delete it."});
    const ReadResult read = scene.read();
    CHECK(count_of(read, "buildings") == "6 = 6 + 0 + 0");
    REQUIRE(read.district.buildings.size() == 6);
    CHECK(read.district.buildings[2].traits.storeys == 0.0F);
    CHECK(read.district.buildings[5].area_m2 == 0.0F);
}

TEST_CASE("a building drawn as a point has the area and storeys that columns tell, and no walls") {
    const ReadScene scene = scene_with(
        "building_id,use,area_sqft,storeys,WKT\n"
        "b1,dwelling,1800,2,POINT (700020 4770020)\n"
        "b2,,,,POINT (700120 4770020)\n"
        "b3,castle,0,300,POINT (700220 4770020)\n"
        "b4,,1000,1," +
        box(240, 60, 20, 10) +
        "\n"
        "b5,,1000,1," +
        box(270, 60, 1, 1) + "\n");
    CHECK(
        scene.sentences() ==
        Sentences{
            "buildings (buildings.csv), record b3, column use: holds a word that is not in the "
            "list; the value counts as not known (\"castle\"); use a word of the list.",
            "buildings (buildings.csv), record b3, column storeys: holds a number that cannot be "
            "right; the value counts as not known (300 is not within 0.5 to 110); check the "
            "value and its unit.",
            "buildings (buildings.csv), record b3, column area_sqft: holds a number that cannot "
            "be right; the value counts as not known (0 is not within 20 to 5000000); check the "
            "value and its unit.",
            "buildings (buildings.csv), record b5: has a footprint that no building has; its area "
            "counts as not known (10.8 square feet); draw it again, or delete it."});
    const ReadResult read = scene.read();
    CHECK(count_of(read, "buildings") == "5 = 5 + 0 + 0");
    const auto& buildings = read.district.buildings;
    REQUIRE(buildings.size() == 5);
    const auto sqft = [&](std::size_t i) {
        return static_cast<double>(buildings[i].area_m2) / (0.3048 * 0.3048);
    };
    CHECK(sqft(0) == Approx(1800));
    CHECK(buildings[0].traits.storeys == 2.0F);
    CHECK_FALSE(buildings[0].separation.known);
    CHECK(buildings[1].area_m2 == 0.0F);
    CHECK(buildings[2].area_m2 == 0.0F);
    CHECK(buildings[2].traits.storeys == 0.0F);
    CHECK_FALSE(buildings[2].traits.use);
    CHECK(buildings[3].area_m2 == Approx(200.0));  // a good outline goes first
    CHECK(buildings[3].separation.known);
    CHECK(sqft(4) == Approx(1000));
    CHECK_FALSE(buildings[4].separation.known);
}

TEST_CASE(
    "a building across two parcels counts once and is told, but a sliver is how lines are drawn") {
    const ReadScene scene = scene_with("building_id,WKT\nb1," + box(90, 40, 30, 10) + "\nb2," +
                                       box(181, 40, 20, 10) + "\n");
    CHECK(scene.sentences() ==
          Sentences{"buildings (buildings.csv), record b1: lies on more than one parcel; it counts "
                    "for the one that holds its inside point (33 % of it on parcel A); check the "
                    "parcel lines there."});
    const ReadResult read = scene.read();
    REQUIRE(read.district.buildings.size() == 2);
    CHECK(read.district.buildings[0].parcel == ParcelIndex(1));
    CHECK(read.district.buildings[1].parcel == ParcelIndex(1));
    CHECK_FALSE(read.district.parcels[0].improved);
}

TEST_CASE("a building in no parcel is set aside and is a neighbour all the same") {
    const ReadResult read = scene_with("building_id,WKT\nb1," + box(285, 40, 10, 10) + "\nb2," +
                                       box(301, 40, 10, 10) + "\n")
                                .read();
    REQUIRE(read.district.buildings.size() == 1);
    CHECK(read.district.buildings[0].separation.nearest_large_m == Approx(6.0));
    CHECK(count_of(read, "buildings") == "2 = 1 + 0 + 1");
}

// The tables count whole feet: 30.66 m are 100.6 ft and stand under "up to 100".
TEST_CASE("neighbours are looked for as far as a table of whole feet asks") {
    const auto gap = [](double metres_off) {
        const ReadResult read = scene_with("building_id,WKT\nb1," + box(10, 10, 10, 10) + "\nb2," +
                                               box(20 + metres_off, 10, 10, 10) + "\n",
                                           "rating_schedule")
                                    .read();
        return static_cast<double>(read.district.buildings[0].separation.nearest_large_m);
    };
    CHECK(gap(30.66) == Approx(30.66));
    CHECK(gap(30.78) == Approx(30.78));  // 100.98 ft
    CHECK(gap(30.79) > 1e6);             // 101.02 ft: none
}

// So a parcel does not lose its building, and with it its need, by how badly it is drawn.
TEST_CASE("a building that encloses nothing stands at its first corner, of unknown size") {
    const ReadScene scene = scene_with("building_id,WKT\nb1," + box(10, 10, 0, 0) + "\nb2," +
                                       box(50, 10, 20, 0) + "\n");
    const ReadResult read = scene.read();
    REQUIRE(read.district.buildings.size() == 2);
    CHECK(read.district.buildings[0].area_m2 == 0.0F);
    CHECK(read.district.buildings[0].place.x == Approx(700010));
    CHECK(read.district.buildings[1].place.x == Approx(700050));
    CHECK(read.district.parcels[0].improved);
    CHECK(count_of(read, "buildings") == "2 = 0 + 2 + 0");
    REQUIRE_FALSE(scene.sentences().empty());
    CHECK_THAT(scene.sentences().front(),
               Catch::Contains("record b1") && Catch::Contains("its first corner is its place"));
}

TEST_CASE("a building drawn twice is told, each near to the other") {
    const ReadScene scene = scene_with("building_id,WKT\nb1," + box(10, 40, 20, 10) + "\nb2," +
                                       box(11, 41, 20, 10) + "\n");
    CHECK(scene.sentences() ==
          Sentences{"buildings (buildings.csv), record b2: covers much of another building; both "
                    "count, each as near to the other (b1); delete one of the two, if they are one "
                    "building."});
    CHECK(scene.read().district.buildings[0].separation.nearest_m == 0.0F);
}

TEST_CASE("a method that works on footprints needs a layer of them") {
    CHECK_THROWS_WITH(ReadScene().end("[need]\nmethod = \"rural_supply\"\n").district_file(),
                      Catch::Contains("[need] method = \"rural_supply\" works on footprints: add "
                                      "[buildings]"));
    CHECK_THROWS_WITH(
        ReadScene().end("[need]\nmethod = \"column\"\nstandard = \"x.toml\"\n").district_file(),
        Catch::Contains("rests on no standard"));
    CHECK_THROWS_WITH(scene_with("building_id,WKT\nb1," + box(10, 40, 20, 10) + "\n",
                                 "rural_supply\"\nstandard = \"gone.toml")
                          .district_file(),
                      Catch::Contains("gone.toml: there is no such file"));
    CHECK_THROWS_WITH(ReadScene().end("[need]\nmethod = \"guess\"\n").district_file(),
                      Catch::Contains("rural_supply"));
}

TEST_CASE("a district's own copy of a standard lies beside its file") {
    ReadScene scene = scene_with("building_id,WKT\nb1," + box(10, 40, 20, 10) + "\n",
                                 "rural_supply\"\nstandard = \"own.toml");
    scene.file("own.toml", "[supply]\nleast_gal = 2500\n");
    const DistrictFile file = scene.district_file();
    CHECK(file.need.standard.number("supply.least_gal") == 2500.0);
    CHECK(file.own_standard == scene / "own.toml");
}
