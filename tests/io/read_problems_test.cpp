// One spoilt record for each problem that reading can find, and the sentence that a person gets.
#include <catch2/catch.hpp>

#include "tests/io/read_scene.h"

using namespace farwater;
using namespace farwater::io;
using namespace std::chrono_literals;

namespace {

const std::string good_road = "state,\"LINESTRING (700000 4769990,700300 4769990)\"\n";

// Roads with one more record behind a good one.
ReadScene with_road(const std::string& row) {
    ReadScene scene;
    scene.layer("roads", "class,WKT\n" + good_road + row + "\n");
    return scene;
}

// Apparatus with one more unit behind two good ones.
ReadScene with_unit(const std::string& columns, const std::string& row) {
    ReadScene scene;
    const std::string blanks(
        static_cast<std::size_t>(std::count(columns.begin(), columns.end(), ',')), ',');
    scene.table("apparatus", "unit_id,station_id,kind,tank_gal" + columns + "\nE1,S1,engine,1000" +
                                 blanks + "\nT1,S1,tanker,2000" + blanks + "\n" + row + "\n");
    return scene;
}

ReadScene with_source(const std::string& columns, const std::string& row) {
    ReadScene scene;
    const std::string blanks(
        static_cast<std::size_t>(std::count(columns.begin(), columns.end(), ',')), ',');
    scene.layer("water_sources", "source_id,kind,WKT" + columns +
                                     "\nH1,hydrant,POINT (700050 4769990)" + blanks + "\n" + row +
                                     "\n");
    return scene;
}

}  // namespace

TEST_CASE("a record without geometry is set aside") {
    const ReadScene scene = with_road("state,");
    CHECK(scene.sentences() ==
          Sentences{"roads (roads.csv), row 2: has no geometry; draw it, or delete the record."});
    CHECK(count_of(scene.read(), "roads") == "2 = 1 + 0 + 1");
}

TEST_CASE("a record with an empty geometry is set aside") {
    CHECK(with_road("state,LINESTRING EMPTY").sentences() ==
          Sentences{
              "roads (roads.csv), row 2: has an empty geometry; draw it, or delete the record."});
}

TEST_CASE("a record with the wrong kind of geometry is set aside") {
    CHECK(with_road("state,POINT (700000 4770000)").sentences() ==
          Sentences{"roads (roads.csv), row 2: has a geometry of the wrong kind (POINT); name the "
                    "right layer in the "
                    "district file."});
    CHECK(with_source("", "P,hydrant,\"LINESTRING (700000 4770000,700001 4770000)\"").sentences() ==
          Sentences{"water_sources (water_sources.csv), record P: has a geometry of the wrong kind "
                    "(LINESTRING); name the "
                    "right layer in the district file."});
}

TEST_CASE("an invalid polygon is repaired, used, and kept for the writer") {
    ReadScene scene;
    scene.layer("parcels",
                "parcel_id,WKT\nA,\"POLYGON ((700000 4770000,700100 4770100,700100 4770000,700000 "
                "4770100,700000 "
                "4770000))\"\n");
    CHECK(scene.sentences() ==
          Sentences{
              "parcels (parcels.csv), record A: crosses or touches itself and was repaired; check "
              "the repaired shape in the result."});
    const ReadResult read = scene.read();
    CHECK(count_of(read, "parcels") == "1 = 0 + 1 + 0");
    REQUIRE(read.repaired_parcels.size() == 1);
    CHECK(read.repaired_parcels[0].row == 0);
    CHECK(read.repaired_parcels[0].wkb[0] == 1);  // little endian
    CHECK(read.repaired_parcels[0].wkb[1] == 6);  // multipolygon: two triangles
}

TEST_CASE("parts of a road without length are left out, and it is said") {
    CHECK(with_road("state,\"MULTILINESTRING ((700000 4769990,700000 4769990),(700000 "
                    "4769990,700100 4769990))\"")
              .sentences() == Sentences{"roads (roads.csv), row 2: crosses or touches itself and "
                                        "was repaired (parts without length were left "
                                        "out); check the repaired shape in the result."});
}

TEST_CASE("a polygon without area is beyond repair") {
    ReadScene scene;
    scene.layer("parcels",
                "parcel_id,WKT\nA,\"POLYGON ((700000 4770000,700100 4770000,700100 4770100,700000 "
                "4770000))\"\n"
                "B,\"POLYGON ((700000 4770000,700100 4770100,700200 4770200,700000 4770000))\"\n");
    CHECK(scene.sentences() == Sentences{"parcels (parcels.csv), record B: has a geometry that "
                                         "cannot be repaired; draw it again."});
}

TEST_CASE("a record far away is set aside, with both places named") {
    CHECK(with_source("", "P,hydrant,POINT (0 0)").sentences() ==
          Sentences{"water_sources (water_sources.csv), record P: lies far outside the district "
                    "(it lies within x 0 to 0, y 0 "
                    "to 0, the parcels within x 700000 to 700300, y 4770000 to 4770100); check the "
                    "layer's coordinate "
                    "system."});
}

// A vertex that was never set, or lost its point, made places for dump sites all the way there.
TEST_CASE("a road with a vertex that is no place is set aside, with both ends of the leap") {
    CHECK(with_road("state,\"LINESTRING (700000 4769990,0 0,700300 4769990)\"").sentences() ==
          Sentences{"roads (roads.csv), row 2: lies far outside the district (it leaps from x "
                    "700000, y 4769990 to x 0, y 0); check the layer's coordinate system."});
    CHECK(with_road("state,\"LINESTRING (700000 4769990,1e308 4769990)\"").sentences() ==
          Sentences{"roads (roads.csv), row 2: lies far outside the district (it leaps from x "
                    "700000, y 4769990 to x 1e+308, y 4769990); check the layer's coordinate "
                    "system."});
    CHECK(with_road("state,\"LINESTRING (700000 4769990,799000 4769990)\"").sentences().empty());
}

