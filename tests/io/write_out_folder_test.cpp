#include <chrono>
#include <csignal>
#include <iostream>
#include <optional>
#include <random>
#include <string>

#include <catch2/catch.hpp>
#include <sys/mount.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include "io/error.h"
#include "io/out_folder.h"
#include "io/whole_file.h"
#include "tests/support/temporary_folder.h"

namespace {

using namespace farwater::io;
using farwater::support::bytes_of;
using farwater::support::put;
using farwater::support::TemporaryFolder;
namespace fs = std::filesystem;

constexpr int files_of_a_result = 12;

// A result whose every file says the same version.
void write_result(const fs::path& folder, const std::string& version) {
    for (int i = 0; i < files_of_a_result; ++i) {
        put(folder / ("tables/" + std::to_string(i) + ".csv"), version);
    }
    put(folder / "supply.gpkg", version);
}

void publish(const fs::path& dir, const std::string& version, Swap swap = Swap::exchange) {
    OutFolder out = OutFolder::begin(dir, {});
    write_result(out.folder(), version);
    out.commit(swap);
}

// The version of a whole result; none for anything else.
std::optional<std::string> version_of(const fs::path& dir) {
    const std::string version = bytes_of(dir / "supply.gpkg");
    for (int i = 0; i < files_of_a_result; ++i) {
        if (bytes_of(dir / ("tables/" + std::to_string(i) + ".csv")) != version) {
            return std::nullopt;
        }
    }
    return version.empty() ? std::nullopt : std::optional(version);
}

std::size_t entries(const fs::path& folder) {
    return static_cast<std::size_t>(std::distance(fs::directory_iterator(folder), {}));
}

// Runs `work` in a process of its own and kills it after `microseconds`.
template <typename Action>
void run_and_kill(unsigned microseconds, Action work) {
    const pid_t child = ::fork();
    REQUIRE(child >= 0);
    if (child == 0) {
        try {
            work();
        } catch (...) {
            ::_exit(1);
        }
        ::_exit(0);
    }
    ::usleep(microseconds);
    ::kill(child, SIGKILL);
    ::waitpid(child, nullptr, 0);
}

template <typename Action>
unsigned microseconds_of(Action work) {
    const auto begin = std::chrono::steady_clock::now();
    work();
    return static_cast<unsigned>(std::chrono::duration_cast<std::chrono::microseconds>(
                                     std::chrono::steady_clock::now() - begin)
                                     .count());
}

}  // namespace

TEST_CASE("a result appears under its name only when it is committed") {
    const TemporaryFolder home;
    const fs::path dir = home / "results";
    {
        OutFolder out = OutFolder::begin(dir, {});
        write_result(out.folder(), "1");
        CHECK_FALSE(fs::exists(dir));
        CHECK(out.folder().parent_path() == home.path());
        out.commit();
        CHECK(version_of(dir) == "1");
    }
    CHECK(version_of(dir) == "1");
    CHECK(entries(home.path()) == 1);
}

TEST_CASE("a second result takes the place of the first and nothing of the first is left") {
    const Swap swap = GENERATE(Swap::exchange, Swap::two_renames);
    const TemporaryFolder home;
    const fs::path dir = home / "results";
    publish(dir, "1", swap);
    {
        OutFolder out = OutFolder::begin(dir, {});
        put(out.folder() / "only.txt", "2");
        CHECK(version_of(dir) == "1");
        out.commit(swap);
    }
    CHECK(bytes_of(dir / "only.txt") == "2");
    CHECK_FALSE(fs::exists(dir / "supply.gpkg"));
    CHECK(entries(home.path()) == 1);
}

TEST_CASE("a run that ends without a commit leaves the old result and nothing else") {
    const TemporaryFolder home;
    const fs::path dir = home / "results";
    publish(dir, "1");
    {
        OutFolder out = OutFolder::begin(dir, {});
        write_result(out.folder(), "2");
    }
    CHECK(version_of(dir) == "1");
    CHECK(entries(home.path()) == 1);
}

TEST_CASE("an abandoned run cannot commit any more") {
    const TemporaryFolder home;
    const fs::path dir = home / "results";
    publish(dir, "1");
    OutFolder out = OutFolder::begin(dir, {});
    write_result(out.folder(), "2");
    out.abandon();
    CHECK_THROWS_AS(out.commit(), OutputError);
    CHECK(version_of(dir) == "1");
    CHECK(entries(home.path()) == 1);
}

TEST_CASE("a folder with files of somebody else is refused and stays as it is") {
    const TemporaryFolder home;
    const fs::path dir = home / "work";
    put(dir / "thesis.txt", "years");
    CHECK_THROWS_WITH(OutFolder::begin(dir, {}),
                      Catch::Contains("work: holds files that are not results of farwater "
                                      "(thesis.txt)"));
    CHECK(bytes_of(dir / "thesis.txt") == "years");
    CHECK(entries(home.path()) == 1);
}

