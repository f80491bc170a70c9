// calibrate: timed runs beside the plan, with planned figures that are worked out by hand.
#include <cmath>

#include <catch2/catch.hpp>

#include "tests/app/small_district.h"
#include "tests/support/program.h"
#include "tests/support/temporary_folder.h"

using namespace farwater::support;

namespace {

constexpr const char* head =
    "run_id,unit_id,from_id,date,period,turnout_min,drive_min,toned_at,rolling_at,arrived_at,x,y\n";

// With a winter at half speed, and these runs.
std::filesystem::path write_timed(const std::filesystem::path& folder, const std::string& runs) {
    const auto district = write_small_district(folder);
    put(district, std::string(small_district_toml()) +
                      "[timed_runs]\nfile = \"runs.csv\"\ncrs = \"EPSG:32618\"\n"
                      "[season.summer]\nmonths = \"4-11\"\n"
                      "[season.winter]\nmonths = \"12-3\"\nspeed_factor = 0.5\n"
                      "[period.night]\n[period.weekday_day]\nturnout_staffed_min = 3\n"
                      "[assumptions]\nturnout_staffed_min = 2\n");
    put(folder / "runs.csv", head + runs);
    return district;
}

Ended calibrate(const std::filesystem::path& district, std::vector<std::string> more = {}) {
    more.insert(more.begin(), {"calibrate", district.string()});
    return run_program(FARWATER_PROGRAM, more);
}

std::string csv_of_runs(const std::filesystem::path& district) {
    const std::filesystem::path file = district.parent_path() / "out.csv";
    const Ended ended = calibrate(district, {"--csv", file.string()});
    CAPTURE(ended.err);
    REQUIRE(ended.exit_code == 0);
    return bytes_of(file).substr(3);
}

// 1,000 m of a paved road at 35 mph, in tenths of a second, rounded up.
double minutes_of_kilometre(double factor) {
    return std::ceil(1000.0 / 1609.344 / (35.0 * factor) * 36000.0) / 600.0;
}

std::string two_decimals(double value) {
    char text[32];
    std::snprintf(text, sizeof text, "%.2f", value);
    return text;
}

}  // namespace

TEST_CASE("a drive is planned from the station, a source or a place, by the season of its date") {
    const TemporaryFolder folder;
    const auto district = write_timed(folder.path(),
                                      "a,E1,,2026-05-01,night,,2,,,,501100,4500010\n"
                                      "b,T1,,2026-01-15,night,,4,,,,501100,4500010\n"
                                      "c,T1,D1,,weekday_day,,2,,,,502000,4499990\n"
                                      "d,E1,,,,,2,,,,501100,4530000\n");
    const std::string csv = csv_of_runs(district);
    const std::string summer = two_decimals(minutes_of_kilometre(1.0));
    const std::string winter = two_decimals(minutes_of_kilometre(0.5));
    CHECK(csv.find("a,E1,summer,night,,2.00,2.00," + summer + "\r\n") != std::string::npos);
    CHECK(csv.find("b,T1,winter,night,,2.00,4.00," + winter + "\r\n") != std::string::npos);
    CHECK(csv.find("c,T1,summer,weekday_day,,3.00,2.00," + summer + "\r\n") != std::string::npos);
    CHECK(csv.find("d,E1,summer,,,,2.00,\r\n") != std::string::npos);  // no road there
}