TEST_CASE("a point without a shape stands where its columns x and y say") {
    ReadScene scene;
    scene
        .table("water_sources",
               "ID,kind,LON,LAT\nH1,hydrant,-72.5483,43.0553\nH2,hydrant,-72.5483,\n"
               "H3,hydrant,\"-72,5483\",43.0553\n")
        .section("water_sources",
                 "crs = \"EPSG:4326\"\ncolumns = { source_id = \"ID\", x = \"LON\", y = \"LAT\" }");
    const ReadResult read = scene.read();
    REQUIRE(read.district.sources.size() == 1);
    CHECK(read.district.sources[0].place.x == Approx(699659.0).margin(0.1));  // by PROJ
    CHECK(read.district.sources[0].place.y == Approx(4769873.0).margin(0.1));
    CHECK(scene.sentences() ==
          Sentences{
              "water_sources (water_sources.csv), record H2: has no geometry; draw it, or delete "
              "the record.",
              "water_sources (water_sources.csv), record H3, column LON: lacks a value without "
              "which it says nothing (\"-72,5483\" is no coordinate; write it with a decimal "
              "point, not a comma); fill it in."});
}

// Degrees have no thousands: -72,548 would be read as -72548 and lie nowhere.
TEST_CASE("a table whose coordinates have decimal commas is refused with the text of the first") {
    for (const char* x : {"-72,548", "-72,5483"}) {
        ReadScene scene;
        scene.table("stations", "station_id;x;y\nS1;" + std::string(x) + ";43,055\n")
            .section("stations", "crs = \"EPSG:4326\"");
        CHECK(scene.refusal().find("column x: lacks a value without which it says nothing (\"" +
                                   std::string(x) +
                                   "\" is no coordinate; write it with a decimal point, not a "
                                   "comma)") != std::string::npos);
        scene.table("stations", "station_id,x,y\nS1,\"" + std::string(x) + "\",43.0553\n");
        CHECK(scene.refusal().find("with a decimal point") != std::string::npos);
    }
}

TEST_CASE("coordinates by columns of our own names need no word") {
    ReadScene scene;
    scene.table("stations", "station_id,X,Y\nS1,700010,4769995\nS2,700290,4769995\n");
    CHECK(scene.sentences().empty());
    CHECK(scene.read().district.stations.at(1).place == Point{700290, 4769995});
}

TEST_CASE("a point that lies elsewhere by a slip of the hand is told the slip") {
    ReadScene scene;
    const auto told = [&](const std::string& x, const std::string& y) {
        scene
            .table("dump_site_places",
                   "place_id,x,y\nfar," + x + "," + y + "\nnear,-72.5483,43.0553\n")
            .section("dump_site_places", "crs = \"EPSG:4326\"");
        return scene.sentences().at(0);
    };
    CHECK(told("43.0553", "-72.5483").find("it would lie there with x and y exchanged)") !=
          std::string::npos);
    CHECK(told("72.5483", "43.0553").find("it would lie there with the other sign of x)") !=
          std::string::npos);
    CHECK(told("12", "47").find("would") == std::string::npos);
}

TEST_CASE("a number that is no plain number is not known") {
    const ReadScene scene =
        with_unit("", "T2,S2,tanker,\"1,20\"\nE2,S2,engine,none\nE3,S2,engine,750 gpm");
    CHECK(scene.sentences() ==
          Sentences{
              "apparatus (apparatus.csv), record T2, column tank_gal: holds something that is no "
              "plain number; the value "
              "counts as not known (\"1,20\"; a comma only parts thousands, in groups of three "
              "figures); write digits only, with a point for decimals.",
              "apparatus (apparatus.csv), record T2, column tank_gal: is a tanker without a tank "
              "size; give its gallons.",
              "apparatus (apparatus.csv), record E2, column tank_gal: holds something that is no "
              "plain number; the value "
              "counts as not known (\"none\"); write digits only, with a point for decimals.",
              "apparatus (apparatus.csv), record E2, column tank_gal: has no tank size; a small "
              "one is taken (300 gal); give tank_gal.",
              "apparatus (apparatus.csv), record E3, column tank_gal: holds something that is no "
              "plain number; the value "
              "counts as not known (\"750 gpm\"); write digits only, with a point for decimals.",
              "apparatus (apparatus.csv), record E3, column tank_gal: has no tank size; a small "
              "one is taken (300 gal); give tank_gal."});
    CHECK(count_of(scene.read(), "apparatus") == "5 = 4 + 0 + 1");
}

TEST_CASE("numbers may have commas and units, and say that nobody knows") {
    const ReadScene scene =
        with_unit(",pump_gpm", "T2,S2,tanker,\"1,200 gal\",N/A\nT3,S2,tanker,6000 l,\" 750 gpm \"");
    CHECK(scene.sentences().empty());
    const auto& units = scene.read().district.units;
    CHECK(units.at(2).tank == gallons(1200));
    CHECK_FALSE(units.at(2).pump);
    CHECK(in_gallons(units.at(3).tank) == Approx(1585.03).epsilon(1e-5));
    CHECK(units.at(3).pump == gpm(750));
}

TEST_CASE("rows with nothing in them are no records, and one problem counts them") {
    ReadScene scene;
    scene.table("apparatus",
                "unit_id,station_id,kind,tank_gal\n,,,\nE1,S1,engine,1000\nT1,S1,tanker,2000\n,, "
                ",\n");
    CHECK(scene.sentences() ==
          Sentences{"apparatus (apparatus.csv): holds rows with nothing in them; they are left out "
                    "and not counted (2, the first row 1); delete them, or fill them in."});
    const ReadResult read = scene.read();
    CHECK(count_of(read, "apparatus") == "2 = 2 + 0 + 0");
    // The second pass goes by the rows.
    const auto rows = std::ranges::find(read.inputs, "apparatus", &InputRecord::section);
    REQUIRE(rows != read.inputs.end());
    CHECK(rows->features == 4);
    std::string blank;
    for (int i = 0; i < 100; ++i) {
        blank += ",,\n";
    }
    scene = ReadScene();
    scene.layer("water_sources", "source_id,kind,WKT\nH1,hydrant,POINT (700050 4769990)\n" + blank);
    CHECK(count_of(scene.read(), "water_sources") == "1 = 1 + 0 + 0");
    CHECK(scene.read().district.sources.at(0).row == 0);
}

