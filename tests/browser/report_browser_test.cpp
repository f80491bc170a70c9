// report.html in a real browser: what people do with it, and what it says.
#include <catch2/catch.hpp>

#include "io/geopackage/sqlite_file.h"
#include "tests/app/small_district.h"
#include "tests/browser/node.h"
#include "tests/support/region_run.h"
#include "tests/support/temporary_folder.h"

using namespace farwater;
using namespace farwater::support;

namespace {

// The layer's rows as JSON, for the script to work the page's numbers out again.
std::string rows_of_parcel_supply(const std::filesystem::path& file) {
    const char* columns =
        "'parcel_id', parcel_id, 'address', ADDRESS, 'state', state, 'needed_gpm', needed_gpm, "
        "'duration_min', duration_min, 'cautious_gpm', cautious_gpm, 'shortfall_gpm', "
        "shortfall_gpm, 'runner_up_gpm', runner_up_gpm, 'one_tanker_out_gpm', one_tanker_out_gpm, "
        "'first_engine_min', "
        "first_engine_min, 'tank_water_min', tank_water_min, 'continuous_min', continuous_min, "
        "'dump_site_id', dump_site_id, 'fill_source_id', fill_source_id, 'tankers', tankers, "
        "'supply_mode', supply_mode, 'second_fill_source_id', second_fill_source_id, "
        "'from_5_min_gpm', from_5_min_gpm, 'from_8_min_gpm', from_8_min_gpm, 'from_10_min_gpm', "
        "from_10_min_gpm, 'from_15_min_gpm', from_15_min_gpm, 'from_20_min_gpm', from_20_min_gpm, "
        "'from_30_min_gpm', from_30_min_gpm, 'from_60_min_gpm', from_60_min_gpm, "
        "'gain_tanker_gpm', gain_tanker_gpm, 'gain_offload_slot_gpm', gain_offload_slot_gpm, "
        "'gain_portable_tank_gpm', gain_portable_tank_gpm, 'gain_siphon_gpm', gain_siphon_gpm, "
        "'gain_road_room_gpm', gain_road_room_gpm, 'gain_crew_gpm', gain_crew_gpm, "
        "'gain_engine_gpm', gain_engine_gpm, "
        "'gain_ready_5_min_gpm', gain_ready_5_min_gpm, 'more_tankers', more_tankers";
    const io::SqliteFile gpkg(file);
    return gpkg.text(std::string("SELECT json_group_array(json_object(") + columns +
                     ")) FROM (SELECT * FROM parcel_supply ORDER BY fid)");
}

void run_district(const std::filesystem::path& file, const std::filesystem::path& out) {
    const Ended ended =
        run_program(FARWATER_PROGRAM, {"run", file.string(), "--out", out.string()});
    INFO(ended.err);
    REQUIRE(ended.exit_code == 0);
    CHECK(ended.out.find((out / "report.html").string()) != std::string::npos);
}

// A small district whose ids and names try to break out of their place; gives the hostile id as it
// is shown: letters that turn the writing direction are left out at reading.
std::string write_hostile_district(const TemporaryFolder& folder) {
    const std::string id = "</script><img src=x onerror=alert(1)>'\"&amp;`${1}";
    write_small_district(folder.path());
    std::string parcels = bytes_of(folder / "parcels.csv");
    std::string quoted = id;
    quoted.replace(quoted.find('"'), 1, "\"\"\xE2\x80\xAE\xE2\x81\xA7");
    parcels.replace(parcels.find("007"), 3, '"' + quoted + '"');
    put(folder / "parcels.csv", parcels);
    std::string sources = bytes_of(folder / "sources.csv");
    sources.replace(sources.find("Mill Pond"), 9, "</script><script>alert(2)</script>");
    put(folder / "sources.csv", sources);
    return id;
}

}  // namespace

TEST_CASE("a browser shows report.html from disk as it is meant, with the layer's numbers",
          "[golden]") {
    if (!has_browser()) {
        return;
    }
    const TemporaryFolder folder;
    const std::filesystem::path result = region_result(FARWATER_PROGRAM);
    put(folder / "expected.json", rows_of_parcel_supply(result / "supply.gpkg"));
    const Ended ended = run_script("report_checks.mjs", {(result / "report.html").string(),
                                                         (folder / "expected.json").string()});
    INFO(ended.out << ended.err);
    CHECK(ended.exit_code == 0);
}

TEST_CASE("hostile ids and names do nothing in a browser") {
    if (!has_browser()) {
        return;
    }
    const TemporaryFolder folder;
    const std::string id = write_hostile_district(folder);
    run_district(folder / "district.toml", folder / "out");
    const Ended ended =
        run_script("hostile_checks.mjs", {(folder / "out/report.html").string(), id});
    INFO(ended.out << ended.err);
    CHECK(ended.exit_code == 0);
}

TEST_CASE("parcels on top of each other are filled on the map") {
    if (!has_browser()) {
        return;
    }
    const TemporaryFolder folder;
    write_small_district(folder.path());
    run_district(folder / "district.toml", folder / "once");
    put(folder / "parcels.csv",
        bytes_of(folder / "parcels.csv") +
            "\"POLYGON((502300 4500020,502300 4500120,502400 4500120,502400 4500020,502300 "
            "4500020))\",017,250,1\n"
            "\"POLYGON((503000 4500020,503000 4500120,503100 4500120,503100 4500020,503000 "
            "4500020))\",018,900,1\n");
    run_district(folder / "district.toml", folder / "twice");
    const Ended ended = run_script("overlap_checks.mjs", {(folder / "once/report.html").string(),
                                                          (folder / "twice/report.html").string()});
    INFO(ended.out << ended.err);
    CHECK(ended.exit_code == 0);
}

TEST_CASE("a browser shows cards.html as it is meant, hostile ids and names included") {
    if (!has_browser()) {
        return;
    }
    const TemporaryFolder folder;
    const std::string id = write_hostile_district(folder);
    const Ended printed =
        run_program(FARWATER_PROGRAM, {"cards", (folder / "district.toml").string(), "--out",
                                       (folder / "out").string(), "--quiet"});
    INFO(printed.err);
    REQUIRE(printed.exit_code == 0);
    const Ended ended = run_script("cards_checks.mjs", {(folder / "out/cards.html").string(), id});
    INFO(ended.out << ended.err);
    CHECK(ended.exit_code == 0);
}
