// `farwater propose`, as its users meet it, and against runs with the proposed sources.
#include <catch2/catch.hpp>
#include <cpl_minixml.h>

#include "tests/app/district_with_places.h"
#include "tests/open_data/open_data.h"
#include "tests/support/program.h"
#include "tests/support/temporary_folder.h"

using namespace farwater::support;
using farwater::open_data::Package;

namespace {

namespace fs = std::filesystem;

const std::string proposing = FARWATER_PROGRAM;

Ended propose(const fs::path& district, const fs::path& out, std::vector<std::string> more = {}) {
    more.insert(more.begin(), {"propose", district.string(), "--out", out.string()});
    return run_program(proposing, more);
}

// Tenths of a gpm of the need that all parcels hold, and how many meet their need.
struct Held {
    long tenths = 0, parcels = 0;
};
Held held_in(const fs::path& out) {
    const Package supply(out / "supply.gpkg");
    return {supply.number("SELECT sum(cast(round(10 * min(needed_gpm, max(cautious_gpm, "
                          "ifnull(runner_up_gpm, 0)))) AS integer)) FROM parcel_supply "
                          "WHERE needed_gpm IS NOT NULL AND cautious_gpm IS NOT NULL"),
            supply.number("SELECT count(*) FROM parcel_supply WHERE state = 'held'")};
}

// Runs the district as it is and with the first `ranks` proposals: the difference is what they say.
void check_what_if(const fs::path& district, const fs::path& proposals, int ranks,
                   const fs::path& scratch) {
    const auto run = [&](const fs::path& file, const std::string& name) {
        const Ended ended = run_program(
            proposing, {"run", file.string(), "--out", (scratch / name).string(), "--quiet"});
        INFO(ended.err);
        REQUIRE(ended.exit_code == 0);
        return held_in(scratch / name);
    };
    const Held before = run(district, "before");
    const fs::path with = district.parent_path() / "with.toml";
    put(with, bytes_of(district) + "\n[what_if_sources]\nfile = \"" +
                  (proposals / "proposals.gpkg").string() +
                  "\"\nlayer = \"source_proposals\"\nwhere = \"rank <= " + std::to_string(ranks) +
                  "\"\n");
    const Held after = run(with, "after");
    const Package said(proposals / "proposals.gpkg");
    const std::string of_last = " FROM source_proposals WHERE rank = " + std::to_string(ranks);
    CHECK(after.tenths - before.tenths ==
          said.number("SELECT cast(round(10 * gained_together_gpm) AS integer)" + of_last));
    CHECK(after.parcels - before.parcels == said.number("SELECT newly_held_together" + of_last));
    const Package supply(scratch / "after" / "supply.gpkg");
    CHECK(supply.number("SELECT count(*) FROM data_problems WHERE problem_id = "
                        "'source_hypothetical'") == ranks);
}

}  // namespace

TEST_CASE("places are found, ranked and left out with a reason", "[unit]") {
    const TemporaryFolder folder;
    const fs::path district = district_with_places(folder.path());
    const Ended ended = propose(district, folder / "out");
    INFO(ended.out << ended.err);
    REQUIRE(ended.exit_code == 0);
    const Package result(folder / "out" / "proposals.gpkg");
    const auto left_out = [&](const std::string& id) {
        return result.rows("SELECT left_out FROM proposal_candidates WHERE proposal_id = '" + id +
                           "'");
    };
    CHECK(contains(left_out("C2").at(0).at(0), "no usable volume"));
    CHECK(contains(left_out("DH-2").at(0).at(0), "no road that a tanker may use"));
    CHECK(contains(left_out("DH-3").at(0).at(0), "has a source already: D1"));
    CHECK(left_out("C1").at(0).at(0) == "-");
    CHECK(left_out("DH-1").at(0).at(0) == "-");
    CHECK(left_out("C4").empty());  // a problem of the data: its kind cannot be read
    CHECK(result.number("SELECT count(*) FROM proposal_candidates WHERE proposal_id = 'C5' AND "
                        "cost IS NULL") == 1);
    CHECK(result.number("SELECT count(*) FROM source_proposals") >= 1);
    CHECK(result.number("SELECT count(*) FROM source_proposals WHERE gained_gpm <= 0") == 0);
    CHECK(result.number("SELECT count(*) FROM proposal_gains") >= 1);
    CHECK(contains(ended.out, "Planning figures"));
    CHECK(fs::exists(folder / "out" / "source_proposals.csv"));
    const std::string pages = bytes_of(folder / "out" / "proposals.html");
    CPLXMLNode* const tree = CPLParseXMLString(pages.c_str());
    CHECK(tree != nullptr);
    CPLDestroyXMLNode(tree);
    for (const char* words : {"Gain by the number of sites", "id=\"proposal-1-worksheet\"",
                              "Owner of the road, asked on", "Planning figures"}) {
        CHECK(contains(pages, words));
    }
}