TEST_CASE("an empty row in front leaves the rows of the others as they are") {
    ReadScene scene;
    scene.layer("roads", "class,WKT\n,\n" + good_road + "state,\n");
    CHECK(scene.sentences().at(0) ==
          "roads (roads.csv), row 3: has no geometry; draw it, or delete the record.");
}

TEST_CASE("a word of the list may have blanks and dashes, and others stay as they are written") {
    const ReadScene scene = with_source(",standing",
                                        "P,Dry Hydrant,POINT (700050 4769990),declared\n"
                                        "Q,draft-site,POINT (700050 4769990),\n"
                                        "R,dry hydrnt,POINT (700050 4769990),");
    CHECK(
        scene.sentences() ==
        Sentences{"water_sources (water_sources.csv), record R, column kind: has no kind that the "
                  "analysis knows (\"dry hydrnt\"); use hydrant, dry_hydrant, draft_site or "
                  "cistern."});
    const ReadResult read = scene.read();
    CHECK(read.district.sources.at(1).kind == SourceKind::dry_hydrant);
    CHECK(read.district.sources.at(2).kind == SourceKind::draft_site);
}

// As spreadsheets save it where they are not told otherwise.
TEST_CASE("letters that are no UTF-8 are read as Windows-1252, and one problem says so") {
    ReadScene scene;
    scene
        .table("apparatus",
               "unit_id,station_id,kind,tank_gal\nE1,S\xFC"
               "d,engine,1000\nT\x96"
               "1,S1,tanker,2000\n")
        .layer("stations",
               "station_id,WKT\nS1,POINT (700010 4769995)\nS\u00FCd,POINT (700290 4769995)\n");
    CHECK(scene.sentences() ==
          Sentences{"apparatus (apparatus.csv): holds letters that are no UTF-8; they are read as "
                    "Windows-1252 (2, the first row 1); check the names in the result, or save the "
                    "file as UTF-8."});
    const ReadResult read = scene.read();
    REQUIRE(read.district.units.size() == 2);
    CHECK(read.district.units[0].station.position() == 1);
    CHECK(read.district.units[1].id == "T\u20131");
}

TEST_CASE("a number that cannot be right is not known") {
    CHECK(with_source(",rate_gpm,places", "P,hydrant,POINT (700050 4769990),-5,2.5").sentences() ==
          Sentences{
              "water_sources (water_sources.csv), record P, column rate_gpm: holds a number that "
              "cannot be right; the "
              "value counts as not known (-5 gpm is not within 0 to 20000); check the value and "
              "its unit.",
              "water_sources (water_sources.csv), record P, column places: holds a number that "
              "cannot be right; the "
              "value counts as not known (2.5 is no whole number); check the value and its unit."});
    ReadScene scene = with_road("state,\"LINESTRING (700000 4769990,700300 4769990)\"");
    scene.layer(
        "roads",
        "class,speed_limit_mph,WKT\nstate,250,\"LINESTRING (700000 4769990,700300 4769990)\"\n");
    CHECK(
        scene.sentences() ==
        Sentences{"roads (roads.csv), row 1, column speed_limit_mph: holds a number that cannot be "
                  "right; the value counts "
                  "as not known (250 mph is not within 1 to 100); check the value and its unit."});
    CHECK_FALSE(scene.read().district.roads[0].posted_speed);
}

TEST_CASE("a word that is neither yes nor no is not known") {
    const ReadScene scene = with_source(",all_weather", "P,hydrant,POINT (700050 4769990),maybe");
    CHECK(
        scene.sentences() ==
        Sentences{"water_sources (water_sources.csv), record P, column all_weather: holds a word "
                  "that is not in the list; the "
                  "value counts as not known (\"maybe\", not yes or no); use a word of the list."});
    CHECK_FALSE(scene.read().district.sources[1].all_weather);
}

TEST_CASE("a value that is not mapped has the most cautious meaning") {
    ReadScene scene;
    scene.layer(
        "roads",
        "class,access,one_way,bridge,maintained_months,WKT\n"
        "VII,permit,sideways,viaduct,summer,\"LINESTRING (700000 4769990,700300 4769990)\"\n");
    const std::string start = "roads (roads.csv), row 1, column ";
    const std::string middle =
        ": holds a value that the district file does not map; the most cautious meaning is taken (";
    const std::string end = "); add it to the layer's values table.";
    CHECK(scene.sentences() ==
          Sentences{
              start + "class" + middle + "\"vii\", taken as narrow" + end,
              start + "access" + middle + "\"permit\", taken as gated" + end,
              start + "bridge" + middle + "\"viaduct\", taken as yes" + end,
              start + "maintained_months" + middle + "\"summer\", taken as no month at all" + end,
              start + "one_way" + middle +
                  "\"sideways\", taken as closed, since its direction is not known" + end});
    const Road road = scene.read().district.roads[0];
    CHECK(road.kind == RoadClass::narrow);
    CHECK(road.access == RoadAccess::closed);  // gated by its own word, closed by its direction
    CHECK(road.bridge);
    CHECK(road.maintained.empty());
}

TEST_CASE("words about water and aid that are not mapped never help") {
    const ReadScene scene = with_source(",standing,use,reach,lane",
                                        "P,hydrant,POINT (700050 4769990),good,any,truck,wide");
    CHECK(scene.sentences().size() == 4);
    const WaterSource source = scene.read().district.sources[1];
    CHECK(source.standing == Standing::mapped);
    CHECK(source.use == SourceUse::operations);
    CHECK(source.reach == Reach::portable_pump);
    CHECK(source.lane == LaneClass::dead_end);
    CHECK(with_unit(",aid", "T2,S2,tanker,2000,friends").read().district.units[2].aid ==
          Aid::mutual);
}