TEST_CASE("a file that somebody put into a result is refused, what a file manager leaves is not") {
    const TemporaryFolder home;
    const fs::path dir = home / "results";
    publish(dir, "1");
    put(dir / "tables/.DS_Store", "x");
    publish(dir, "2");
    CHECK(version_of(dir) == "2");
    put(dir / "tables/notes.txt", "mine");
    CHECK_THROWS_WITH(OutFolder::begin(dir, {}),
                      Catch::Contains("tables/notes.txt: is not a result"));
    CHECK(bytes_of(dir / "tables/notes.txt") == "mine");
}

TEST_CASE("a file put into a result while the run works is not lost") {
    const Swap swap = GENERATE(Swap::exchange, Swap::two_renames);
    const TemporaryFolder home;
    const fs::path dir = home / "results";
    publish(dir, "1");
    {
        OutFolder out = OutFolder::begin(dir, {});
        write_result(out.folder(), "2");
        put(dir / "notes.txt", "mine");
        CHECK_THROWS_AS(out.commit(swap), OutputError);
    }
    CHECK(version_of(dir) == "1");
    CHECK(bytes_of(dir / "notes.txt") == "mine");
    CHECK(entries(home.path()) == 1);
}

TEST_CASE("an empty folder is accepted, a file under the name is not") {
    const TemporaryFolder home;
    fs::create_directory(home / "empty");
    publish(home / "empty", "1");
    CHECK(version_of(home / "empty") == "1");
    put(home / "file", "x");
    CHECK_THROWS_WITH(OutFolder::begin(home / "file", {}),
                      Catch::Contains("is a file, not a folder"));
}

TEST_CASE("a result that is open in another program is refused, before the run and after it") {
    const TemporaryFolder home;
    const fs::path dir = home / "results";
    publish(dir, "1");
    for (const std::string suffix : {"-wal", "-shm", "-journal"}) {
        const fs::path beside = dir / ("supply.gpkg" + suffix);
        put(beside, "");
        CHECK_THROWS_WITH(OutFolder::begin(dir, {}),
                          Catch::Contains("supply.gpkg: is open in another program"));
        fs::remove(beside);
        {
            OutFolder out = OutFolder::begin(dir, {});
            write_result(out.folder(), "2");
            put(beside, "");
            CHECK_THROWS_WITH(out.commit(), Catch::Contains("is open in another program"));
        }
        CHECK(fs::exists(beside));
        fs::remove(beside);
    }
    CHECK(version_of(dir) == "1");
    CHECK(entries(home.path()) == 1);
}

TEST_CASE("an out folder with an input of the run in it is refused") {
    const TemporaryFolder home;
    const fs::path dir = home / "results";
    publish(dir, "1");
    CHECK_THROWS_WITH(OutFolder::begin(dir, {home / "roads.gpkg", dir / "supply.gpkg"}),
                      Catch::Contains("supply.gpkg: is an input of this run"));
    fs::create_directory_symlink(dir, home / "link");
    CHECK_THROWS_AS(OutFolder::begin(dir, {home / "link/supply.gpkg"}), OutputError);
    CHECK_NOTHROW(OutFolder::begin(dir, {home / "results-of-others/supply.gpkg"}));
    CHECK(version_of(dir) == "1");
}

TEST_CASE("a link to a folder stays a link, and the folder behind it is replaced") {
    const TemporaryFolder home;
    fs::create_directory(home / "disk");
    fs::create_directory_symlink("disk/results", home / "link");
    publish(home / "link", "1");
    publish(home / "link", "2");
    CHECK(fs::is_symlink(home / "link"));
    CHECK(version_of(home / "disk/results") == "2");
    CHECK(entries(home / "disk") == 1);
}

TEST_CASE("a trailing slash and missing parent folders do not matter") {
    const TemporaryFolder home;
    publish(home / "a/b/results/", "1");
    CHECK(version_of(home / "a/b/results") == "1");
    CHECK(entries(home / "a/b") == 1);
}

TEST_CASE("two runs never meet in one folder") {
    const TemporaryFolder home;
    const fs::path dir = home / "results";
    OutFolder first = OutFolder::begin(dir, {});
    write_result(first.folder(), "1");
    CHECK_THROWS_WITH(OutFolder::begin(dir, {}), Catch::Contains("another run is writing there"));
    CHECK_NOTHROW(OutFolder::begin(home / "elsewhere", {}));
    first.commit();
    publish(dir, "2");
    CHECK(version_of(dir) == "2");
}

