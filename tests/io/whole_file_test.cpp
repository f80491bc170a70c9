#include "io/whole_file.h"

#include <catch2/catch.hpp>

#include "io/error.h"
#include "tests/support/temporary_folder.h"

using namespace farwater::io;
using farwater::support::bytes_of;
using farwater::support::put;
namespace fs = std::filesystem;

TEST_CASE("a link stays, and what it leads to is written") {
    const farwater::support::TemporaryFolder folder;
    put(folder.path() / "there" / "old.csv", "old");
    fs::create_symlink("there/old.csv", folder.path() / "link.csv");
    write_whole_file(folder.path() / "link.csv", "new");
    CHECK(fs::is_symlink(folder.path() / "link.csv"));
    CHECK(bytes_of(folder.path() / "there" / "old.csv") == "new");

    fs::create_symlink("nowhere", folder.path() / "dangling");
    write_whole_file(folder.path() / "dangling", "new");
    CHECK(bytes_of(folder.path() / "dangling") == "new");
}

// As root, writing beside and renaming would put a file in the device's place.
TEST_CASE("a device is written to, not replaced") {
    const farwater::support::TemporaryFolder folder;
    const fs::path null = folder.path() / "null";
    fs::create_symlink("/dev/null", null);
    write_whole_file(null, "gone");
    CHECK(fs::is_character_file("/dev/null"));
    fs::create_symlink("/dev/full", folder.path() / "full");
    CHECK_THROWS_AS(write_whole_file(folder.path() / "full", "no room"), OutputError);
    CHECK(fs::is_character_file("/dev/full"));
    CHECK_THROWS_AS(write_whole_file(folder.path(), "a folder"), OutputError);
}

TEST_CASE("a folder that cannot be made is refused as output, in the system's words") {
    const farwater::support::TemporaryFolder folder;
    make_folder(folder.path() / "a" / "b");
    make_folder(folder.path() / "a" / "b");
    CHECK(fs::is_directory(folder.path() / "a" / "b"));
    put(folder.path() / "file", "no folder");
    fs::create_symlink("round", folder.path() / "round");  // leads to itself
    for (const fs::path& no_place : {fs::path("file"), fs::path("file") / "in", fs::path("round"),
                                     fs::path(std::string(300, 'x'))}) {
        CAPTURE(no_place);
        CHECK_THROWS_AS(make_folder(folder.path() / no_place), OutputError);
    }
}
