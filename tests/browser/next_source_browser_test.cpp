// report.html of a run that proposes sources, in a real browser.
#include <catch2/catch.hpp>

#include "io/geopackage/sqlite_file.h"
#include "tests/app/district_with_places.h"
#include "tests/browser/node.h"
#include "tests/support/temporary_folder.h"

using namespace farwater;
using namespace farwater::support;

namespace {

// What the layers say of each proposal, and of each parcel that one changes.
std::string expected_of(const std::filesystem::path& package) {
    const io::SqliteFile gpkg(package);
    return "{\"proposals\": " +
           gpkg.text(
               "SELECT json_group_array(json_object('name', name, 'gained_gpm', gained_gpm, "
               "'parcels_gaining', parcels_gaining)) FROM (SELECT * FROM source_proposals ORDER BY "
               "rank)") +
           ", \"gains\": " +
           gpkg.text(
               "SELECT json_group_array(json_object('rank', rank, 'parcel_id', parcel_id, "
               "'before_gpm', before_gpm, 'after_gpm', after_gpm, 'gained_gpm', gained_gpm)) FROM "
               "(SELECT * FROM proposal_gains ORDER BY rank, parcel_id)") +
           "}";
}

}  // namespace

TEST_CASE("a browser shows where the next sources go, on the map, in a sheet and of each parcel") {
    if (!has_browser()) {
        return;
    }
    const TemporaryFolder folder;
    const std::filesystem::path file = district_with_places(folder.path());
    std::string ideas = bytes_of(folder / "ideas.csv");
    ideas.replace(ideas.find("Corner"), 6, "<img src=x onerror=alert(1)>");
    put(folder / "ideas.csv", ideas);
    put(file, bytes_of(file) + "\n[next_source]\nsites = 2\n");
    const Ended ran =
        run_program(FARWATER_PROGRAM, {"run", file.string(), "--out", (folder / "out").string()});
    INFO(ran.out << ran.err);
    REQUIRE(ran.exit_code == 0);
    put(folder / "expected.json", expected_of(folder / "out/supply.gpkg"));
    const Ended ended = run_script("next_source_checks.mjs", {(folder / "out/report.html").string(),
                                                              (folder / "expected.json").string()});
    INFO(ended.out << ended.err);
    CHECK(ended.exit_code == 0);
}
