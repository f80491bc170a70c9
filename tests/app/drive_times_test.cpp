// drive-times: the table, its layers, what it refuses.
#include <cmath>

#include <catch2/catch.hpp>

#include "tests/app/small_district.h"
#include "tests/support/program.h"
#include "tests/support/temporary_folder.h"

using namespace farwater::support;

namespace {

// The small district with the officer's place P1 2,500 m east of the station, a station N1 twelve
// minutes beyond the data, and a file of camps: C1 beside the road, C2 in the wilderness.
std::filesystem::path write_district(const std::filesystem::path& folder) {
    const auto district = write_small_district(folder);
    put(district, std::string(small_district_toml()) +
                      "[dump_site_places]\nfile = \"places.csv\"\ncrs = \"EPSG:32618\"\n"
                      "[season.summer]\nmonths = \"4-11\"\n"
                      "[season.winter]\nmonths = \"12-3\"\nspeed_factor = 0.5\n");
    put(folder / "places.csv", "WKT,place_id\nPOINT(502600 4500000),P1\n");
    put(folder / "stations.csv",
        "WKT,station_id,name,staffed,aid,to_gate_min\nPOINT(500100 4500000),S1,Central,yes,,\n"
        "POINT(500000 4500000),N1,Neighbour,yes,mutual,12\n");
    put(folder / "camps.geojson",
        R"({"type": "FeatureCollection", "name": "huts",
            "crs": {"type": "name", "properties": {"name": "urn:ogc:def:crs:EPSG::32618"}},
            "features": [
  {"type": "Feature", "properties": {"beds": 4, "camp_id": "C1"},
   "geometry": {"type": "Point", "coordinates": [501600, 4500030]}},
  {"type": "Feature", "properties": {"beds": 9, "camp_id": "C2"},
   "geometry": {"type": "Point", "coordinates": [501600, 4520000]}},
  {"type": "Feature", "properties": {"beds": 9, "camp_id": "C3"},
   "geometry": {"type": "Polygon", "coordinates": [[[502000, 4500010], [502200, 4500010],
    [502200, 4500030], [502000, 4500030], [502000, 4500010]]]}}]})");
    return district;
}

Ended drives(const std::filesystem::path& district, const std::string& from, const std::string& to,
             std::vector<std::string> more = {}) {
    more.insert(more.begin(), {"drive-times", district.string(), "--from", from, "--to", to});
    return run_program(FARWATER_PROGRAM, more);
}

std::string csv_of(const std::filesystem::path& district, const std::string& from,
                   const std::string& to, std::vector<std::string> more = {}) {
    const std::filesystem::path file = district.parent_path() / "drives.csv";
    more.insert(more.end(), {"--csv", file.string()});
    const Ended ended = drives(district, from, to, more);
    CAPTURE(ended.err);
    REQUIRE(ended.exit_code == 0);
    return bytes_of(file).substr(3);
}

// 2,500 m: parts of two pieces of road of 2,000 m, whose times are whole tenths of a second,
// rounded up; and so are the parts.
double minutes_at(double mph) {
    const double piece = std::ceil(2000.0 / 1609.344 / mph * 36000.0);
    return (std::ceil(piece * 1900.0 / 2000.0) + std::ceil(piece * 600.0 / 2000.0)) / 600.0;
}

std::string row(const std::string& from, const std::string& to, double loaded_mph,
                double empty_mph) {
    char text[128];
    std::snprintf(text, sizeof text, "%s,%s,%.2f,1.55,%.2f,1.55\r\n", from.c_str(), to.c_str(),
                  minutes_at(loaded_mph), minutes_at(empty_mph));
    return text;
}

}  // namespace

// As a web page leaves them in a header that is pasted from it.
TEST_CASE("a column of ids is found whatever its name hides", "[unit]") {
    const TemporaryFolder folder;
    const auto district = write_district(folder.path() / "d");
    const auto camps = folder.path() / "d" / "camps.geojson";
    std::string text = bytes_of(camps);
    for (std::size_t at = 0; (at = text.find("\"camp_id", at)) != std::string::npos; at += 4) {
        text.insert(at + 1, "\xE2\x80\x8B");
    }
    put(camps, text);
    const std::string csv = csv_of(district, "stations", camps.string());
    CHECK(contains(csv, "S1,C1,"));
}