TEST_CASE("minutes are those between the times of day, where none are given, over midnight too") {
    const TemporaryFolder folder;
    const auto district = write_timed(folder.path(),
                                      "a,E1,,,night,,,23:57:00,23:59:30,0:03:00,501100,4500010\n"
                                      "b,E1,,,night,1.5,,2:00 PM,2:04 PM,2:09 PM,501100,4500010\n"
                                      "c,E1,,,night,,3,14:05,14:01,,501100,4500010\n");
    const Ended ended =
        calibrate(district, {"--json", "--csv", (folder.path() / "o.csv").string()});
    CAPTURE(ended.err);
    REQUIRE(ended.exit_code == 0);
    const std::string csv = bytes_of(folder.path() / "o.csv");
    CHECK(csv.find("a,E1,summer,night,2.50,2.00,3.50,") != std::string::npos);
    CHECK(csv.find("b,E1,summer,night,1.50,2.00,5.00,") != std::string::npos);
    CHECK(csv.find("c,E1,summer,night,,2.00,3.00,") != std::string::npos);
    CHECK(ended.err.find("time of day that cannot be read") != std::string::npos);
    CHECK(ended.out.find("\"clock_unreadable\": 1") != std::string::npos);
}

TEST_CASE("the text says how many runs the plan covers, and what follows for the speeds") {
    const TemporaryFolder folder;
    std::string runs;
    for (int i = 0; i < 10; ++i) {
        runs += "r" + std::to_string(i) + ",E1,,,night," + (i < 7 ? "1.5" : "5") +
                ",2.2,,,,501100,4500010\n";
    }
    const Ended ended = calibrate(write_timed(folder.path(), runs));
    CAPTURE(ended.err);
    REQUIRE(ended.exit_code == 0);
    CAPTURE(ended.out);
    const double part = 2.2 / minutes_of_kilometre(1.0);
    CHECK(ended.out.find("Small: 10 timed runs beside the plan") != std::string::npos);
    CHECK(ended.out.find("10 of 10 have a planned way") != std::string::npos);
    CHECK(ended.out.find("planning speeds x " + two_decimals(1.0 / part)) != std::string::npos);
    CHECK(ended.out.find("The plan is faster than these crews were.") != std::string::npos);
    CHECK(ended.out.find("S1, night") != std::string::npos);
    CHECK(ended.out.find("7 (70.0 %)") != std::string::npos);
    CHECK(ended.out.find("prove them by a timed drill") != std::string::npos);
}

TEST_CASE("a run that names what the district has not is a problem row, and the others count") {
    const TemporaryFolder folder;
    std::string runs =
        "a,E9,,,night,,2,,,,501100,4500010\nb,E1,X9,,night,,2,,,,501100,4500010\n"
        "c,E1,,,evening,,2,,,,501100,4500010\nd,E1,,,night,,,,,,501100,4500010\n";
    for (int i = 0; i < 4; ++i) {
        runs += "r" + std::to_string(i) + ",E1,,,night,,2,,,,501100,4500010\n";
    }
    const auto district = write_timed(folder.path(), runs);
    const Ended ended = calibrate(district, {"--strict"});
    CHECK(ended.exit_code == 5);
    for (const char* said :
         {"record a, column unit_id: names a unit that is not in the apparatus list",
          "record b, column from_id: names a start that is no station, water source or dump site "
          "place",
          "record c, column period: names a period that the district file does not have",
          "record d, column drive_min: lacks a value without which it says nothing"}) {
        CAPTURE(said, ended.err);
        CHECK(ended.err.find(said) != std::string::npos);
    }
    CHECK(ended.out.find("4 timed runs beside the plan") != std::string::npos);
}

TEST_CASE("without runs, or over an input, it ends with a sentence") {
    const TemporaryFolder folder;
    const Ended none = calibrate(write_small_district(folder.path()));
    CHECK(none.exit_code == 2);
    CHECK(none.err.find("there are no runs to set beside the plan: add [timed_runs]") !=
          std::string::npos);
    const auto district = write_timed(folder.path(), "a,E1,,,night,,2,,,,501100,4500010\n");
    const Ended over = calibrate(district, {"--csv", (folder.path() / "runs.csv").string()});
    CHECK(over.exit_code == 2);
    CHECK(over.err.find("is one of the inputs; name another file") != std::string::npos);
    CHECK(bytes_of(folder.path() / "runs.csv").starts_with("run_id"));
}
