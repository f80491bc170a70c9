// `farwater compare`, as its users meet it: a small district run before and after, by hand.
#include <catch2/catch.hpp>
#include <cpl_minixml.h>

#include "tests/app/small_district.h"
#include "tests/open_data/open_data.h"
#include "tests/support/program.h"
#include "tests/support/sheet_text.h"
#include "tests/support/temporary_folder.h"

using namespace farwater::support;
using farwater::open_data::Package;

namespace {

namespace fs = std::filesystem;

// In one of the district's files, `from` (which must be there) becomes `to`.
void change(const fs::path& folder, const std::string& file, const std::string& from,
            const std::string& to) {
    std::string text = bytes_of(folder / file);
    const std::size_t at = text.find(from);
    INFO(file << " has no " << from);
    REQUIRE(at != std::string::npos);
    put(folder / file, text.replace(at, from.size(), to));
}

// The small district and what it gives, kept under a name.
class Years {
public:
    Years() { write_small_district(folder_ / "district"); }

    fs::path district() const { return folder_ / "district"; }
    fs::path at(const std::string& name) const { return folder_ / name; }

    fs::path run(const std::string& name) const {
        const Ended ended =
            run_program(FARWATER_PROGRAM, {"run", (district() / "district.toml").string(), "--out",
                                           at(name).string(), "--quiet"});
        INFO(ended.err);
        REQUIRE(ended.exit_code == 0);
        return at(name);
    }

    Ended compare(const std::string& before, const std::string& after,
                  std::vector<std::string> more = {}) const {
        more.insert(more.begin(), {"compare", at(before).string(), at(after).string()});
        return run_program(FARWATER_PROGRAM, more);
    }

private:
    TemporaryFolder folder_;
};

using Rows = std::vector<std::vector<std::string>>;

// What both results say of a parcel, to be found in the comparison.
void check_against_results(const Package& found, const Package& before, const Package& after) {
    for (const auto& row : found.rows(
             "SELECT parcel_id, state_before, state_after, cautious_gpm_before, "
             "cautious_gpm_after, needed_gpm_before, needed_gpm_after, shortfall_gpm_before, "
             "shortfall_gpm_after FROM parcel_changes")) {
        CAPTURE(row[0]);
        const auto said = [&](const Package& result) {
            const Rows rows = result.rows(
                "SELECT state, cautious_gpm, needed_gpm, shortfall_gpm FROM parcel_supply WHERE "
                "parcel_id = '" +
                row[0] + "'");
            return rows.empty() ? std::vector<std::string>(4, "-") : rows.at(0);
        };
        CHECK(said(before) == std::vector<std::string>{row[1], row[3], row[5], row[7]});
        CHECK(said(after) == std::vector<std::string>{row[2], row[4], row[6], row[8]});
    }
}

}  // namespace

TEST_CASE("a result compared with itself: nothing changed") {
    const Years years;
    years.run("last");
    const Ended ended = years.compare("last", "last");
    INFO(ended.err);
    REQUIRE(ended.exit_code == 0);
    CHECK(contains(ended.out, "Nothing changed: 3 parcels and 0 targets have the same answers"));
    const Package found(years.at("comparison") / "comparison.gpkg");
    CHECK(found.number("SELECT count(*) FROM parcel_changes") == 0);
    CHECK(found.number("SELECT count(*) FROM input_changes") == 0);
    CHECK(found.number("SELECT sum(parcels) FROM state_changes") == 3);
    const Ended json = years.compare("last", "last", {"--json", "--quiet"});
    CHECK(json.out.starts_with("{"));
    CHECK(contains(json.out, "\"nothing_changed\": true"));
    CHECK(json.err.empty());
    CHECK(years.compare("last", "last", {"--quiet"}).out.empty());
}

