// The program as its users meet it: words, exit codes, files.
#include "tests/support/program.h"

#include <algorithm>
#include <csignal>
#include <cstdlib>

#include <catch2/catch.hpp>

#include "tests/app/small_district.h"
#include "tests/support/temporary_folder.h"

using namespace farwater::support;

namespace {

const std::string program = FARWATER_PROGRAM;

Ended run_on(const std::filesystem::path& district, std::vector<std::string> more = {}) {
    more.insert(more.begin(), {"run", district.string()});
    return run_program(program, more);
}

}  // namespace

TEST_CASE("help shows examples and exit codes on standard output", "[unit]") {
    const Ended help = run_program(program, {"--help"});
    CHECK(help.exit_code == 0);
    CHECK(contains(help.out, "farwater run district.toml"));
    CHECK(contains(help.out, "130 interrupted"));
    CHECK(help.err.empty());
    const Ended of_run = run_program(program, {"run", "--help"});
    CHECK(of_run.exit_code == 0);
    CHECK(contains(of_run.out, "--out"));
}

// In a shell, for its redirections.
TEST_CASE("what cannot be printed is exit code 4, and what cannot be said changes nothing",
          "[unit]") {
    const TemporaryFolder folder;
    const auto district = write_small_district(folder.path() / "d");
    const auto in_shell = [&](const std::string& line) {
        return run_program("/bin/sh", {"-c", program + " " + line + " " + district.string()});
    };
    for (const char* line :
         {">/dev/full keys #", ">/dev/full --help #", ">/dev/full check", ">/dev/full run --json",
          ">/dev/full drive-times --from stations --to "
          "parcels"}) {
        const Ended ended = in_shell(line);
        CAPTURE(line, ended.err);
        CHECK(ended.exit_code == 4);
        CHECK(contains(ended.err, "standard output"));
    }
    for (const char* streams : {"2>/dev/full", "2>&-", ">&- 2>&-", "<&- >&- 2>&-"}) {
        CAPTURE(streams);
        CHECK(in_shell(std::string(streams) + " run --verbose").exit_code == 0);
        CHECK(in_shell(std::string(streams) + " run --no-such-option").exit_code == 2);
    }
}

TEST_CASE("the version names the program first and the libraries behind it", "[unit]") {
    const Ended version = run_program(program, {"--version"});
    CHECK(version.exit_code == 0);
    CHECK(version.out.rfind("farwater ", 0) == 0);
    CHECK(contains(version.out, "GDAL 3."));
    CHECK(contains(version.out, "PROJ "));
}

TEST_CASE("misuse is exit code 2 and one message on standard error", "[unit]") {
    for (const std::vector<std::string>& arguments : {std::vector<std::string>{},
                                                      {"fly"},
                                                      {"run"},
                                                      {"run", "d.toml", "--bad"},
                                                      {"run", "d.toml", "--threads", "0"},
                                                      {"run", "d.toml", "--threads", "many"},
                                                      {"run", "d.toml", "--quiet", "--verbose"}}) {
        const Ended ended = run_program(program, arguments);
        CAPTURE(ended.err);
        CHECK(ended.exit_code == 2);
        CHECK(ended.out.empty());
        CHECK(contains(ended.err, "farwater: "));
        CHECK(contains(ended.err, "farwater --help"));
    }
}

TEST_CASE("a word that is no command is named, with the nearest that is", "[unit]") {
    CHECK(run_program(program, {"compares", "a", "b"}).err ==
          "farwater: there is no command \"compares\"; did you mean \"compare\"?\n"
          "Try: farwater --help\n");
    CHECK(contains(run_program(program, {"fly"}).err, "there is no command \"fly\"\n"));
    CHECK(contains(run_program(program, {}).err, "A subcommand is required"));
    CHECK(contains(run_program(program, {"run", "d", "--bad"}).err, "--bad"));
}

