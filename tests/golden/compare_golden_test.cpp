// `farwater compare` on the sample region.
#include <catch2/catch.hpp>

#include "tests/open_data/open_data.h"
#include "tests/support/program.h"
#include "tests/support/region_run.h"
#include "tests/support/temporary_folder.h"

using namespace farwater::support;

TEST_CASE("the sample region compared with itself: nothing changed") {
    const TemporaryFolder folder;
    const std::string result = region_result(FARWATER_PROGRAM).string();
    const Ended ended = run_program(
        FARWATER_PROGRAM, {"compare", result, result, "--out", (folder / "out").string()});
    INFO(ended.err);
    REQUIRE(ended.exit_code == 0);
    CHECK(contains(ended.out, "Nothing changed: 2499 parcels and 3 targets have the same answers"));
    const farwater::open_data::Package found(folder / "out" / "comparison.gpkg");
    CHECK(found.number("SELECT count(*) FROM parcel_changes") == 0);
    CHECK(found.number("SELECT count(*) FROM input_changes") == 0);
}