TEST_CASE("a table of drives has minutes and miles each way", "[unit]") {
    const TemporaryFolder folder;
    const auto district = write_district(folder.path() / "d");
    const std::string csv = csv_of(district, "stations", "dump_site_places", {"--vehicle", "T1"});
    CHECK(csv.starts_with("from_id,to_id,loaded_min,loaded_mi,empty_min,empty_mi\r\n"));
    CHECK(contains(csv, row("S1", "P1", 35.0, 38.5)));
    const Ended shown = drives(district, "stations", "dump_site_places");
    CHECK(shown.exit_code == 0);
    CHECK(contains(shown.out, "from_id  to_id  loaded_min  loaded_mi  empty_min  empty_mi\n"));
    CHECK(contains(shown.out, "\nS1       P1           2.67       1.55       2.42      1.55\n"));
    CHECK(contains(shown.out, "2 of 2 pairs have a way within the limit.\n"));
    CHECK(contains(shown.out, "tanker T1, T2, T3"));
    CHECK(contains(shown.out, "season summer"));
    CHECK(shown.err.empty());
}

TEST_CASE("drives take the season's speeds and the limit that was asked for", "[unit]") {
    const TemporaryFolder folder;
    const auto district = write_district(folder.path() / "d");
    CHECK(contains(csv_of(district, "stations", "dump_site_places", {"--season", "winter"}),
                   "S1,P1,5.33,1.55,4.85,1.55\r\n"));  // at half the speed; 4.845 is rounded up
    // Only the empty drive takes less than two and a half minutes.
    CHECK(contains(csv_of(district, "stations", "dump_site_places", {"--limit-min", "2.5"}),
                   "S1,P1,,,2.42,1.55\r\n"));
    CHECK(contains(drives(district, "stations", "dump_site_places", {"--limit-min", "1"}).out,
                   "0 of 2 pairs have a way within the limit; 2 have none"));
}

TEST_CASE("a station beyond the data adds its drive to the gate, and its miles are not known",
          "[unit]") {
    const TemporaryFolder folder;
    const auto district = write_district(folder.path() / "d");
    CHECK(contains(csv_of(district, "stations", "dump_site_places"), "N1,P1,14.77,,14.52,\r\n"));
}

TEST_CASE("minutes are those of the run", "[unit]") {
    const TemporaryFolder folder;
    const auto district = write_district(folder.path() / "d");
    put(district, bytes_of(district) + "[assumptions]\nhose_reach_ft = 2000\n");
    REQUIRE(run_program(FARWATER_PROGRAM, {"run", district.string()}).exit_code == 0);
    const std::string ways = bytes_of(folder.path() / "d/result/tables/shuttle_routes.csv");
    const auto minutes_of = [&](const std::string& direction) {
        const std::size_t line = ways.find("P1,D1," + direction + ",winter,");
        REQUIRE(line != std::string::npos);
        const std::size_t vehicles_end = ways.find("\",", line) + 2;
        return ways.substr(vehicles_end, ways.find(',', vehicles_end) - vehicles_end);
    };
    const std::string csv =
        csv_of(district, "water_sources", "dump_site_places", {"--season", "winter"});
    CHECK(contains(csv, "D1,P1," + minutes_of("loaded") + ","));
    CHECK(contains(csv, "," + minutes_of("empty") + ","));
}

TEST_CASE("by the round trip's rule each drive of a table stands alone, and the table says so",
          "[unit]") {
    const TemporaryFolder folder;
    const auto district = write_district(folder.path() / "d");
    put(district, "travel_time = \"linear_per_round_trip\"\n" + bytes_of(district));
    const std::string apart =
        "the 0.65 in each column: each stands alone, as a trip of its own, and the two do not add "
        "up to a round trip";
    const Ended shown = drives(district, "stations", "dump_site_places");
    CHECK(contains(shown.out, apart));
    CHECK_FALSE(contains(shown.out, "the 0.65 once a round trip"));
    CHECK(contains(shown.out, "\nS1       P1           3.29       1.55       3.29      1.55\n"));
    CHECK(contains(drives(district, "stations", "dump_site_places", {"--json"}).out, apart));
}

TEST_CASE("any data set of points or areas will do, with its layer and id column", "[unit]") {
    const TemporaryFolder folder;
    const auto district = write_district(folder.path() / "d");
    const std::string camps = (folder.path() / "d/camps.geojson").string();
    const Ended ended = drives(district, camps, "stations");
    CHECK(ended.exit_code == 0);
    CHECK(contains(ended.out, "\nC1       S1           1.60       0.93"));
    CHECK(contains(ended.out, "\nC3       S1 "));
    CHECK_FALSE(contains(ended.out, "\nC2 "));
    CHECK(contains(ended.out, "4 of 6 pairs have a way within the limit; 2 have none"));
    CHECK(contains(ended.err, "record C2: has no road in reach that the vehicles may use"));
    CHECK(contains(csv_of(district, camps + ":huts", "stations", {"--from-id", "beds"}),
                   "4,S1,1.60,0.93"));
    CHECK(drives(district, camps, "stations", {"--strict"}).exit_code == 5);
    CHECK(drives(district, camps, "stations", {"--quiet"}).err.empty());
}

