#include "io/files/unchanged_files.h"

#include <filesystem>

#include <catch2/catch.hpp>

#include "io/fingerprint.h"
#include "tests/support/temporary_folder.h"

namespace {

using namespace farwater::io;
using farwater::support::put;
using farwater::support::TemporaryFolder;

}  // namespace

TEST_CASE("a fingerprint is that of the files now, however often it is asked for") {
    const TemporaryFolder folder;
    const auto file = folder / "a";
    put(file, "one");
    Fingerprints fingerprints;
    const std::string one = sha256_of_file(file);
    CHECK(fingerprints.of({file}) == one);
    CHECK(fingerprints.of({file}) == one);
    put(file, "two");
    CHECK(fingerprints.of({file}) == sha256_of_file(file));
    CHECK(fingerprints.of({file}) != one);
    put(folder / "b", "more");
    CHECK(fingerprints.of({file, folder / "b"}) == sha256_of_files({file, folder / "b"}));
    CHECK(fingerprints.of({}).empty());
}

TEST_CASE("a file that changed has another stamp, also when its time is set back") {
    const TemporaryFolder folder;
    const auto file = folder / "a";
    put(file, "one");
    const FileStamps before = stamps_of({file, folder / "none"});
    CHECK(before[1] == FileStamp{});
    CHECK(stamps_of({file, folder / "none"}) == before);
    const auto time = std::filesystem::last_write_time(file);
    // The system's clock for files ticks a few times in a hundredth of a second.
    while (stamps_of({file}).front().status_changed_ns == before.front().status_changed_ns) {
        put(file, "two");
        std::filesystem::last_write_time(file, time);
    }
    const FileStamp after = stamps_of({file}).front();
    CHECK(after.changed_ns == before.front().changed_ns);
    CHECK(after.size == before.front().size);
    CHECK_FALSE(after == before.front());
}
