// farwater shuttle: the page, the JSON document, what it refuses.
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "tests/app/small_district.h"
#include "tests/app/typed_scenarios.h"
#include "tests/support/program.h"
#include "tests/support/temporary_folder.h"

using namespace farwater::support;

namespace {

Ended shuttle(const std::filesystem::path& scenario, std::vector<std::string> more = {}) {
    more.insert(more.begin(), {"shuttle", scenario.string()});
    return run_program(FARWATER_PROGRAM, more);
}

constexpr const char* example = "sample_region/shuttle.toml";

}  // namespace

TEST_CASE("the example scenario has a page that names every flow for what it is") {
    const Ended ended = shuttle(example);
    CAPTURE(ended.out);
    CHECK(ended.exit_code == 0);
    CHECK(ended.err.empty());
    for (const char* part :
         {"shuttle.toml: 4 tankers, 2 fill sites\n", "from minute 27.5 for 120 min", "Plan on",
          "Cautious flow", "Sustained flow", "One tanker out", "What limits it: ",
          "one more tanker like the largest", "Where each tanker fills, the best that was found:\n",
          "Build-up: gpm that can be held for 120 min", "Handbook sum", "Upper bound", "Disorder",
          "Assumed, for the scenario does not say:\n", "fill_limit_gpm = 500",
          "Not modelled:", "prove them by a timed drill", "authority having jurisdiction"}) {
        CAPTURE(part);
        CHECK(contains(ended.out, part));
    }
}

TEST_CASE("the JSON document has the page's numbers") {
    const Ended ended = shuttle(example, {"--json"});
    CHECK(ended.exit_code == 0);
    const auto document = nlohmann::json::parse(ended.out);
    for (const char* key :
         {"sustained_gpm", "binding_limit", "gains", "handbook_gpm", "upper_bound_gpm",
          "cautious_gpm", "disorder_gpm", "worst_tanker_out", "allocation", "build_up", "assumed",
          "earliest_start_min", "holds_for_min", "start_min", "duration_min", "cautions"}) {
        CAPTURE(key);
        CHECK(document.contains(key));
    }
    const double sustained = document["sustained_gpm"];
    CHECK(document["cautious_gpm"] <= sustained);
    CHECK(document["upper_bound_gpm"] >= sustained);
    CHECK(document["worst_tanker_out"]["gpm"] <= sustained);
    CHECK(document["planned_gpm"].get<int>() % 25 == 0);
    CHECK(document["planned_gpm"] <= document["cautious_gpm"]);
    for (const char* gain : {"tanker", "fill_place", "flow_line", "offload_slot", "portable_tank",
                             "source_doubled", "cap_lifted"}) {
        CAPTURE(gain);
        CHECK(document["gains"][gain] >= 0.0);
    }
    CHECK(document["allocation"].size() == 4);
    CHECK(document["allocation_searched"] == true);
    CHECK(document["build_up"].size() == 7);
    CHECK(shuttle(example, {"--json"}).out == ended.out);  // the same bytes
}

TEST_CASE("a scenario that asks for no flow gets no judgement on it") {
    const TemporaryFolder folder;
    put(folder.path() / "s.toml",
        farwater::replaced(farwater::hollow_road(), "needed_gpm = 500\n", ""));
    const Ended page = shuttle(folder.path() / "s.toml");
    CHECK(page.exit_code == 0);
    CHECK_FALSE(contains(page.out, "Needed"));
    CHECK(contains(page.out, "Where each tanker fills, as given:\n"));
    CHECK_FALSE(nlohmann::json::parse(shuttle(folder.path() / "s.toml", {"--json"}).out)
                    .contains("needed_gpm"));
}

TEST_CASE("a wrong scenario ends with one sentence and exit code 2") {
    const TemporaryFolder folder;
    const auto file = folder.path() / "s.toml";
    put(file, farwater::replaced(farwater::hollow_road(), "gal = 2500", "gal = 0"));
    const Ended wrong = shuttle(file);
    CHECK(wrong.exit_code == 2);
    CHECK(wrong.out.empty());
    CHECK(wrong.err == "farwater: " + file.string() +
                           ":19:7: [[tanker]] gal must be between 100 and 20000, not 0\n");
    const Ended nowhere = shuttle(folder.path() / "none.toml");
    CHECK(nowhere.exit_code == 2);
    CHECK(contains(nowhere.err, "there is no such file; name the scenario's TOML file"));
    CHECK(run_program(FARWATER_PROGRAM, {"shuttle"}).exit_code == 2);
}

TEST_CASE("names may hold anything and move no cursor") {
    const TemporaryFolder folder;
    put(folder.path() / "s.toml",
        farwater::replaced(farwater::hollow_road(), "id = \"T1\"", "id = \"T\\u001b[2J\\n1\""));
    const Ended page = shuttle(folder.path() / "s.toml");
    CHECK(page.exit_code == 0);
    CHECK_FALSE(contains(page.out, "\x1b"));
    CHECK(contains(page.out, "T\uFFFD[2J 1"));
}

TEST_CASE("help for shuttle and the keys of its file") {
    const Ended help = run_program(FARWATER_PROGRAM, {"shuttle", "--help"});
    CHECK(help.exit_code == 0);
    CHECK(contains(help.out, "farwater shuttle scenario.toml --json"));
    CHECK(contains(run_program(FARWATER_PROGRAM, {"keys"}).out, "[tanker.travel.\"FILL SITE\"]"));
}