// "1,500" without quotes would be a rate of 1.
TEST_CASE("a row of a CSV file with more cells than columns is set aside") {
    ReadScene scene;
    scene.layer("water_sources",
                "source_id,kind,WKT,rate_gpm,note\nP,hydrant,POINT (700050 4769990),1,500,well\n"
                "\nQ,hydrant,POINT (700050 4769990),\"1,500\",well,,\n");
    CHECK(scene.sentences() ==
          Sentences{"water_sources (water_sources.csv), row 1: has more cells than the table has "
                    "columns, so that values may stand in the wrong ones (6 cells, 5 columns); put "
                    "a value with a comma in quotes, or leave the comma out."});
    const ReadResult read = scene.read();
    CHECK(count_of(read, "water_sources") == "2 = 1 + 0 + 1");
    CHECK(read.district.sources.at(0).id == "Q");
}

TEST_CASE("a table parted by semicolons or tabs is read, but a comma in its numbers only by tabs") {
    for (const char separator : {';', '\t'}) {
        ReadScene scene;
        std::string text =
            "unit_id|station_id|kind|tank_gal\r\nE1|S1|engine|1000\r\nT1|S1|tanker|2,000\r\n";
        std::ranges::replace(text, '|', separator);
        scene.table("apparatus", text);
        CAPTURE(separator);
        const auto& units = scene.read().district.units;
        CHECK(units.at(0).tank == gallons(1000));
        CHECK((separator == '\t' ? units.at(1).tank == gallons(2000) : units.size() == 1));
        CHECK((separator == '\t') == scene.sentences().empty());
        if (separator == ';') {
            CHECK(scene.sentences().at(0).find("a comma may be a decimal one") !=
                  std::string::npos);
        }
    }
}

// Read as a decimal, a pump of 1,200 gpm would give one, and a limit of 12,500 kg would be none.
TEST_CASE("a point that may part thousands is told in a table parted by semicolons") {
    const auto pump = [](const std::string& text, const std::string& other, char separator) {
        ReadScene scene;
        std::string table = "unit_id|station_id|kind|tank_gal|pump_gpm\nE1|S1|engine|1000|" +
                            other + "\nT1|S1|tanker|2000|" + text + "\n";
        std::ranges::replace(table, '|', separator);
        scene.table("apparatus", table);
        const std::optional<Flow> read = scene.read().district.units.at(1).pump;
        const auto told = scene.sentences();
        CHECK(told.empty() == read.has_value());
        CHECK((told.empty() || told.at(0).find("may part thousands") != std::string::npos));
        return read ? in_gpm(*read) : -1.0;
    };
    CHECK(pump("1.200", "1000", ';') == -1.0);
    CHECK(pump("1.200 gpm", "1000", ';') == -1.0);
    CHECK(pump("1.200.000", "1000", ';') == -1.0);
    CHECK(pump("1200.5", "1000", ';') == Approx(1200.5));
    CHECK(pump("1.200", "999.25", ';') == Approx(1.2));  // the column's points begin decimals
    CHECK(pump("1.200", "0.125", ';') == Approx(1.2));
    CHECK(pump("1.200", "2.500", ';') == -1.0);
    CHECK(pump("1.200", "1000", ',') == Approx(1.2));
    CHECK(pump("1.200", "1000", '\t') == Approx(1.2));
}

TEST_CASE("a point before three figures is a decimal one where thousands cannot be meant") {
    ReadScene scene;
    scene
        .table("water_sources",
               "source_id;kind;x;y;outlet_in;rate_gpm\nP;hydrant;700050.123;4769990;2.500;1.500\n")
        .section("water_sources", "crs = \"EPSG:32618\"");
    const auto told = scene.sentences();
    REQUIRE(told.size() == 1);
    CHECK(told.front().find("column rate_gpm") != std::string::npos);
    const District district = scene.read().district;
    CHECK(district.sources.at(0).place.x == Approx(700050.123));
}

TEST_CASE("a point in a joined table and in a column of road limits is told likewise") {
    ReadScene scene;
    scene.file("more.csv", "key;gpm\nA;1.500\nB;750\nC;500\n")
        .end(
            "[[join]]\nfile = \"more.csv\"\nkey = \"key\"\ncolumns = { needed_gpm = \"gpm\" "
            "}\n");
    scene.table("roads",
                "class;weight_limit_lb;WKT\nstate;12.500;LINESTRING (700000 4769990,700300 "
                "4769990)\nstate;30000;LINESTRING (700300 4769990,700400 4769990)\n");
    const auto told = scene.sentences();
    CAPTURE(told);
    REQUIRE(told.size() == 2);
    CHECK(told.at(0).find("\"1.500\"; in a table parted by semicolons") != std::string::npos);
    CHECK(told.at(1).find("\"12.500\"; in a table parted by semicolons") != std::string::npos);
}

TEST_CASE("columns are found by names as people write them") {
    ReadScene scene;
    scene.table("apparatus",
                "\xEF\xBB\xBFUnit ID ,Station-ID,KIND,Tank (gal)\nE1,S1,engine,1000\nT1,S1,tanker,"
                "2000\n");
    CHECK(scene.sentences().empty());
    CHECK(scene.read().district.units.at(1).tank == gallons(2000));
}

TEST_CASE("names without what nobody sees, and not longer than anybody reads") {
    ReadScene scene;
    scene.table("apparatus",
                "unit_id,station_id,kind,tank_gal\nE1,S1,engine,1000\nT\u202E1\u200B,"
                "S1,tanker,2000\n" +
                    std::string(10000, 'x') +
                    ",S1,tanker,2000\n\"T\n3\",S1,tanker,"
                    "2000\n");
    CHECK(scene.sentences() ==
          Sentences{"apparatus (apparatus.csv): holds letters that nobody sees, or that turn the "
                    "writing round; they are left out (row 2); type these names anew.",
                    "apparatus (apparatus.csv): holds texts of more than 500 letters; the rest of "
                    "them is left out (row 3); shorten them."});
    const auto& units = scene.read().district.units;
    CHECK(units.at(1).id == "T1");
    CHECK(units.at(2).id == std::string(500, 'x') + " ...");
    CHECK(units.at(3).id == "T 3");
}

