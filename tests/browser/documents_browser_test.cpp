// Printed documents of the other commands in a real browser: proposals and improvements with names
// that try to break out, and what is for the public.
#include <catch2/catch.hpp>

#include "io/geopackage/sqlite_file.h"
#include "tests/app/small_district.h"
#include "tests/browser/node.h"
#include "tests/support/temporary_folder.h"

using namespace farwater;
using namespace farwater::support;

namespace {

const std::string hostile = "</svg><script>alert(1)</script><img src=x onerror=alert(2)>";

// Two ideas of the officer's and one spending, all with hostile names.
std::filesystem::path write_district_of_ideas(const TemporaryFolder& folder) {
    const std::filesystem::path file = write_small_district(folder.path());
    put(folder / "ideas.csv",
        "WKT,proposal_id,name,kind,cost,rate_gpm,usable_gal,static_lift_ft\n"
        "POINT(503300 4500000),C1," +
            hostile +
            ",cistern,80000,800,60000,8\n"
            "POINT(502100 4500000),C2,Corner,cistern,80000,800,60000,8\n");
    put(file, bytes_of(file) +
                  "\n[proposals]\nfile = \"ideas.csv\"\ncrs = \"EPSG:32618\"\n"
                  "[[improvement]]\nkind = \"tanker\"\nname = \"" +
                  hostile + "\"\nlike = \"T1\"\nstation = \"S1\"\ncost = 420000\n");
    return file;
}

void check_page(const TemporaryFolder& folder, const std::string& command,
                const std::string& layer) {
    const std::filesystem::path out = folder / command;
    const Ended ended =
        run_program(FARWATER_PROGRAM, {command, (folder / "district.toml").string(), "--out",
                                       out.string(), "--yearly-budget", "50000", "--quiet"});
    INFO(ended.err);
    REQUIRE(ended.exit_code == 0);
    const std::string page = command == "propose" ? "proposals" : "improvements";
    const io::SqliteFile gpkg(out / (page + ".gpkg"));
    put(folder / "expected.json",
        gpkg.text("SELECT json_group_array(json_object('name', name, 'gained_gpm', gained_gpm)) "
                  "FROM (SELECT * FROM " +
                  layer + " ORDER BY rank)"));
    const Ended checked = run_script("gains_checks.mjs", {(out / (page + ".html")).string(),
                                                          (folder / "expected.json").string()});
    INFO(checked.out << checked.err);
    CHECK(checked.exit_code == 0);
}

}  // namespace

TEST_CASE("a browser shows a comparison of two results as it is meant, hostile ids included") {
    if (!has_browser()) {
        return;
    }
    const TemporaryFolder folder;
    const std::string district = write_small_district(folder.path()).string();
    const auto run = [&](const char* out) {
        const Ended ended = run_program(
            FARWATER_PROGRAM, {"run", district, "--out", (folder / out).string(), "--quiet"});
        INFO(ended.err);
        REQUIRE(ended.exit_code == 0);
    };
    run("last");
    std::string parcels = bytes_of(folder / "parcels.csv");
    parcels.replace(parcels.find("008"), 3, hostile);
    put(folder / "parcels.csv", parcels.replace(parcels.find("007,250"), 7, "007,100"));
    run("this");
    const Ended ended = run_program(FARWATER_PROGRAM, {"compare", (folder / "last").string(),
                                                       (folder / "this").string(), "--quiet"});
    INFO(ended.err);
    REQUIRE(ended.exit_code == 0);
    const Ended checked =
        run_script("public_checks.mjs", {(folder / "comparison/comparison.html").string()});
    INFO(checked.out << checked.err);
    CHECK(checked.exit_code == 0);
}

TEST_CASE("a browser shows what is for the public as it is meant") {
    if (!has_browser()) {
        return;
    }
    const TemporaryFolder folder;
    const Ended ended = run_program(
        FARWATER_PROGRAM, {"run", write_small_district(folder.path()).string(), "--audience",
                           "public", "--out", (folder / "out").string(), "--quiet"});
    INFO(ended.err);
    REQUIRE(ended.exit_code == 0);
    const Ended checked = run_script("public_checks.mjs", {(folder / "out/report.html").string()});
    INFO(checked.out << checked.err);
    CHECK(checked.exit_code == 0);
}

TEST_CASE("a browser shows proposals and improvements as they are meant, hostile names included") {
    if (!has_browser()) {
        return;
    }
    const TemporaryFolder folder;
    write_district_of_ideas(folder);
    check_page(folder, "propose", "source_proposals");
    check_page(folder, "improvements", "improvements");
}