TEST_CASE("the same drives come from any number of threads", "[unit]") {
    const TemporaryFolder folder;
    const auto district = write_district(folder.path() / "d");
    const auto of_threads = [&](const std::string& threads) {
        return csv_of(district, "parcels", "stations", {"--threads", threads});
    };
    CHECK(of_threads("1") == of_threads("2"));
}

TEST_CASE("drives as one JSON document", "[unit]") {
    const TemporaryFolder folder;
    const auto district = write_district(folder.path() / "d");
    const Ended json = drives(district, "stations", "dump_site_places", {"--json"});
    CHECK(json.exit_code == 0);
    CHECK(json.out.starts_with("{\n"));
    CHECK(contains(json.out, "\"schema_version\": 1,\n"));
    CHECK(contains(json.out,
                   "{\"empty_mi\":1.55,\"empty_min\":2.42,\"from_id\":\"S1\","
                   "\"loaded_mi\":1.55,\"loaded_min\":2.67,\"to_id\":\"P1\"}"));
    CHECK(contains(json.out, "\"empty_mi\":null"));
    CHECK(json.out.ends_with("\n  ]\n}\n"));
    const Ended none =
        drives(district, "stations", "dump_site_places", {"--json", "--limit-min", "1"});
    CHECK(none.out.ends_with("\"drives\": [\n  ]\n}\n"));
}

TEST_CASE("what cannot be asked is refused in one sentence", "[unit]") {
    const TemporaryFolder folder;
    const auto district = write_district(folder.path() / "d");
    const std::filesystem::path d = folder.path() / "d";
    put(d / "empty.geojson", R"({"type": "FeatureCollection", "features": []})");
    put(d / "nowhere.csv", "WKT,id\nPOINT(500100 4500000),1\n");
    struct Case {
        std::string from;
        std::vector<std::string> more;
        int exit_code;
        std::string says;
    };
    const std::vector<Case> cases{
        {"statins", {}, 2, "did you mean \"stations\"?"},
        {"roads", {}, 2, "roads of the district file has no points"},
        {"apparatus", {}, 2, "has no points"},
        {(d / "camps.geojson:hut").string(), {}, 3, "there is no layer \"hut\"; did you mean"},
        {(d / "camps.geojson").string(), {"--from-id", "bed"}, 3, "there is no column \"bed\""},
        {(d / "empty.geojson").string(), {}, 3, "holds no record"},
        {(d / "nowhere.csv").string(), {}, 3, "names no coordinate system"},
        {"stations", {"--from-id", "name"}, 2, "have their own ids"},
        {"stations", {"--vehicle", "T9"}, 2, "there is no unit \"T9\""},
        {"stations", {"--season", "sumer"}, 2, "did you mean \"summer\"?"},
        {"stations", {"--csv", (d / "roads.csv").string()}, 2, "is one of the inputs"},
        {"stations", {"--csv", (d / "no/where.csv").string()}, 4, "cannot write it"},
        {"stations", {"--limit-min", "0"}, 2, "--limit-min"},
    };
    for (const Case& asked : cases) {
        const Ended ended = drives(district, asked.from, "stations", asked.more);
        CAPTURE(asked.from, asked.says, ended.err);
        CHECK(ended.exit_code == asked.exit_code);
        CHECK(ended.out.empty());
        CHECK(contains(ended.err, asked.says));
    }
    CHECK(run_program(FARWATER_PROGRAM, {"drive-times", district.string(), "--from", "stations"})
              .exit_code == 2);
}

TEST_CASE("a table of drives is never written over what a run reads, the heights included",
          "[unit]") {
    const TemporaryFolder folder;
    const auto district = write_district(folder.path() / "d");
    const std::filesystem::path ground = folder.path() / "d" / "ground.tif";
    put(ground, "heights");
    put(district, bytes_of(district) + "[elevation]\nfile = \"ground.tif\"\n");
    for (const auto& input : {ground, district}) {
        const std::string before = bytes_of(input);
        const Ended ended = drives(district, "stations", "stations", {"--csv", input.string()});
        CAPTURE(input, ended.err);
        CHECK(ended.exit_code == 2);
        CHECK(contains(ended.err, "is one of the inputs"));
        CHECK(bytes_of(input) == before);
    }
}