TEST_CASE("a date that is none is not known") {
    const ReadScene scene =
        with_source(",tested_on", "P,hydrant,POINT (700050 4769990),31.11.2025");
    CHECK(scene.sentences() ==
          Sentences{"water_sources (water_sources.csv), record P, column tested_on: holds "
                    "something that is no date; the date "
                    "counts as not known (\"31.11.2025\"); write dates as 2026-05-31."});
    CHECK_FALSE(scene.read().district.sources[1].tested_on);
}

TEST_CASE("a date that can be two days is not known until the district file settles it") {
    ReadScene scene = with_source(",tested_on", "P,hydrant,POINT (700050 4769990),3/4/2025");
    CHECK(scene.sentences() ==
          Sentences{"water_sources (water_sources.csv), record P, column tested_on: holds a date "
                    "that can be two days; it counts as not known (\"3/4/2025\"); say what stands "
                    "first with date_order = \"month_first\" or \"day_first\" at the top of the "
                    "district file, or write dates as 2026-05-31."});
    CHECK_FALSE(scene.read().district.sources[1].tested_on);
    scene.top("date_order = \"month_first\"");
    CHECK(scene.sentences().empty());
    CHECK(scene.read().district.sources[1].tested_on == 2025y / 3 / 4);
    scene.top("date_order = \"day_first\"");
    CHECK(scene.read().district.sources[1].tested_on == 2025y / 4 / 3);
}

TEST_CASE("a date against the stated order is not known, and it says why") {
    ReadScene scene = with_source(",tested_on", "P,hydrant,POINT (700050 4769990),13/1/2025");
    CHECK(scene.sentences().empty());
    CHECK(scene.read().district.sources[1].tested_on == 2025y / 1 / 13);
    scene.top("date_order = \"month_first\"");
    CHECK(scene.sentences() ==
          Sentences{"water_sources (water_sources.csv), record P, column tested_on: holds "
                    "something that is no date; the date counts as not known (\"13/1/2025\", and "
                    "date_order says that the month stands first); write dates as 2026-05-31."});
}

TEST_CASE("a spreadsheet's day number is read as its day, and it is said") {
    const ReadScene scene = with_source(",tested_on", "P,hydrant,POINT (700050 4769990),45809");
    CHECK(scene.sentences() ==
          Sentences{"water_sources (water_sources.csv), record P, column tested_on: holds a "
                    "spreadsheet's day number; it is read as the day that it stands for (45809, "
                    "read as 2025-06-01); check the day, and format the cells as dates."});
    CHECK(scene.read().district.sources[1].tested_on == 2025y / 6 / 1);
}

// Else a test of 2205 would never lapse.
TEST_CASE("a date after that of the data is not known") {
    ReadScene scene = with_source(",tested_on", "P,hydrant,POINT (700050 4769990),2026-06-01");
    scene.top("data_date = 2026-05-31");
    CHECK(scene.sentences() ==
          Sentences{"water_sources (water_sources.csv), record P, column tested_on: holds a date "
                    "after the data's; it counts as not known (2026-06-01, data_date is "
                    "2026-05-31); correct it, or set data_date of the district file to the day "
                    "the data are of."});
    CHECK_FALSE(scene.read().district.sources[1].tested_on);
    scene.top("data_date = 2026-06-01");
    CHECK(scene.read().district.sources[1].tested_on == 2026y / 6 / 1);
}

TEST_CASE("a record without id is called by its row") {
    const ReadScene scene = with_source("", ",hydrant,POINT (700050 4769990)");
    CHECK(
        scene.sentences() ==
        Sentences{
            "water_sources (water_sources.csv), row 2, column source_id: has no id; its row number "
            "stands in; give every record an id."});
    CHECK(scene.read().district.sources[1].id == "row 2");
    CHECK(count_of(scene.read(), "water_sources") == "2 = 1 + 1 + 0");
}

TEST_CASE("a record whose id is taken gets a number behind it") {
    ReadScene scene;
    scene.layer("targets",
                "target_id,WKT\nH1,POINT (700050 4770050)\nH1,POINT (700051 4770050)\n"
                "H1,POINT (700052 4770050)\n");
    CHECK(scene.sentences() ==
          Sentences{"targets (targets.csv), record H1 (2), column target_id: has an id "
                    "that an earlier record has "
                    "too; a number was added (\"H1\"); give every record an id of its own.",
                    "targets (targets.csv), record H1 (3), column target_id: has an id "
                    "that an earlier record has "
                    "too; a number was added (\"H1\"); give every record an id of its own."});
    CHECK(count_of(scene.read(), "targets") == "3 = 1 + 2 + 0");
}

// A truck or a pond that is typed twice would be two.
TEST_CASE("a unit, a source or a station whose id an earlier row has is set aside") {
    const ReadScene truck = with_unit("", "t1 ,S2,tanker,3000");
    CHECK(truck.sentences() ==
          Sentences{"apparatus (apparatus.csv), record t1, column unit_id: has an id that an "
                    "earlier row of the layer has too; the earlier row is used; delete the row, or "
                    "give it an id of its own."});
    CHECK(truck.read().district.units.size() == 2);
    CHECK(count_of(truck.read(), "apparatus") == "3 = 2 + 0 + 1");

    const ReadScene pond = with_source("",
                                       "W 0,hydrant,POINT (700050 4769990)\n"
                                       "W0,hydrant,POINT (700051 4769990)");
    CHECK(pond.read().district.sources.size() == 2);
    CHECK(pond.read().district.problems.back().id == ProblemId::row_twice);

    ReadScene station;
    station.layer("stations",
                  "station_id,WKT\nS1,POINT (700010 4769995)\nS1,POINT (700290 4769995)\n"
                  "S2,POINT (700290 4769995)\n");
    CHECK(station.read().district.stations.size() == 2);
    CHECK(count_of(station.read(), "stations") == "3 = 2 + 0 + 1");
}