TEST_CASE("the next run removes what a killed one left, but nothing that only looks like it") {
    const TemporaryFolder home;
    const fs::path dir = home / "results";
    publish(dir, "1");
    run_and_kill(50'000, [&] {
        OutFolder out = OutFolder::begin(dir, {});
        write_result(out.folder(), "2");
        ::pause();
    });
    CHECK(entries(home.path()) == 3);  // with its lock
    put(home / "results.new-year/card.txt", "mine");
    put(home / "results.new-123/card.txt", "mine");
    publish(dir, "3");
    CHECK(version_of(dir) == "3");
    CHECK(bytes_of(home / "results.new-year/card.txt") == "mine");
    CHECK(bytes_of(home / "results.new-123/card.txt") == "mine");
    CHECK(entries(home.path()) == 3);
}

TEST_CASE("a run killed between two renames is finished, or undone where nothing is whole") {
    const TemporaryFolder home;
    const fs::path dir = home / "results";
    publish(dir, "1");
    fs::rename(dir, home / "results.old-7");
    SECTION("undone") {
        settle_out_folder(dir);
        CHECK(version_of(dir) == "1");
    }
    SECTION("finished") {
        publish(home / "other", "2");
        fs::rename(home / "other", home / "results.new-7");
        settle_out_folder(dir);
        CHECK(version_of(dir) == "2");
    }
    SECTION("by the next run") {
        OutFolder::begin(dir, {}).abandon();
        CHECK(version_of(dir) == "1");
    }
    CHECK(entries(home.path()) == 1);
}

TEST_CASE("settling does nothing where there is nothing to mend") {
    const TemporaryFolder home;
    settle_out_folder(home / "results");
    CHECK(entries(home.path()) == 0);
    publish(home / "results", "1");
    settle_out_folder(home / "results");
    CHECK(version_of(home / "results") == "1");
}

TEST_CASE("a run killed at any moment leaves one whole result") {
    const Swap swap = GENERATE(Swap::exchange, Swap::two_renames);
    const TemporaryFolder home;
    const fs::path dir = home / "results";
    publish(dir, "0");
    const unsigned seed = std::random_device()();
    CAPTURE(seed);
    std::mt19937 random(seed);
    // Long enough for a result or two, on any disk.
    const unsigned longest = 3 * microseconds_of([&] { publish(dir, "0", swap); });
    int changes = 0;
    std::string before = "0";
    for (int i = 0; i < 40; ++i) {
        run_and_kill(static_cast<unsigned>(random() % longest), [&] {
            for (int version = 0;; ++version) {
                publish(dir, std::to_string(i) + "." + std::to_string(version), swap);
            }
        });
        // With an exchange the result is whole at once, otherwise after the mending.
        if (swap == Swap::exchange) {
            REQUIRE(version_of(dir).has_value());
        }
        settle_out_folder(dir);
        const auto after = version_of(dir);
        REQUIRE(after.has_value());
        changes += *after != before ? 1 : 0;
        before = *after;
    }
    CHECK(changes > 0);
    publish(dir, "last");
    CHECK(version_of(dir) == "last");
    CHECK(entries(home.path()) == 1);
}

TEST_CASE("a result of many files is published too") {
    const TemporaryFolder home;
    OutFolder out = OutFolder::begin(home / "results", {});
    for (int i = 0; i < 200; ++i) {
        put(out.folder() / ("cards/" + std::to_string(i)), "card");
    }
    out.commit();
    CHECK(entries(home / "results/cards") == 200);
}

TEST_CASE("a full disk is an error with the path, and the old result stays") {
    const TemporaryFolder home;
    const fs::path disk = home / "disk";
    fs::create_directory(disk);
    if (::mount("tmpfs", disk.c_str(), "tmpfs", 0, "size=256k") != 0) {
        std::cout << "SKIPPED: only root can mount a small disk\n";
        return;
    }
    const fs::path dir = disk / "results";
    publish(dir, "1");
    {
        OutFolder out = OutFolder::begin(dir, {});
        CHECK_THROWS_WITH(
            write_whole_file(out.folder() / "big", std::string(1 << 20, 'x')),
            Catch::Contains("big: cannot write it") && Catch::Contains("No space left on device"));
    }
    CHECK(version_of(dir) == "1");
    CHECK(entries(disk) == 1);
    ::umount(disk.c_str());
}

TEST_CASE("a file size limit is an error with the path") {
    const TemporaryFolder home;
    rlimit before{};
    ::getrlimit(RLIMIT_FSIZE, &before);
    const auto handler = std::signal(SIGXFSZ, SIG_IGN);
    const rlimit small{1000, before.rlim_max};
    ::setrlimit(RLIMIT_FSIZE, &small);
    CHECK_THROWS_WITH(write_whole_file(home / "big", std::string(5000, 'x')),
                      Catch::Contains("big: cannot write it") && Catch::Contains("File too large"));
    ::setrlimit(RLIMIT_FSIZE, &before);
    std::signal(SIGXFSZ, handler);
    CHECK(entries(home.path()) == 0);
}