TEST_CASE("a run with the proposed sources gives what the proposals said", "[unit]") {
    const TemporaryFolder folder;
    const fs::path district = district_with_places(folder.path());
    REQUIRE(propose(district, folder / "out", {"--sites", "2"}).exit_code == 0);
    check_what_if(district, folder / "out", 1, folder.path());
}

TEST_CASE("the sample region's proposals are confirmed by runs", "[golden]") {
    const TemporaryFolder folder;
    fs::copy("sample_region", folder / "region", fs::copy_options::recursive);
    const fs::path district = folder / "region" / "district.toml";
    put(district, bytes_of(district) + "most_new_cisterns = 1\n");
    std::vector<std::string> only_a_few{"--sites", "2"};  // for the time it takes
    for (const char* id : {"C1", "C2", "C3", "C4", "C6", "DH-3", "DH-4", "DH-10", "DH-11", "DH-13",
                           "DH-25", "DH-42"}) {
        only_a_few.insert(only_a_few.end(), {"--rule-out", id});
    }
    const Ended ended = propose(district, folder / "out", only_a_few);
    INFO(ended.out << ended.err);
    REQUIRE(ended.exit_code == 0);
    check_what_if(district, folder / "out", 2, folder.path());
}

TEST_CASE("planned places come first, and what is ruled out is not chosen", "[unit]") {
    const TemporaryFolder folder;
    const fs::path district = district_with_places(folder.path());
    const Ended ended =
        propose(district, folder / "out", {"--planned", "DH-1", "--rule-out", "C3"});
    INFO(ended.err);
    REQUIRE(ended.exit_code == 0);
    const Package result(folder / "out" / "proposals.gpkg");
    CHECK(result.rows("SELECT source_id, planned FROM source_proposals WHERE rank = 1").at(0) ==
          std::vector<std::string>{"DH-1", "1"});
    CHECK(contains(ended.out, "sound it"));
    CHECK(result.number("SELECT count(*) FROM source_proposals WHERE source_id = 'C3'") == 0);
}

// Long Pond's shore towards the road is two people's.
TEST_CASE("where one owner refuses, the place on another's ground stands in") {
    const TemporaryFolder folder;
    const fs::path district = district_with_places(folder.path());
    std::string parcels = bytes_of(folder / "parcels.csv");
    parcels.replace(parcels.find("buildings\n"), 10, "buildings,owner\n");
    for (const char* end : {"250,1\n", "900,1\n", "009,,0\n"}) {
        parcels.insert(parcels.find(end) + std::string(end).size() - 1, ",");
    }
    put(folder / "parcels.csv",
        parcels +
            "\"POLYGON((502780 4499700,502850 4499700,502850 4499998,502780 4499998,502780 "
            "4499700))\",010,,0,Ann <Lee>\n"
            "\"POLYGON((502850 4499700,502920 4499700,502920 4499998,502850 4499998,502850 "
            "4499700))\",011,,0,\n");
    const auto places = [&](const fs::path& out) {
        return Package(out / "proposals.gpkg")
            .rows(
                "SELECT proposal_id, owner, stands_in_for, left_out FROM proposal_candidates "
                "WHERE proposal_id LIKE 'DH-1%' ORDER BY 1");
    };
    const Ended first = propose(district, folder / "first", {"--planned", "DH-1"});
    INFO(first.out << first.err);
    REQUIRE(first.exit_code == 0);
    CHECK(contains(first.out, "1 more by the same waters, over other owners' ground, stand by"));
    REQUIRE(places(folder / "first").size() == 2);
    CHECK(places(folder / "first")[0] ==
          std::vector<std::string>{"DH-1", "the owner of parcel 011", "-", "-"});
    CHECK(places(folder / "first")[1] ==
          std::vector<std::string>{"DH-1-2", "Ann <Lee> (parcel 010)", "DH-1", "-"});
    const std::string page = bytes_of(folder / "first" / "proposals.html");
    CHECK(contains(page, "ask the owner of parcel 011, the road"));
    CHECK(contains(page, "DH-1-2 (Ann &lt;Lee&gt; (parcel 010), "));

    REQUIRE(
        propose(district, folder / "second", {"--rule-out", "DH-1", "--every-gain"}).exit_code ==
        0);
    const Package second(folder / "second" / "proposals.gpkg");
    CHECK(second.number("SELECT count(*) FROM proposal_candidates WHERE alone_gpm IS NULL AND "
                        "proposal_id = 'DH-1-2'") == 0);
    CHECK(second.number("SELECT count(*) FROM proposal_candidates WHERE alone_gpm IS NULL AND "
                        "proposal_id = 'DH-1'") == 1);
    REQUIRE(propose(district, folder / "third", {"--planned", "DH-1-2"}).exit_code == 0);
    check_what_if(district, folder / "third", 1, folder.path());
}