TEST_CASE("a row that was not used takes no id from a later one") {
    CHECK(with_unit("", "T9,S1,tanker,\nT9,S2,tanker,3000").read().district.units.size() == 3);
}

TEST_CASE("keys of a join that come twice or fit no parcel are set aside") {
    ReadScene scene;
    scene.file("assessor.csv", "PID,NFF\nA,500\nA,800\nZ,900\n,700\nB,\"1000 ft\"\n")
        .end(
            "[join]\nfile = \"assessor.csv\"\nkey = \"PID\"\ncolumns = { needed_gpm = \"NFF\" }\n");
    CHECK(scene.sentences() ==
          Sentences{"join (assessor.csv), record B, column NFF: holds something that is no plain "
                    "number; the value counts as not "
                    "known (\"1000 ft\"); write digits only, with a point for decimals.",
                    "join (assessor.csv), record A: has a key that an earlier row of the joined "
                    "table has too; the earlier row "
                    "is used; keep one row per key.",
                    "join (assessor.csv), row 4: lacks a value without which it says nothing "
                    "(PID); fill it in.",
                    "join (assessor.csv), record Z, column PID: has a key that no parcel has; "
                    "check the key columns of the "
                    "join."});
    const ReadResult read = scene.read();
    CHECK(count_of(read, "join") == "5 = 2 + 0 + 3");
    CHECK(read.district.parcels[0].needed == gpm(500));
    CHECK_FALSE(read.district.parcels[1].needed);
}

TEST_CASE("buildings and address points in no parcel are set aside") {
    ReadScene scene;
    scene
        .layer("buildings",
               "building_id,WKT\nb1,POINT (700050 4770050)\nb2,POINT (700050 4770500)\n")
        .layer("address_points",
               "parcel_id,WKT\nA,POINT (700050 4770050)\nZ,POINT (700050 4770500)\n");
    CHECK(scene.sentences() == Sentences{"buildings (buildings.csv), record b2: lies in no parcel; "
                                         "check the parcel layer there, or name the place "
                                         "as a target.",
                                         "address_points (address_points.csv), row 2: lies in no "
                                         "parcel (nor is there a parcel Z); check the parcel "
                                         "layer there, or name the place as a target."});
    CHECK(count_of(scene.read(), "buildings") == "2 = 1 + 0 + 1");
}

TEST_CASE(
    "parcels drawn on top of each other with one house are told, those without a building not") {
    ReadScene scene;
    const std::string shape =
        ",\"POLYGON ((700000 4770000,700100 4770000,700100 4770100,700000 4770100,700000 "
        "4770000))\"\n";
    scene.layer("parcels", "parcel_id,buildings,WKT\nU1,1" + shape + "V1,0" + shape + "U2,1" +
                               shape + "V2,0" + shape + "U3,2" + shape);
    const std::string says =
        ": has its house exactly where another parcel has its own; each counts in numbers and "
        "percentages (as parcel U1); leave them if each is a property, as units of a condominium "
        "are; else delete one.";
    CHECK(scene.sentences() == Sentences{"parcels (parcels.csv), record U2" + says,
                                         "parcels (parcels.csv), record U3" + says});
}

TEST_CASE("a road without length is set aside") {
    CHECK(with_road("state,\"LINESTRING (700000 4769990,700000 4769990)\"").sentences() ==
          Sentences{"roads (roads.csv), row 2: has no length; delete it."});
}

TEST_CASE("a road without class is narrow, and a layer without classes says so once") {
    CHECK(with_road(",\"LINESTRING (700000 4769990,700300 4769990)\"").sentences() ==
          Sentences{"roads (roads.csv), row 2, column class: has no class; the speed of a narrow "
                    "road is taken; map its class "
                    "in the district file."});
    ReadScene scene;
    scene.layer(
        "roads",
        "name,WKT\nx,\"LINESTRING (700000 4769990,700300 4769990)\"\ny,\"LINESTRING (700000 "
        "4769990,700300 4769990)\"\n");
    CHECK(scene.sentences() == Sentences{"roads (roads.csv), column class: has no class; the speed "
                                         "of a narrow road is taken (the layer has no such "
                                         "column); map its class in the district file."});
}

TEST_CASE("plain words of the trade are kinds of apparatus and of water, ambiguous ones are not") {
    const ReadScene fleet = with_unit(
        "",
        "A,S1,Tender,1000\nB,S1,water tender,1000\nC,S1,Tanker/Pumper,1000\nD,S1,pumper "
        "- tanker,1000\nE,S1,Engine/Pumper,1000\nF,S1,PUMPER,1000\nG,S1,engine/tanker,1000");
    std::string kinds;
    for (const Unit& unit : fleet.read().district.units) {
        kinds += unit.id.size() == 1 ? unit.id + "=" + std::string(word(unit.kind)) + " " : "";
    }
    CHECK(kinds == "A=tanker B=tanker C=tanker D=tanker E=engine F=engine ");
    const auto told = fleet.sentences();
    REQUIRE(told.size() == 1);
    CHECK(told.front().find("\"engine/tanker\"); use engine, tanker or other") !=
          std::string::npos);

    const std::string there = ",POINT (700050 4769990)\n";
    const ReadScene water =
        with_source("", "A,pond" + there + "B,Lake" + there + "C,river" + there + "D,stream" +
                            there + "E,swimming-pool" + there + "F,water tank" + there +
                            "G,Tank,POINT (700050 4769990)");
    std::string sources;
    for (const WaterSource& source : water.read().district.sources) {
        sources += std::string(word(source.kind)) + " ";
    }
    CHECK(sources ==
          "hydrant draft_site draft_site draft_site draft_site draft_site cistern cistern ");
}