TEST_CASE("a need that grew, a tanker bought, a parcel split: each is told for what it is") {
    const Years years;
    change(years.district(), "parcels.csv", "007,250,1", "007,100,1");
    years.run("last");
    change(years.district(), "parcels.csv", "007,100,1", "007,1800,1");
    change(years.district(), "parcels.csv",
           "POLYGON((503100 4500020,503200 4500020,503200 4500120,"
           "503100 4500120,503100 4500020))\",009,,0\n",
           "POLYGON((503100 4500020,503150 4500020,503150 4500120,503100 4500120,503100 "
           "4500020))\",009-1,,0\n\"POLYGON((503150 4500020,503200 4500020,503200 4500120,503150 "
           "4500120,503150 4500020))\",009-2,300,1\n");
    put(years.district() / "apparatus.csv",
        bytes_of(years.district() / "apparatus.csv") + "T4,S1,tanker,3000,,2500,,1000,1000\n");
    years.run("this");
    const Ended ended = years.compare("last", "this");
    INFO(ended.out << ended.err);
    REQUIRE(ended.exit_code == 0);
    const Package found(years.at("comparison") / "comparison.gpkg");
    check_against_results(found, Package(years.at("last") / "supply.gpkg"),
                          Package(years.at("this") / "supply.gpkg"));
    // 007 needs more than anybody brings; the fourth tanker brings more to it all the same.
    CHECK(found.rows("SELECT outcome, met_before, met_after FROM parcel_changes WHERE parcel_id = "
                     "'007'") == Rows{{"no_longer_met", "1", "0"}});
    CHECK(found.rows("SELECT cause, cautious_gpm_before < cautious_gpm_after FROM parcel_changes "
                     "WHERE parcel_id = '007'") == Rows{{"both", "1"}});
    CHECK(found.rows("SELECT cause, cautious_gpm_before < cautious_gpm_after FROM parcel_changes "
                     "WHERE parcel_id = '008'") == Rows{{"water", "1"}});
    CHECK(found.rows("SELECT parcel_id, outcome FROM parcel_changes WHERE parcel_id LIKE '009%' "
                     "ORDER BY parcel_id") ==
          Rows{{"009", "gone"}, {"009-1", "came"}, {"009-2", "came"}});
    CHECK(found.rows("SELECT change, value_after FROM input_changes WHERE topic = 'fleet'")
              .at(0)
              .at(0) == "came");
    CHECK(
        found.number("SELECT count(*) FROM input_changes WHERE topic = 'input_records' AND record "
                     "= 'apparatus' AND \"column\" = 'used' AND value_before = 6 AND value_after "
                     "= 7") == 1);
    CHECK(found.number("SELECT count(*) FROM parcel_changes WHERE geom IS NULL") == 0);
    CHECK(found.number("SELECT count(*) FROM layer_styles") == 1);
    CHECK(found.number("SELECT count(*) FROM gpkg_data_columns WHERE table_name = 'parcel_changes' "
                       "AND description IS NULL") == 0);
    CHECK(found.rows("SELECT parcels_before, parcels_after FROM station_changes WHERE station_id = "
                     "'S1'") == Rows{{"2", "3"}});

    SECTION("the page and the text say the same, well-formed") {
        const std::string html = bytes_of(years.at("comparison") / "comparison.html");
        CPLXMLNode* const tree = CPLParseXMLString(html.c_str());
        CHECK(tree != nullptr);
        CPLDestroyXMLNode(tree);
        const std::string text = seen_text(html);
        for (const std::string& words :
             {std::string("1 no longer does (1 by "),
              std::string("2 parcels stand in both results, 2 in the "
                          "later one only, 1 in the earlier one only.")}) {
            CHECK(contains(text, words));
            CHECK(contains(ended.out, words));
        }
        CHECK(contains(text, "009-2"));
        CHECK(contains(html, "<svg"));
        CHECK(contains(text, "kind tanker"));
        const auto flow = found.rows(
            "SELECT printf('%.1f', cautious_gpm_after) FROM parcel_changes WHERE "
            "parcel_id = '008'");
        CHECK(contains(text, flow.at(0).at(0)));
    }
    SECTION("the same two results give the same bytes") {
        REQUIRE(years.compare("last", "this", {"--out", years.at("again").string()}).exit_code ==
                0);
        for (const char* name :
             {"comparison.gpkg", "comparison.html", "parcel_changes.csv", "state_changes.csv",
              "input_changes.csv", "station_changes.csv", "columns.csv"}) {
            CAPTURE(name);
            CHECK(bytes_of(years.at("comparison") / name) == bytes_of(years.at("again") / name));
        }
    }
    SECTION("the other way round is the mirror") {
        REQUIRE(years.compare("this", "last", {"--out", years.at("back").string()}).exit_code == 0);
        const Package back(years.at("back") / "comparison.gpkg");
        const std::string there =
            "SELECT parcel_id, cause, state_before, state_after, "
            "shortfall_gpm_before, shortfall_gpm_after, "
            "old_flow_new_need_short_gpm, new_flow_old_need_short_gpm FROM "
            "parcel_changes ORDER BY parcel_id";
        const std::string mirrored =
            "SELECT parcel_id, cause, state_after, state_before, "
            "shortfall_gpm_after, shortfall_gpm_before, "
            "new_flow_old_need_short_gpm, old_flow_new_need_short_gpm "
            "FROM parcel_changes ORDER BY parcel_id";
        CHECK(found.rows(there) == back.rows(mirrored));
    }
}