TEST_CASE("help says what words an option takes, and not how they are kept", "[unit]") {
    for (const char* command : {"run", "propose", "improvements"}) {
        CHECK_FALSE(contains(run_program(program, {command, "--help"}).out, "->"));
    }
    CHECK(contains(run_program(program, {"run", "d", "--audience", "all"}).err,
                   "--audience: \"all\" is none of its words, officers or public\n"));
    CHECK(contains(run_program(program, {"propose", "d", "--weigh-by", "0"}).err,
                   "\"0\" is none of its words, parcels, building_area, value or people\n"));
}

TEST_CASE("a run says five numbers and where the results lie", "[unit]") {
    const TemporaryFolder folder;
    const auto district = write_small_district(folder.path() / "d");
    const Ended ended = run_on(district);
    CAPTURE(ended.out, ended.err);
    REQUIRE(ended.exit_code == 0);
    CHECK(contains(ended.out, "of 2 improved parcels meet their planned flow"));
    CHECK(contains(ended.out, "timed drill"));
    CHECK(contains(ended.out, (folder.path() / "d" / "result" / "supply.gpkg").string()));
    CHECK(ended.err.empty());
    for (const char* file : {"supply.gpkg", "inputs.gpkg", "report.html", "tables/by_state.csv",
                             "tables/shortfalls.csv", "maps/overview.svg", "run.log"}) {
        CAPTURE(file);
        CHECK(std::filesystem::exists(folder.path() / "d" / "result" / file));
    }
    CHECK(contains(bytes_of(folder.path() / "d" / "result" / "tables" / "shortfalls.csv"), "008"));
}

// The second pass meets them again, and must not take the file for one that grew.
TEST_CASE("empty rows in the inputs change no answer", "[unit]") {
    const TemporaryFolder folder;
    const auto district = write_small_district(folder.path() / "d");
    REQUIRE(run_on(district).exit_code == 0);
    const auto shortfalls = folder.path() / "d" / "result" / "tables" / "shortfalls.csv";
    const std::string before = bytes_of(shortfalls);
    for (const char* file : {"parcels.csv", "apparatus.csv", "sources.csv"}) {
        std::string text = bytes_of(folder.path() / "d" / file);
        text.insert(text.find('\n') + 1, ",,\n");
        put(folder.path() / "d" / file, text + ",,\n,,\n");
    }
    const Ended ended = run_on(district);
    CAPTURE(ended.err);
    CHECK(ended.exit_code == 0);
    CHECK(contains(ended.out, "rows_empty"));
    CHECK(bytes_of(shortfalls) == before);
}

TEST_CASE("with terms of a rating a run writes its evidence, without them it writes none",
          "[unit]") {
    const TemporaryFolder folder;
    const auto district = write_small_district(folder.path() / "d");
    const auto result = folder.path() / "d" / "result";
    REQUIRE(run_on(district).exit_code == 0);
    CHECK_FALSE(std::filesystem::exists(result / "rating"));
    CHECK_FALSE(std::filesystem::exists(result / "tables" / "rating_sources.csv"));

    put(district, std::string(small_district_toml()) + "[rating]\nown_terms = \"terms.toml\"\n");
    put(folder.path() / "d" / "terms.toml", "[category]\notherwise = \"<far>\"\n");
    const Ended ended = run_on(district);
    CAPTURE(ended.err);
    REQUIRE(ended.exit_code == 0);
    const std::string coverage = bytes_of(result / "rating" / "coverage.html");
    CHECK(contains(coverage, "&lt;far&gt;"));
    CHECK_FALSE(contains(coverage, "<far>"));
    CHECK(contains(bytes_of(result / "tables" / "rating_terms.csv"), "own copy"));
    CHECK(contains(bytes_of(result / "tables" / "rating_sources.csv"), "not declared for rating"));
    CHECK(contains(bytes_of(result / "tables" / "rating_reasons.csv"), "source,"));

    put(folder.path() / "d" / "terms.toml", "[clock]\nfrom = \"noon\"\n");
    CHECK(run_on(district).exit_code == 2);
    CHECK(std::filesystem::exists(result / "rating" / "coverage.html"));
}