// What the district file maps goes before the plain word.
TEST_CASE("a mapped word of the trade means what the district file says") {
    ReadScene scene = with_unit("", "T2,S2,tender,1800");
    scene.section("apparatus", "values.kind = { tender = \"engine\" }");
    CHECK(scene.read().district.units.at(2).kind == UnitKind::engine);
}

TEST_CASE("a source of a kind that is not known is set aside") {
    const ReadScene scene = with_source("", "P,water tower,POINT (700050 4769990)");
    CHECK(scene.sentences() ==
          Sentences{"water_sources (water_sources.csv), record P, column kind: has no kind that "
                    "the analysis knows (\"water "
                    "tower\"); use hydrant, dry_hydrant, draft_site or cistern."});
    CHECK(scene.read().district.sources.size() == 1);
}

TEST_CASE("a unit without a known station, kind or tank is set aside") {
    CHECK(with_unit("", "T2,S9,tanker,2000").sentences() ==
          Sentences{"apparatus (apparatus.csv), record T2, column station_id: names a station that "
                    "is not in the station layer, or was set aside there "
                    "(\"S9\"); correct the station id, here or in the station layer."});
    CHECK(with_unit("", "L1,S1,ladder,").sentences() ==
          Sentences{"apparatus (apparatus.csv), record L1, column kind: has no kind that the "
                    "analysis knows (\"ladder\"); use "
                    "engine, tanker or other."});
    const ReadScene scene = with_unit("", "T2,S1,tanker,");
    CHECK(scene.sentences() ==
          Sentences{
              "apparatus (apparatus.csv), record T2, column tank_gal: is a tanker without a tank "
              "size; give its gallons."});
    CHECK(scene.read().district.units.size() == 2);
    CHECK(with_unit("", "T2,S1,tanker,2.5").sentences() ==
          Sentences{
              "apparatus (apparatus.csv), record T2, column tank_gal: is a tanker without a tank "
              "size (2.5 gal is no tanker's; are these thousands?); give its gallons."});
    CHECK(with_unit("", "T2,S1,tanker,100").read().district.units.size() == 3);
}

TEST_CASE("portable tanks of unknown size do not count") {
    const ReadScene scene = with_unit(",portable_tanks,portable_tank_gal", "T2,S1,tanker,2000,2,");
    CHECK(scene.sentences() ==
          Sentences{"apparatus (apparatus.csv), record T2, column portable_tank_gal: carries "
                    "portable tanks of unknown size; they "
                    "do not count; give portable_tank_gal."});
    CHECK(scene.read().district.units[2].portable_tanks == 0);
}

TEST_CASE("staffing rows that refer to nothing are set aside") {
    ReadScene scene;
    scene
        .table("staffing",
               "unit_id,station_id,period,crew\nE1,,noon,2\nE9,,noon,2\n,S9,noon,2\n,,noon,2\n")
        .end("[period.noon]\n");
    CHECK(scene.sentences() ==
          Sentences{"staffing (staffing.csv), row 2, column unit_id: names a unit that is not in "
                    "the apparatus list (\"E9\"); "
                    "correct the unit id.",
                    "staffing (staffing.csv), row 3, column station_id: names a station that is "
                    "not in the station layer, or was set aside there "
                    "(\"S9\"); correct the station id, here or in the station layer.",
                    "staffing (staffing.csv), row 4, column unit_id: lacks a value without which "
                    "it says nothing; fill it in."});
    CHECK(count_of(scene.read(), "staffing") == "4 = 1 + 0 + 3");
}

// Periods noon and night; E1 and T1 stand at S1, T2 at S2.
ReadScene with_staffing(const std::string& rows) {
    ReadScene scene;
    scene.table("staffing", "unit_id,station_id,period,crew,turnout_min\n" + rows)
        .end("[period.noon]\n[period.night_watch]\nturnout_volunteer_min = 9\n");
    return scene;
}

// "T1 noon 0 -": crew and turnout of each row.
Sentences staffed(const ReadScene& scene) {
    const ReadResult read = scene.read();
    Sentences rows;
    for (const Staffing& row : read.district.staffing) {
        rows.push_back((row.unit.valid() ? at(read.district.units, row.unit).id
                                         : at(read.district.stations, row.station).id) +
                       " " + at(read.district.periods, row.period).name + " " +
                       (row.crew ? std::to_string(*row.crew) : "-") + " " +
                       (row.turnout ? std::to_string(std::lround(in_minutes(*row.turnout))) : "-"));
    }
    return rows;
}

TEST_CASE("units, stations and periods are found however their names are written") {
    const ReadScene scene = with_staffing("t-1,,Night Watch,0,\n,s 1,NOON,2,\n");
    CHECK(scene.sentences().empty());
    CHECK(staffed(scene) == Sentences{"T1 night_watch 0 -", "S1 noon 2 -"});
}

TEST_CASE("the very name goes before one that is only written otherwise, and two are none") {
    ReadScene scene;
    scene.table("apparatus",
                "unit_id,station_id,kind,tank_gal\nT-1,S1,tanker,2000\nT1,S1,tanker,2000\n");
    scene.table("staffing", "unit_id,period,crew\nT1,any_time,1\nT_1,any_time,0\n");
    CHECK(staffed(scene) == Sentences{"T1 any_time 1 -"});
    CHECK(scene.read().district.problems.back().id == ProblemId::unit_unknown);
}