TEST_CASE("a need that grew by itself is a matter of the need") {
    const Years years;
    change(years.district(), "parcels.csv", "007,250,1", "007,100,1");
    years.run("last");
    change(years.district(), "parcels.csv", "007,100,1", "007,400,1");
    years.run("this");
    const Ended ended = years.compare("last", "this");
    INFO(ended.out << ended.err);
    REQUIRE(ended.exit_code == 0);
    CHECK(contains(ended.out, "1 no longer does (1 by the need)."));
    const Package found(years.at("comparison") / "comparison.gpkg");
    CHECK(found.rows("SELECT parcel_id, cause, what_changed FROM parcel_changes") ==
          Rows{{"007", "need", "state, needed_gpm"}});
}

TEST_CASE("a source that was taken away is a matter of the water") {
    const Years years;
    put(years.district() / "sources.csv",
        bytes_of(years.district() / "sources.csv") +
            "POINT(502000 4501000),D2,Far Pond,dry_hydrant,declared,Chief,300,500000\n");
    years.run("last");
    change(years.district(), "sources.csv", "Far Pond,dry_hydrant,declared,Chief,300,500000",
           "Far Pond,dry_hydrant,mapped,,,");
    years.run("this");
    const Ended ended = years.compare("last/supply.gpkg", "this/supply.gpkg");
    INFO(ended.out << ended.err);
    REQUIRE(ended.exit_code == 0);
    const Package found(years.at("comparison") / "comparison.gpkg");
    CHECK(found.rows("SELECT parcel_id, cause, fill_source_id_before, fill_source_id_after, "
                     "cautious_gpm_before > cautious_gpm_after FROM parcel_changes ORDER BY "
                     "parcel_id") ==
          Rows{{"007", "water", "D2", "D1", "1"}, {"008", "water", "D2", "D1", "1"}});
    CHECK(found.number("SELECT count(*) FROM input_changes WHERE topic = 'fill_sites' AND change = "
                       "'gone' AND record = 'D2' AND value_before LIKE '%standing declared%'") ==
          1);
    CHECK(contains(ended.out, "by the water)"));
}

TEST_CASE("answers that are no longer known are a matter of the data, and no gain") {
    const Years years;
    years.run("last");
    change(years.district(), "sources.csv", "declared,Chief,1000,500000", "mapped,,,");
    years.run("this");
    const Ended ended = years.compare("last", "this");
    INFO(ended.out << ended.err);
    REQUIRE(ended.exit_code == 0);
    CHECK(contains(ended.out,
                   "0 gpm now (2 not known). Of parcels that both results know: as much."));
    const Package found(years.at("comparison") / "comparison.gpkg");
    CHECK(found.rows("SELECT outcome, cause FROM parcel_changes") ==
          Rows{{"worse", "data"}, {"worse", "data"}});
    CHECK(found.rows("SELECT change, record FROM input_changes WHERE topic = 'fill_sites'") ==
          Rows{{"gone", "D1"}});
}