TEST_CASE("the same input gives the same bytes, whatever the threads, folder and locale",
          "[unit]") {
    const TemporaryFolder folder;
    const auto district = write_small_district(folder.path() / "d");
    ::setenv("TZ", "Asia/Kolkata", 1);
    REQUIRE(
        run_on(district, {"--out", (folder.path() / "one").string(), "--threads", "1"}).exit_code ==
        0);
    ::setenv("TZ", "America/New_York", 1);
    ::setenv("LC_ALL", "de_DE.UTF-8", 1);
    REQUIRE(
        run_on(district, {"--out", (folder.path() / "two").string(), "--threads", "2"}).exit_code ==
        0);
    ::unsetenv("TZ");
    ::unsetenv("LC_ALL");
    for (const char* file :
         {"supply.gpkg", "inputs.gpkg", "report.html", "tables/by_state.csv",
          "tables/shortfalls.csv", "tables/assumptions.csv", "maps/overview.svg"}) {
        CAPTURE(file);
        CHECK(bytes_of(folder.path() / "one" / file) == bytes_of(folder.path() / "two" / file));
    }
}

TEST_CASE("inputs are never written to", "[unit]") {
    const TemporaryFolder folder;
    const auto district = write_small_district(folder.path() / "d");
    std::filesystem::permissions(folder.path() / "d" / "parcels.csv",
                                 std::filesystem::perms::owner_read);
    const auto before = bytes_of(folder.path() / "d" / "parcels.csv");
    REQUIRE(run_on(district, {"--out", (folder.path() / "out").string()}).exit_code == 0);
    std::size_t files = 0;
    for ([[maybe_unused]] const auto& entry :
         std::filesystem::directory_iterator(folder.path() / "d")) {
        ++files;
    }
    CHECK(files == 6);
    CHECK(bytes_of(folder.path() / "d" / "parcels.csv") == before);
}

TEST_CASE("json is one document on standard output, quiet is silent", "[unit]") {
    const TemporaryFolder folder;
    const auto district = write_small_district(folder.path() / "d");
    const Ended json = run_on(district, {"--json"});
    CHECK(json.exit_code == 0);
    CHECK(json.out.front() == '{');
    CHECK(contains(json.out, "\"schema_version\": 1"));
    CHECK(json.out.substr(json.out.size() - 2) == "}\n");
    const Ended quiet = run_on(district, {"--quiet"});
    CHECK(quiet.exit_code == 0);
    CHECK(quiet.out.empty());
    CHECK(quiet.err.empty());
    const Ended both = run_on(district, {"--json", "--quiet"});
    CHECK(both.out == json.out);
    CHECK(both.err.empty());
}

TEST_CASE("more threads than the machine has are nothing to talk about", "[unit]") {
    const TemporaryFolder folder;
    const auto district = write_small_district(folder.path() / "d");
    const Ended ended = run_on(district, {"--threads", "64", "--quiet"});
    CHECK(ended.exit_code == 0);
    CHECK(ended.out.empty());
    CHECK(ended.err.empty());
}

TEST_CASE("check finds problems, ends with 5 and writes nothing", "[unit]") {
    const TemporaryFolder folder;
    const auto district = write_small_district(folder.path() / "d");
    put(folder.path() / "d" / "apparatus.csv",
        "unit_id,station_id,kind,tank_gal\nE1,S1,engine,1000\nT1,S1,tanker,two loads\nT2,S9,"
        "tanker,2000\n");
    const Ended ended = run_program(program, {"check", district.string()});
    CAPTURE(ended.out, ended.err);
    CHECK(ended.exit_code == 5);
    CHECK(contains(ended.out, "number_unreadable"));
    CHECK(contains(ended.out, "unit_station_unknown"));
    CHECK_FALSE(std::filesystem::exists(folder.path() / "d" / "result"));
}

TEST_CASE("strict turns problems into exit code 5 and still writes the result", "[unit]") {
    const TemporaryFolder folder;
    const auto district = write_small_district(folder.path() / "d");
    put(folder.path() / "d" / "sources.csv",
        "WKT,source_id,name,kind,standing,usable_gal\nPOINT(501000 4500000),D1,Mill "
        "Pond,dry_hydrant,declared,500000\n");
    CHECK(run_on(district, {"--strict", "--quiet"}).exit_code == 5);
    CHECK(std::filesystem::exists(folder.path() / "d" / "result" / "supply.gpkg"));
    CHECK(run_on(district, {"--quiet"}).exit_code == 0);
}