TEST_CASE("staffing of no period counts where nothing else is said, and never helps") {
    const ReadScene typed = with_staffing("T1,,nigth_watch,0,\nT1,,noon,2,\n");
    CHECK(
        typed.sentences() ==
        Sentences{"staffing (staffing.csv), row 1, column period: names no period of the district "
                  "file; fewer people and a longer turnout than usual count in every period "
                  "without a row of its own (\"nigth_watch\"; did you mean \"night_watch\"?); "
                  "correct the name, or add its [period.NAME] table."});
    CHECK(staffed(typed) == Sentences{"T1 noon 2 -", "T1 night_watch 0 -"});
    CHECK(count_of(typed.read(), "staffing") == "2 = 2 + 0 + 0");

    // The least of two, also of the station, whose own row for noon goes before.
    CHECK(staffed(with_staffing("T1,,,3,\nT1,,dusk,1,\n")) ==
          Sentences{"T1 noon 1 -", "T1 night_watch 1 -"});
    CHECK(staffed(with_staffing(",S2,dusk,1,\n,S2,noon,4,\n")) ==
          Sentences{"S2 noon 4 -", "T2 night_watch 1 -"});

    // A turnout only where it is longer than what holds without it: 9 minutes at night.
    const Sentences late = staffed(with_staffing(",S2,dusk,,8\n"));
    CHECK(std::ranges::find(late, "T2 night_watch - 8") == late.end());
    CHECK(staffed(with_staffing(",S2,dusk,,19\n")) ==
          Sentences{"T2 noon - 19", "T2 night_watch - 19"});
}

TEST_CASE("a crew of no period does not raise that of the apparatus list") {
    ReadScene scene;
    scene.table("apparatus", "unit_id,station_id,kind,tank_gal,crew\nT1,S1,tanker,2000,1\n");
    scene.table("staffing", "unit_id,period,crew\nT1,dusk,4\n");
    CHECK(staffed(scene).empty());
}

Sentences zones_told(const std::string& of_parcels, const std::string& rows) {
    ReadScene scene;
    scene
        .layer(
            "parcels",
            "parcel_id,zone,WKT\nA," + of_parcels.substr(0, of_parcels.find(';')) +
                ",\"POLYGON ((700000 4770000,700100 4770000,700100 4770100,700000 4770000))\"\nB," +
                of_parcels.substr(of_parcels.find(';') + 1) +
                ",\"POLYGON ((700100 4770000,700200 4770000,700200 4770100,700100 4770000))\"\n")
        .table("response_zones", "zone,alarm,unit_id\n" + rows);
    const ReadResult read = scene.read();
    Sentences told;
    for (const Problem& problem : read.district.problems) {
        if (problem.id == ProblemId::response_zone_without_rows ||
            problem.id == ProblemId::response_zone_of_no_parcel) {
            told.push_back(sentence(problem));
        }
    }
    for (const Parcel& parcel : read.district.parcels) {
        told.push_back(parcel.zone.text());
    }
    for (const ResponseRule& rule : read.district.response_rules) {
        told.push_back(rule.zone);
    }
    return told;
}

TEST_CASE("parcels and rows name the same zone however it is written") {
    CHECK(zones_told("LAKE EAST;Lake-East", "lake_east,1,E1\nLake East,1,T1\n") ==
          Sentences{"Lake East", "Lake East", "Lake East", "Lake East"});
    CHECK(zones_told("lake;LAKE", "lake,1,E1\nLAKE,1,T1\n") ==
          Sentences{"lake", "LAKE", "lake", "LAKE"});
}

TEST_CASE("a zone without rows and a row without parcels are told once, with their number") {
    CHECK(zones_told("RIDGE;RIDGE", "RIGDE,1,E1\nRIGDE,1,T1\n") ==
          Sentences{"parcels (parcels.csv), column zone: names a response zone that has no rows; "
                    "own units and automatic aid go there at the alarm, mutual aid on request "
                    "(\"RIDGE\", 2 of them; did you mean \"RIGDE\"?); correct the name, or list "
                    "who goes there in [response_zones].",
                    "response_zones (response_zones.csv), column zone: lists a zone that no parcel "
                    "names; these rows count nowhere (\"RIGDE\", 2 of them; did you mean "
                    "\"RIDGE\"?); correct the name, or map the parcels' column for zone.",
                    "RIDGE", "RIDGE", "RIGDE", "RIGDE"});
}

TEST_CASE("months that no season holds, or two, are told with their names") {
    ReadScene gap;
    gap.end("[season.summer]\nmonths = \"5-9\"\n[season.winter]\nmonths = \"12-3\"\n");
    CHECK(gap.sentences() ==
          Sentences{"season (district.toml): leaves months without a season; no answer holds in "
                    "them (Apr, Oct, Nov); add a [season.NAME] table with them, or add them to one "
                    "that is there."});
    ReadScene overlap;
    overlap.end("[season.summer]\nmonths = \"4-11\"\n[season.winter]\nmonths = \"11-4\"\n");
    CHECK(overlap.sentences() ==
          Sentences{"season (district.toml): has months that more than one season holds; both are "
                    "worked out, and the worst counts (Apr, Nov); let each month stand in one "
                    "season."});
}

TEST_CASE("response zone rows that say too little are set aside") {
    ReadScene scene;
    scene.table("response_zones", "zone,alarm,unit_id\nwest,1,E1\nwest,,E1\nwest,1,E9\n,1,E1\n");
    CHECK(scene.sentences() == Sentences{"response_zones (response_zones.csv), row 2, column "
                                         "alarm: lacks a value without which it says nothing; fill "
                                         "it in.",
                                         "response_zones (response_zones.csv), row 3, column "
                                         "unit_id: names a unit that is not in the apparatus list "
                                         "(\"E9\"); correct the unit id.",
                                         "response_zones (response_zones.csv), row 4, column zone: "
                                         "lacks a value without which it says nothing; fill "
                                         "it in.",
                                         "response_zones (response_zones.csv), column zone: lists "
                                         "a zone that no parcel names; these rows count nowhere "
                                         "(\"west\", 1 of them); correct the name, or map the "
                                         "parcels' column for zone."});
    CHECK(scene.read().district.response_rules.size() == 1);
}

TEST_CASE("an alarm that cannot be right makes no response rule") {
    ReadScene scene;
    scene.table("response_zones", "zone,alarm,unit_id\nwest,1,E1\nwest,7,E1\n");
    CHECK(scene.sentences().front().find("row 2, column alarm") != std::string::npos);
    CHECK(scene.read().district.response_rules.size() == 1);
    CHECK(count_of(scene.read(), "response_zones") == "2 = 1 + 0 + 1");
}