TEST_CASE("the pages say which year buys what, and by which weight") {
    const TemporaryFolder folder;
    const fs::path district = district_with_places(folder.path());
    std::string parcels = bytes_of(folder / "parcels.csv");
    parcels.replace(parcels.find("buildings\n"), 10, "buildings,people\n");
    parcels.insert(parcels.find("250,1\n") + 5, ",4");
    parcels.insert(parcels.find("900,1\n") + 5, ",");
    parcels.insert(parcels.find("009,,0\n") + 6, ",");
    put(folder / "parcels.csv", parcels);
    const Ended ended =
        propose(district, folder / "out", {"--yearly-budget", "50000", "--weigh-by", "people"});
    INFO(ended.out << ended.err);
    REQUIRE(ended.exit_code == 0);
    const Package result(folder / "out" / "proposals.gpkg");
    REQUIRE(result.number("SELECT count(*) FROM proposal_years") > 0);
    const auto first =
        result.rows("SELECT build_year, places, cast(gained_gpm AS integer) FROM proposal_years")
            .at(0);
    const std::string page = bytes_of(folder / "out" / "proposals.html");
    CHECK(contains(page, "What each year buys, with 50,000 a year"));
    CHECK(
        contains(page, "There is 1 improved property without a figure, which counts for nothing"));
    CHECK(contains(page, "gpm x people"));
    CHECK(contains(page, ">" + first[1] + "<"));
}

TEST_CASE("a budget buys only what has a price", "[unit]") {
    const TemporaryFolder folder;
    const fs::path district = district_with_places(folder.path());
    const Ended ended = propose(district, folder / "out", {"--budget", "90000"});
    INFO(ended.err);
    REQUIRE(ended.exit_code == 0);
    const Package result(folder / "out" / "proposals.gpkg");
    CHECK(result.number("SELECT count(*) FROM source_proposals WHERE cost IS NULL") == 0);
    CHECK(contains(ended.out, "have no cost"));
    CHECK(contains(bytes_of(folder / "out" / "proposals.html"),
                   "have no cost and cannot be bought by a budget"));
}

TEST_CASE("the same proposals come from any number of threads", "[unit]") {
    const TemporaryFolder folder;
    const fs::path district = district_with_places(folder.path());
    REQUIRE(propose(district, folder / "one", {"--threads", "1"}).exit_code == 0);
    REQUIRE(propose(district, folder / "two", {"--threads", "3"}).exit_code == 0);
    for (const char* name : {"proposals.gpkg", "source_proposals.csv", "proposal_gains.csv"}) {
        CHECK(bytes_of(folder / "one" / name) == bytes_of(folder / "two" / name));
    }
}

TEST_CASE("proposals as one JSON document", "[unit]") {
    const TemporaryFolder folder;
    const Ended ended = propose(district_with_places(folder.path()), folder / "out", {"--json"});
    REQUIRE(ended.exit_code == 0);
    CHECK(ended.out.starts_with("{"));
    CHECK(contains(ended.out, "\"proposals\": ["));
    CHECK(contains(ended.out, "\"what_to_do\""));
}