TEST_CASE("a wrong district file is exit code 2, with line, column and the nearest right key",
          "[unit]") {
    const TemporaryFolder folder;
    const auto district = write_small_district(folder.path() / "d");
    put(district, std::string(small_district_toml()) + "\n[assumptions]\nhose_reech_ft = 900\n");
    const Ended ended = run_on(district);
    CAPTURE(ended.err);
    CHECK(ended.exit_code == 2);
    CHECK(contains(ended.err, "district.toml:25:1"));
    CHECK(contains(ended.err, "hose_reach_ft"));
    CHECK(run_on(folder.path() / "none.toml").exit_code == 2);
}

TEST_CASE("an input that is not there is exit code 3 and leaves no result folder", "[unit]") {
    const TemporaryFolder folder;
    const auto district = write_small_district(folder.path() / "d");
    std::filesystem::remove(folder.path() / "d" / "roads.csv");
    const Ended ended = run_on(district);
    CAPTURE(ended.err);
    CHECK(ended.exit_code == 3);
    CHECK(contains(ended.err, "roads.csv"));
    for (const auto& entry : std::filesystem::directory_iterator(folder.path() / "d")) {
        CHECK_FALSE(entry.is_directory());
    }
}

TEST_CASE("a folder with other people's files is exit code 4 and stays as it is", "[unit]") {
    const TemporaryFolder folder;
    const auto district = write_small_district(folder.path() / "d");
    put(folder.path() / "out" / "thesis.txt", "years of work");
    const Ended ended = run_on(district, {"--out", (folder.path() / "out").string()});
    CAPTURE(ended.err);
    CHECK(ended.exit_code == 4);
    CHECK(bytes_of(folder.path() / "out" / "thesis.txt") == "years of work");
}

TEST_CASE("progress is drawn at a terminal and nowhere else", "[unit]") {
    const TemporaryFolder folder;
    const auto district = write_small_district(folder.path() / "d");
    const Ended at_terminal = run_program_at_terminal(program, {"run", district.string()});
    CHECK(at_terminal.exit_code == 0);
    CHECK(contains(at_terminal.err, "\r"));
    CHECK(contains(at_terminal.err, "reading"));
    CHECK(run_program_at_terminal(program, {"run", district.string(), "--quiet"}).err.empty());
    const Ended piped = run_on(district, {"--verbose"});
    CHECK_FALSE(contains(piped.err, "\r"));
    CHECK(contains(piped.err, "reading"));
}

TEST_CASE("interrupted, it ends within a second with 130 and the old result stays", "[unit]") {
    const TemporaryFolder folder;
    const auto district = write_small_district(folder.path() / "d");
    REQUIRE(run_on(district).exit_code == 0);
    const std::string before = bytes_of(folder.path() / "d" / "result" / "supply.gpkg");
    const int signal = GENERATE(SIGINT, SIGTERM);
    const auto writing = [&] {
        const std::filesystem::directory_iterator entries(folder.path() / "d");
        return std::any_of(begin(entries), end(entries), [](const auto& entry) {
            return contains(entry.path().filename().string(), ".new-");
        });
    };
    const Interrupted interrupted =
        interrupt_program(program, {"run", district.string()}, signal, writing);
    CAPTURE(interrupted.ended.exit_code);
    CHECK((interrupted.ended.exit_code == 130 || interrupted.ended.exit_code == 0));
    CHECK(interrupted.took < std::chrono::milliseconds(1500));
    CHECK(bytes_of(folder.path() / "d" / "result" / "supply.gpkg") == before);
    for (const auto& entry : std::filesystem::directory_iterator(folder.path() / "d")) {
        CHECK(entry.path().filename().string().find(".new-") == std::string::npos);
    }
}
