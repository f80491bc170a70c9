// Files that may not be opened, are cut off, locked, or may be read and not written.
#include <algorithm>
#include <memory>
#include <stdexcept>
#include <string>
#include <vector>

#include <catch2/catch.hpp>
#include <sqlite3.h>
#include <sys/stat.h>

#include "io/draft_district.h"
#include "io/files/why_unreadable.h"
#include "io/result_file.h"
#include "tests/io/draft_folder.h"
#include "tests/io/read_scene.h"
#include "tests/support/as_nobody.h"

using namespace farwater;
using namespace farwater::io;
using farwater::support::AsNobody;
using farwater::support::bytes_of;
using farwater::support::open_to_all;
using farwater::support::put;
namespace fs = std::filesystem;

namespace {

using Database = std::unique_ptr<sqlite3, decltype(&sqlite3_close)>;

Database opened(const fs::path& file, const char* statement) {
    sqlite3* raw = nullptr;
    const int code = sqlite3_open(file.c_str(), &raw);
    Database database(raw, &sqlite3_close);
    if (code != SQLITE_OK ||
        sqlite3_exec(database.get(), statement, nullptr, nullptr, nullptr) != SQLITE_OK) {
        throw std::runtime_error("cannot open the test's package");
    }
    return database;
}

bool has(const std::vector<std::string>& list, const std::string& one) {
    return std::ranges::find(list, one) != list.end();
}

}  // namespace

TEST_CASE("a file that may not be opened is told in the system's words") {
    DraftFolder folder;
    open_to_all(folder.path());
    make_file(folder / "parcels.shp", "ESRI Shapefile", {lots("parcels", "PIN")});
    folder.text("roads.csv", "class,WKT\nstate,\"LINESTRING (0 0,1 1)\"\n")
        .text("heights.tif", "II*")
        .text("stations.csv", "station_id,lon,lat\nS1,-72,43\n");
    for (const char* closed : {"parcels.dbf", "roads.csv", "heights.tif"}) {
        fs::permissions(folder / closed, fs::perms::none);
    }
    const AsNobody rights;
    const std::string why = "cannot be opened: Permission denied";
    CHECK(why_unreadable(folder / "roads.csv") == "the file " + why);
    CHECK(missing_beside(folder / "parcels.shp") == "its .dbf " + why);
    CHECK(has(folder.passed_over(), "roads.csv: the file " + why));
    CHECK(has(folder.passed_over(), "heights.tif: the file " + why));
    CHECK(has(folder.draft().missing, "parcels.shp: its .dbf " + why));
    CHECK_THAT(folder.draft().district_file, Catch::Contains("parcels.shp: its .dbf " + why));
}

TEST_CASE("a pipe or a device is refused, for nobody could read it twice") {
    ReadScene scene;
    REQUIRE(::mkfifo((scene / "pipe.csv").c_str(), 0600) == 0);
    scene.source("roads", "pipe.csv");
    const std::string why =
        " is a pipe or a device, and inputs are read twice; name a file or a folder.";
    CHECK(scene.refusal() == "roads (pipe.csv): FOLDER/pipe.csv" + why);
    scene.source("roads", "/dev/zero");
    CHECK(scene.refusal() == "roads (/dev/zero): /dev/zero" + why);
}

TEST_CASE("a GeoPackage that was cut off is told so, once") {
    const DraftFolder folder;
    make_file(folder / "whole.gpkg", "GPKG", {lots("roads", "PIN")});
    const std::string whole = bytes_of(folder / "whole.gpkg");
    const std::string why = "the file is cut off, 20000 of " + std::to_string(whole.size()) +
                            " bytes are there; copy it anew";
    put(folder / "supply.gpkg", whole.substr(0, 20'000));
    CHECK(why_unreadable(folder / "whole.gpkg").empty());
    CHECK(has(folder.passed_over(), "supply.gpkg: " + why));
    CHECK_THROWS_WITH(ResultFile(folder.path()), Catch::Contains(why));
    ReadScene scene;
    scene.file("roads.gpkg", whole.substr(0, 20'000)).source("roads", "roads.gpkg");
    CHECK(scene.refusal() == "roads (roads.gpkg): " + why + ".");
}

TEST_CASE("a GeoPackage that another program has locked is told so") {
    ReadScene scene;
    make_file(scene / "roads.gpkg", "GPKG", {lots("roads", "PIN")});
    const Database editor = opened(scene / "roads.gpkg", "BEGIN EXCLUSIVE");
    scene.source("roads", "roads.gpkg");
    const std::string why = "another program has locked the file; close it there, or copy the file";
    CHECK(scene.refusal() == "roads (roads.gpkg): " + why + ".");
    CHECK_THROWS_WITH(ResultFile(scene / "roads.gpkg"), Catch::Contains(why));
}

// SQLite would leave a -wal and a -shm that belong to the reader and are in the owner's way.
TEST_CASE("nothing is left beside a GeoPackage that may not be written") {
    const DraftFolder folder;
    make_file(folder / "parcels.gpkg", "GPKG", {lots("parcels", "PIN")});
    opened(folder / "parcels.gpkg", "PRAGMA journal_mode = WAL");
    open_to_all(folder.path());
    fs::permissions(folder / "parcels.gpkg",
                    fs::perms::owner_read | fs::perms::group_read | fs::perms::others_read);
    const AsNobody rights;
    CHECK(folder.recognised() == std::vector<std::string>{"parcels from parcels.gpkg"});
    CHECK(std::distance(fs::directory_iterator(folder.path()), {}) == 1);
}