TEST_CASE("what cannot be proposed is refused in one sentence", "[unit]") {
    const TemporaryFolder folder;
    const fs::path bare = write_small_district(folder.path());
    const auto refused = [&](const fs::path& district, const std::vector<std::string>& more,
                             const std::string& words) {
        const Ended ended = propose(district, folder / "out", more);
        CAPTURE(ended.err);
        CHECK(ended.exit_code == 2);
        CHECK(contains(ended.err, words));
        CHECK_FALSE(fs::exists(folder / "out"));
    };
    put(bare, bytes_of(bare) + "\n[assumptions]\nmost_new_cisterns = 0\n");
    refused(bare, {}, "there is no place to choose from: add [proposals]");
    const fs::path district = district_with_places(folder.path());
    refused(district, {"--weigh-by", "value"}, "no property has a value to weigh by");
    refused(district, {"--weigh-by", "beauty"}, "--weigh-by");
    refused(district, {"--yearly-budget", "0"}, "--yearly-budget");
    refused(district, {"--exact-seconds", "5"}, "--exact");
    refused(district, {"--planned", "C9"}, "there is no place \"C9\"");
    refused(district, {"--planned", "C2"}, "\"C2\" is no place to choose: has no usable volume");
    refused(district, {"--planned", "C1", "--rule-out", "C1"}, "both planned and ruled out");
    refused(district, {"--sites", "0"}, "--sites");
    refused(district, {"--sites", "2", "--budget", "5"}, "--budget");
    refused(district, {"--budget", "-1"}, "--budget");
}

TEST_CASE("cisterns are looked for at junctions and on public land", "[unit]") {
    const TemporaryFolder folder;
    const fs::path district = write_small_district(folder.path());
    std::string parcels = bytes_of(folder / "parcels.csv");
    for (const auto& [line, more] :
         {std::pair("buildings\n", ",public,people\n"), std::pair("250,1\n", ",no,2\n"),
          std::pair("900,1\n", ",no,30\n"), std::pair("009,,0\n", ",yes,\n")}) {
        const std::size_t at = parcels.find(line) + std::string(line).size() - 1;
        parcels.replace(at, 1, more);
    }
    put(folder / "parcels.csv", parcels);
    const std::string text = bytes_of(district) + "\n[assumptions]\n";
    put(district, text + "new_cistern_apart_ft = 500\nnew_cistern_serves_ft = 2000\n");
    const auto asked = [&](std::vector<std::string> more) {
        const Ended ended = propose(district, folder / "out", std::move(more));
        INFO(ended.out << ended.err);
        REQUIRE(ended.exit_code == 0);
        return ended.out;
    };
    const auto places = [&] {
        return Package(folder / "out" / "proposals.gpkg")
            .rows("SELECT proposal_id, origin, left_out, cost FROM proposal_candidates ORDER BY 1");
    };
    const std::string said = asked({"--weigh-by", "people"});
    CHECK(contains(said, "0 improved parcels have no people"));
    REQUIRE(places().size() == 2);
    // One of them has all that is missing near it, so the other has nothing of its own.
    CHECK(places()[0].at(0) == "CJ-1");
    CHECK(places()[1] == std::vector<std::string>{"CP-3", "public_parcel", "-", "-"});
    const Package first(folder / "out" / "proposals.gpkg");
    CHECK(first.number("SELECT count(*) FROM source_proposals") == 1);
    CHECK(first.number("SELECT cast(usable_gal AS integer) FROM source_proposals") == 30000);
    CHECK(first.number("SELECT count(*) FROM source_proposals WHERE weighted_gain > gained_gpm") ==
          1);
    check_what_if(district, folder / "out", 1, folder.path());

    put(district, text + "new_cistern_apart_ft = 10000\ncistern_cost = 65000\n");
    asked({});
    REQUIRE(places().size() == 2);  // too near to each other
    CHECK(places()[1].at(2) == "-");
    CHECK(contains(places()[0].at(2), "within 10000 ft of a place with more missing near it"));
    put(district, text + "cistern_cost = 65000\n");
    CHECK(contains(asked({"--yearly-budget", "20000", "--exact"}), "(proved)"));
    const Package priced(folder / "out" / "proposals.gpkg");
    CHECK(priced.number("SELECT build_year FROM source_proposals") == 4);
    CHECK(priced.number("SELECT cast(put_by AS integer) FROM proposal_years") == 15000);
    CHECK(priced.number("SELECT cast(cost AS integer) FROM source_proposals") == 65000);
}