TEST_CASE("an older result has fewer tables and another program: said, not guessed") {
    const Years years;
    years.run("last");
    fs::copy(years.at("last"), years.at("older"), fs::copy_options::recursive);
    {
        sqlite3* file = nullptr;
        REQUIRE(sqlite3_open((years.at("older") / "supply.gpkg").c_str(), &file) == SQLITE_OK);
        CHECK(sqlite3_exec(file,
                           "UPDATE run_record SET value = 'farwater 0.0.9' WHERE key = 'program';"
                           "DELETE FROM gpkg_contents WHERE table_name IN ('fleet');"
                           "DELETE FROM gpkg_ogr_contents WHERE table_name IN ('fleet');"
                           "DELETE FROM gpkg_data_columns WHERE table_name = 'fleet';"
                           "DROP TABLE fleet",
                           nullptr, nullptr, nullptr) == SQLITE_OK);
        sqlite3_close(file);
    }
    fs::remove(years.at("older") / "tables" / "by_station.csv");
    const Ended ended = years.compare("older", "last");
    INFO(ended.out << ended.err);
    REQUIRE(ended.exit_code == 0);
    CHECK(contains(ended.out, "ANOTHER PROGRAM VERSION made the earlier result (farwater 0.0.9)"));
    CHECK(contains(ended.out, "No answer changed: 3 parcels"));
    const Package found(years.at("comparison") / "comparison.gpkg");
    CHECK(found.rows("SELECT topic, change FROM input_changes ORDER BY fid") ==
          Rows{{"program", "changed"}, {"fleet", "only_told_after"}});
    CHECK(found.number("SELECT count(*) FROM station_changes") == 0);
}

TEST_CASE("parcels that are gone keep their ground, in the plane of the later result") {
    const Years years;
    years.run("last");
    change(years.district(), "parcels.csv", "008,900,1", "018,900,1");
    change(years.district(), "district.toml", "crs = \"EPSG:32618\"\n\n",
           "crs = \"EPSG:2272\"\n\n");
    years.run("this");
    const Ended ended = years.compare("last", "this");
    INFO(ended.out << ended.err);
    REQUIRE(ended.exit_code == 0);
    const Package found(years.at("comparison") / "comparison.gpkg");
    CHECK(found.number("SELECT srs_id FROM gpkg_geometry_columns WHERE table_name = "
                       "'parcel_changes'") == 2272);
    // The same ground, once of each result.
    CHECK(
        found.number("SELECT count(*) FROM rtree_parcel_changes_geom a, rtree_parcel_changes_geom "
                     "b WHERE a.id < b.id AND abs(a.minx - b.minx) < 1 AND abs(a.maxy - b.maxy) < "
                     "1") >= 1);
    CHECK(
        found.rows("SELECT outcome FROM parcel_changes WHERE parcel_id IN ('008', '018') ORDER BY "
                   "parcel_id") == Rows{{"gone"}, {"came"}});
}

TEST_CASE("ids that try to break out stay inside their cell") {
    const Years years;
    years.run("last");
    change(years.district(), "parcels.csv", "008,900,1",
           "\"</td><script>alert(1)</script>=cmd\",900,1");
    years.run("this");
    REQUIRE(years.compare("last", "this").exit_code == 0);
    const std::string html = bytes_of(years.at("comparison") / "comparison.html");
    CHECK_FALSE(contains(html, "<script"));
    CHECK(contains(html, "&lt;/td&gt;&lt;script&gt;"));
}

TEST_CASE("what cannot be compared is refused in one sentence, and nothing is written") {
    const Years years;
    const auto refused = [&](std::vector<std::string> arguments, int code,
                             const std::string& words) {
        arguments.insert(arguments.begin(), "compare");
        const Ended ended = run_program(FARWATER_PROGRAM, arguments);
        CAPTURE(ended.err);
        CHECK(ended.exit_code == code);
        CHECK(contains(ended.err, words));
        CHECK_FALSE(fs::exists(years.at("comparison")));
    };
    const std::string last = years.run("last").string();
    refused({last}, 2, "later is required");
    refused({last, years.at("none").string()}, 3, "there is no such file or folder");
    refused({years.district().string(), last}, 3, "is no result of `farwater run`");
    refused({last, last, "--out", (years.at("last") / "comparison").string()}, 4,
            "lies in the result");
    refused({last, last, "--out", years.district().string()}, 4,
            "holds files that are not results");
    REQUIRE(run_program(FARWATER_PROGRAM,
                        {"run", (years.district() / "district.toml").string(), "--audience",
                         "public", "--out", years.at("public").string(), "--quiet"})
                .exit_code == 0);
    refused({years.at("public").string(), last}, 3, "was made for the public");
}
