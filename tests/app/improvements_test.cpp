// `farwater improvements`, as its users meet it, and against runs with the change made by hand.
#include <algorithm>
#include <cmath>
#include <map>

#include <catch2/catch.hpp>
#include <cpl_minixml.h>

#include "tests/app/small_district.h"
#include "tests/open_data/open_data.h"
#include "tests/support/program.h"
#include "tests/support/temporary_folder.h"

using namespace farwater::support;
using farwater::open_data::Package;

namespace {

namespace fs = std::filesystem;

// What a district is made of: file name -> text.
using Texts = std::map<std::string, std::string>;

// In one text, `from` (which must be there) becomes `to`.
Texts with(Texts texts, const std::string& file, const std::string& from, const std::string& to) {
    std::string& text = texts.at(file);
    const std::size_t at = text.find(from);
    INFO(file << " has no " << from);
    REQUIRE(at != std::string::npos);
    text.replace(at, from.size(), to);
    return texts;
}

const std::string third_engine = "E3,S1,engine,1000,1500,,0,,,own,,,\n";

// A district with something to mend of each kind: few engines, a truck without a driver at noon, a
// neighbour on request, a pond that freezes, a bridge that is posted, a road that nobody clears.
Texts wanting_district() {
    Texts texts;
    texts["roads.csv"] =
        "WKT,name,class,access,weight_limit_lb\n"
        "\"LINESTRING(500000 4500000,502000 4500000,503500 4500000,504000 4500000)\",Main,paved,"
        "open,\n"
        "\"LINESTRING(502000 4500000,502000 4501000,503000 4501000,504000 4501000,504000 "
        "4500000)\",Loop,paved,open,\n"
        "\"LINESTRING(503000 4501000,503000 4501710)\",Mill Road,paved,open,20000\n"
        "\"LINESTRING(503500 4500000,503500 4499300)\",Back Road,gravel,unmaintained,\n"
        "\"LINESTRING(503050 4500000,503050 4500520)\",Lane,paved_lane,open,44000\n";
    texts["parcels.csv"] =
        "WKT,parcel_id,needed_gpm,buildings,value\n"
        "\"POLYGON((502300 4500020,502400 4500020,502400 4500120,502300 4500120,502300 "
        "4500020))\",007,250,1,200000\n"
        "\"POLYGON((503100 4500020,503200 4500020,503200 4500120,503100 4500120,503100 "
        "4500020))\",008,1500,2,300000\n"
        "\"POLYGON((503060 4500240,503100 4500240,503100 4500260,503060 4500260,503060 "
        "4500240))\",010,300,1,\n";
    texts["stations.csv"] =
        "WKT,station_id,name,staffed,aid\n"
        "POINT(500100 4500000),S1,Central,yes,own\n"
        "POINT(503900 4501000),M1,Neighbour,yes,mutual\n";
    texts["sources.csv"] =
        "WKT,source_id,name,kind,standing,standing_by,rate_gpm,usable_gal,frost_proof,static_lift_"
        "ft,pipe_ft,pipe_diameter_in\n"
        "POINT(501000 4500000),D1,Mill Pond,dry_hydrant,declared,Chief,300,500000,,8,20,8\n"
        "POINT(501500 4500000),D2,Tail Pond,dry_hydrant,declared,Chief,300,500000,,8,20,8\n"
        "POINT(503900 4500000),W2,River,draft_site,declared,Chief,800,500000,no,8,,\n"
        "POINT(503000 4501700),W3,Upper Pond,dry_hydrant,declared,Chief,1000,500000,,8,20,8\n"
        "POINT(503500 4499310),W4,Back Pond,dry_hydrant,declared,Chief,1000,500000,,8,20,8\n";
    texts["apparatus.csv"] =
        "unit_id,station_id,kind,tank_gal,pump_gpm,portable_tank_gal,hose_4in_ft,fill_limit_gpm,"
        "offload_gpm,aid,backs_to_offload,portable_tanks,jet_siphons\n"
        "E1,S1,engine,1000,1500,,600,,,own,,,\n"
        "E2,S1,engine,1000,1500,,300,,,own,,,\n"
        "E3,S1,engine,1000,1500,,0,,,own,,,\n"
        "T1,S1,tanker,2500,,600,,1000,1000,own,no,1,\n"
        "T5,S1,tanker,2500,,600,,1000,200,own,no,,\n"
        "T2,S1,tanker,2500,,,,1000,400,own,no,\n"
        "E9,M1,engine,1000,1500,,500,,,mutual,,,\n"
        "T9,M1,tanker,3000,,,,1000,1000,mutual,no,,\n";
    texts["staffing.csv"] = "unit_id,period,crew,turnout_min\nT2,noon,0,\n";
    texts["ideas.csv"] =
        "WKT,proposal_id,name,kind,cost,rate_gpm,usable_gal,static_lift_ft\n"
        "POINT(503300 4500000),C1,Corner,cistern,80000,800,60000,8\n"
        "POINT(503400 4500000),C2,No size,cistern,80000,800,,8\n"
        "POINT(502500 4500000),C3,Other corner,cistern,,800,60000,8\n";
    texts["district.toml"] = std::string(small_district_toml()) + R"(
[staffing]
file = "staffing.csv"

[proposals]
file = "ideas.csv"
crs = "EPSG:32618"

[assumptions]
portable_tanks_where_unknown = 3

[rating]
terms = "schedule_8b"

[season.winter]
months = "12-3"
ice = true

[period.noon]
)";
    return texts;
}

const char* improvement_tables = R"(
[[improvement]]
kind = "tanker"
station = "S1"
like = "T1"
cost = 420000
life_years = 20
upkeep_per_year = 5000

[[improvement]]
kind = "portable_tank"
unit = "T1"
gallons = 2500
cost = 2500

[[improvement]]
kind = "siphon"
unit = "T5"

[[improvement]]
kind = "hose"
unit = "E1"
length_ft = 1000
diameter_in = 4

[[improvement]]
kind = "offload"
unit = "T5"
offload_gpm = 1000

[[improvement]]
name = "the river <in> winter"
kind = "winter_access"
source = "W2"

[[improvement]]
name = "Back Road cleared"
kind = "winter_access"
road = "Back Road"

[[improvement]]
kind = "bridge"
road = "Mill Road"

[[improvement]]
kind = "staffing"
unit = "T2"
period = "noon"
crew = 1

[[improvement]]
kind = "source"
proposal = "C1"
life_years = 50
upkeep_per_year = 100
)";

const char* tables_without_third_engine = R"(
[[improvement]]
kind = "fill_engine"
station = "S1"
pump_gpm = 1250

[[improvement]]
kind = "automatic_aid"
station = "M1"
cost = 0
upkeep_per_year = 0
)";

// An improvement's name, and the district with the same change made by hand.
using ByHand = std::vector<std::pair<std::string, Texts>>;

Texts more(Texts texts, const std::string& file, const std::string& rows) {
    texts.at(file) += rows;
    return texts;
}

ByHand changed_by_hand() {
    const Texts as_is = wanting_district();
    Texts source = more(as_is, "district.toml",
                        "\n[what_if_sources]\nfile = \"built.csv\"\ncrs = \"EPSG:32618\"\n");
    source["built.csv"] =
        "WKT,source_id,name,kind,standing,rate_gpm,usable_gal,static_lift_ft\n"
        "POINT(503300 4500000),C1,Corner,cistern,declared,800,60000,8\n";
    const std::string engine = "E1,S1,engine,1000,1500,,600,";
    const std::string tanker = "T1,S1,tanker,2500,,600,,1000,1000,own,no,1";
    return {
        {"tanker like T1 at S1",
         more(as_is, "apparatus.csv", "T3,S1,tanker,2500,,600,,1000,1000,own,no,1,\n")},
        {"2500-gal portable tank on T1",
         with(as_is, "apparatus.csv", tanker, "T1,S1,tanker,2500,,3100,,1000,1000,own,no,2")},
        {"1000 ft of 4-in hose on E1",
         with(as_is, "apparatus.csv", engine, "E1,S1,engine,1000,1500,,1600,")},
        {"jet siphon on T5", with(as_is, "apparatus.csv", "200,own,no,,", "200,own,no,,1")},
        {"dump valve of 1000 gpm on T5",
         with(as_is, "apparatus.csv", "1000,200,own", "1000,1000,own")},
        {"the river <in> winter", with(as_is, "sources.csv", "800,500000,no", "800,500000,yes")},
        {"Back Road cleared", with(as_is, "roads.csv", "unmaintained", "open")},
        {"Mill Road without its posting", with(as_is, "roads.csv", "20000", "")},
        {"crew of 1 for T2, noon", with(as_is, "staffing.csv", "noon,0", "noon,1")},
        {"Corner", source},
    };
}

// The third engine is in the shop: nobody runs a fill site until the neighbour comes.
Texts district_without_third_engine() {
    return with(wanting_district(), "apparatus.csv", third_engine, "");
}
ByHand changed_without_third_engine() {
    const Texts as_is = district_without_third_engine();
    return {
        {"1250-gpm engine at S1", more(as_is, "apparatus.csv", "E4,S1,engine,,1250,,,,,own,,,\n")},
        {"automatic aid of E9, T9",
         with(with(with(as_is, "apparatus.csv", "500,,,mutual", "500,,,automatic"), "apparatus.csv",
                   "1000,mutual", "1000,automatic"),
              "stations.csv", "mutual", "automatic")}};
}

fs::path written(const fs::path& folder, const Texts& texts) {
    fs::create_directories(folder);
    for (const auto& [name, text] : texts) {
        put(folder / name, text);
    }
    return folder / "district.toml";
}

Ended improvements(const fs::path& district, const fs::path& out,
                   std::vector<std::string> more = {}) {
    more.insert(more.begin(), {"improvements", district.string(), "--out", out.string()});
    return run_program(FARWATER_PROGRAM, more);
}

// What a run says of all parcels together.
struct Answer {
    long tenths = 0, held = 0, rated = 0;
};
Answer answer_of(const fs::path& district) {
    const fs::path out = district.parent_path() / "result";
    const Ended ended = run_program(FARWATER_PROGRAM, {"run", district.string(), "--quiet"});
    INFO(ended.err);
    REQUIRE(ended.exit_code == 0);
    const Package supply(out / "supply.gpkg");
    return {supply.number("SELECT sum(cast(round(10 * min(needed_gpm, max(cautious_gpm, "
                          "ifnull(runner_up_gpm, 0)))) AS integer)) FROM parcel_supply "
                          "WHERE needed_gpm IS NOT NULL AND cautious_gpm IS NOT NULL"),
            supply.number("SELECT count(*) FROM parcel_supply WHERE state = 'held'"),
            supply.number("SELECT count(*) FROM parcel_supply WHERE rating_fails_first = "
                          "'nothing'")};
}

}  // namespace

namespace {

// What the command says of each is the difference of two runs.
void check_by_hand(const Texts& as_is, const char* tables, const ByHand& changed) {
    const TemporaryFolder folder;
    const fs::path asked = written(folder / "asked", more(as_is, "district.toml", tables));
    const Ended ended = improvements(asked, folder / "out");
    INFO(ended.out << ended.err);
    REQUIRE(ended.exit_code == 0);
    const Package said(folder / "out" / "improvements.gpkg");
    const Answer before = answer_of(written(folder / "as_is", as_is));
    for (const auto& [name, district] : changed) {
        CAPTURE(name);
        const Answer after = answer_of(written(folder / "by_hand", district));
        const std::string of = " FROM improvements WHERE name = '" + name + "'";
        REQUIRE(said.number("SELECT count(*)" + of) == 1);
        CHECK(after.tenths != before.tenths);
        CHECK(said.number("SELECT cast(round(10 * gained_gpm) AS integer)" + of) ==
              after.tenths - before.tenths);
        CHECK(said.number("SELECT newly_held - no_longer_held" + of) == after.held - before.held);
        CHECK(said.number("SELECT rating_gained - rating_lost" + of) == after.rated - before.rated);
    }
}

}  // namespace

TEST_CASE("each kind of improvement gives the numbers of a run with the change made by hand") {
    check_by_hand(wanting_district(), improvement_tables, changed_by_hand());
    check_by_hand(district_without_third_engine(), tables_without_third_engine,
                  changed_without_third_engine());
}

TEST_CASE("improvements stand in order of what they gain, with what they cost") {
    const TemporaryFolder folder;
    const fs::path district =
        written(folder / "asked", more(wanting_district(), "district.toml", improvement_tables));
    const Ended ended = improvements(district, folder / "out", {"--threads", "1"});
    INFO(ended.out << ended.err);
    REQUIRE(ended.exit_code == 0);
    const Package result(folder / "out" / "improvements.gpkg");
    CHECK(result.number("SELECT count(*) FROM improvements a JOIN improvements b ON a.rank = "
                        "b.rank - 1 AND a.gained_gpm < b.gained_gpm") == 0);
    CHECK(result.rows("SELECT cost, yearly_cost FROM improvements WHERE kind = 'tanker'").at(0) ==
          std::vector<std::string>{"420000.0", "26000.0"});
    CHECK(result.rows("SELECT cost, yearly_cost FROM improvements WHERE name = 'Corner'").at(0) ==
          std::vector<std::string>{"80000.0", "1700.0"});
    CHECK(result.number("SELECT count(*) FROM improvements WHERE yearly_cost IS NOT NULL") == 2);
    SECTION("an own proposal that nobody named stands beside them") {
        CHECK(result.rows("SELECT offered_by FROM improvements WHERE name = 'Other corner'")
                  .at(0)
                  .at(0) == "proposals");
        CHECK(contains(ended.out, "1 of your own [proposals] can be no source"));
    }
    SECTION("the gains of the properties add up to those of the improvement") {
        CHECK(result.number("SELECT count(*) FROM improvements i WHERE abs(gained_gpm - (SELECT "
                            "ifnull(sum(gained_gpm), 0) FROM improvement_gains g WHERE g.rank = "
                            "i.rank)) > 0.01") == 0);
        CHECK(result.number("SELECT count(*) FROM improvement_gains") > 0);
    }
    SECTION("buildings, and their value as far as it is known") {
        CHECK(result
                  .rows("SELECT buildings_newly_held, value_newly_held, cost_per_building FROM "
                        "improvements WHERE newly_held = 0")
                  .at(0) == std::vector<std::string>{"0", "-", "-"});
    }
    SECTION("any number of threads gives the same bytes") {
        REQUIRE(improvements(district, folder / "two", {"--threads", "3"}).exit_code == 0);
        for (const char* name :
             {"improvements.gpkg", "improvements.csv", "improvement_gains.csv"}) {
            CHECK(bytes_of(folder / "out" / name) == bytes_of(folder / "two" / name));
        }
    }
    SECTION("a page for each, well-formed as XML, with nothing of the data taken for HTML") {
        const std::string html = bytes_of(folder / "out" / "improvements.html");
        CPLXMLNode* const tree = CPLParseXMLString(html.c_str());
        CHECK(tree != nullptr);
        CPLDestroyXMLNode(tree);
        CHECK(contains(html, "the river &lt;in&gt; winter"));
        CHECK(contains(html, "id=\"improvement-11\""));
        CHECK(contains(html, "lift and all losses at that rate"));  // of the cistern
        CHECK(contains(html, "Planning figures"));
    }
    SECTION("one JSON document") {
        const Ended json = improvements(district, folder / "json", {"--json"});
        CHECK(json.out.starts_with("{"));
        CHECK(contains(json.out, "\"improvements\": ["));
        CHECK(contains(json.out, "\"yearly_cost\": 26000"));
    }
}

namespace {

const char* priced_tables = R"(
[[improvement]]
kind = "hose"
unit = "E1"
length_ft = 1000
diameter_in = 4
cost = 3000

[[improvement]]
kind = "offload"
unit = "T5"
offload_gpm = 1000
cost = 9000
upkeep_per_year = 100

[[improvement]]
name = "the river <in> winter"
kind = "winter_access"
source = "W2"
cost = 12000
upkeep_per_year = 300

[[improvement]]
kind = "staffing"
unit = "T2"
period = "noon"
crew = 1
cost = 0
upkeep_per_year = 64000
)";

Texts with_it_by_hand(const Texts& texts, const std::string& name) {
    if (name == "1000 ft of 4-in hose on E1") {
        return with(texts, "apparatus.csv", "E1,S1,engine,1000,1500,,600,",
                    "E1,S1,engine,1000,1500,,1600,");
    }
    if (name == "dump valve of 1000 gpm on T5") {
        return with(texts, "apparatus.csv", "1000,200,own", "1000,1000,own");
    }
    if (name == "the river <in> winter") {
        return with(texts, "sources.csv", "800,500000,no", "800,500000,yes");
    }
    REQUIRE(name == "Corner");
    Texts built = more(texts, "district.toml",
                       "\n[what_if_sources]\nfile = \"built.csv\"\ncrs = \"EPSG:32618\"\n");
    built["built.csv"] =
        "WKT,source_id,name,kind,standing,rate_gpm,usable_gal,static_lift_ft\n"
        "POINT(503300 4500000),C1,Corner,cistern,declared,800,60000,8\n";
    return built;
}

std::vector<std::string> parted(const std::string& names) {
    std::vector<std::string> parts;
    for (std::size_t begin = 0; begin < names.size();) {
        const std::size_t end = std::min(names.find("; ", begin), names.size());
        parts.push_back(names.substr(begin, end - begin));
        begin = end + 2;
    }
    return parts;
}

}  // namespace

TEST_CASE("what each year buys is worked out together, as a run with all of it made by hand") {
    const TemporaryFolder folder;
    const fs::path asked =
        written(folder / "asked", more(wanting_district(), "district.toml", priced_tables));
    const Ended ended = improvements(asked, folder / "out", {"--yearly-budget", "10000"});
    INFO(ended.out << ended.err);
    REQUIRE(ended.exit_code == 0);
    CHECK(contains(ended.out, "With 10000 a year"));
    CHECK(contains(ended.out, "1 costs more to keep up than a year leaves for it."));
    CHECK(contains(ended.out, "2 that are bought have no upkeep given: none is counted."));
    const Package said(folder / "out" / "improvements.gpkg");
    const auto rows = said.rows(
        "SELECT improvements, build_year, cost, upkeep_per_year, put_by, gained_together_gpm, "
        "newly_held_together FROM improvement_years ORDER BY build_year");
    REQUIRE_FALSE(rows.empty());
    const Answer before = answer_of(written(folder / "as_is", wanting_district()));
    Texts made = wanting_district();
    std::size_t count = 0;
    double at_hand = 0.0;
    double upkeep = 0.0;
    long last_year = 0;
    for (const std::vector<std::string>& row : rows) {
        for (const std::string& name : parted(row[0])) {
            made = with_it_by_hand(made, name);
            ++count;
        }
        const Answer after = answer_of(written(folder / "by_hand", made));
        CHECK(std::lround(10.0 * std::stod(row[5])) == after.tenths - before.tenths);
        CHECK(std::stol(row[6]) == after.held - before.held);
        // The money, year by year.
        const long year = std::stol(row[1]);
        at_hand += static_cast<double>(year - last_year) * (10000.0 - upkeep);
        at_hand -= std::stod(row[2]) + std::stod(row[3]) - upkeep;
        upkeep = std::stod(row[3]);
        last_year = year;
        CHECK(std::stod(row[4]) == Approx(at_hand));
        CHECK(at_hand >= 0.0);
    }
    CHECK(count == 4);
    const std::string html = bytes_of(folder / "out" / "improvements.html");
    CHECK(contains(html, "What each year buys, with 10,000 a year"));
    CHECK(contains(html, "not by this budget"));
}

namespace {

// All of them late at noon, then one engine no longer is.
const char* slow_at_noon = "E1,noon,,25\nE2,noon,,25\nE3,noon,,25\nT1,noon,,25\nT5,noon,,25\n";

const char* faster_crew = R"(
[[improvement]]
kind = "staffing"
unit = "E1"
period = "noon"
turnout_min = 2
)";

}  // namespace

TEST_CASE("improvements are weighed by what a property counts for") {
    const TemporaryFolder folder;
    const fs::path asked =
        written(folder / "asked", more(wanting_district(), "district.toml", priced_tables));
    const Ended ended = improvements(asked, folder / "out", {"--weigh-by", "value"});
    INFO(ended.out << ended.err);
    REQUIRE(ended.exit_code == 0);
    CHECK(contains(ended.out, "In the order of gpm x value; 1 improved parcels have no such"));
    const Package said(folder / "out" / "improvements.gpkg");
    CHECK(said.number("SELECT count(*) FROM improvements a JOIN improvements b ON a.rank = b.rank "
                      "- 1 AND a.weighted_gain < b.weighted_gain") == 0);
    CHECK(said.number(
              "SELECT count(*) FROM improvements i WHERE abs(weighted_gain - (SELECT "
              "ifnull(sum(gained_gpm * CASE parcel_id WHEN '007' THEN 200000 WHEN '008' THEN "
              "300000 ELSE 0 END), 0) FROM improvement_gains g WHERE g.rank = i.rank)) > 1") == 0);
    CHECK(said.number("SELECT count(*) FROM improvements WHERE weighted_gain > 0") > 0);
    CHECK(contains(bytes_of(folder / "out" / "improvements.html"),
                   "what a property gains counts times its value (gpm x value)"));
    const Ended refused = improvements(asked, folder / "none", {"--weigh-by", "people"});
    CHECK(refused.exit_code == 2);
    CHECK(contains(refused.err, "no property has a people to weigh by"));
}

TEST_CASE("a faster crew loses no water: flow is judged from an earlier minute, and said to be") {
    const TemporaryFolder folder;
    const Texts slow = more(wanting_district(), "staffing.csv", slow_at_noon);
    const fs::path asked = written(folder / "asked", more(slow, "district.toml", faster_crew));
    const Ended ended = improvements(asked, folder / "out");
    INFO(ended.out << ended.err);
    REQUIRE(ended.exit_code == 0);
    const Package said(folder / "out" / "improvements.gpkg");
    const long losing =
        said.number("SELECT parcels_losing FROM improvements WHERE kind = 'staffing'");
    CHECK(losing > 0);
    CHECK(said.number("SELECT parcels_judged_earlier FROM improvements WHERE kind = "
                      "'staffing'") == losing);
    const std::string html = bytes_of(folder / "out" / "improvements.html");
    for (const std::string& text : {ended.out, html}) {
        CHECK(contains(text, "judged from an earlier minute"));
        CHECK(contains(text, "no water is lost"));
        CHECK_FALSE(contains(text, "not every choice"));
    }
    CHECK(contains(html, "less, judged earlier"));
}

TEST_CASE("a district without improvements is offered one more of each usual thing") {
    const TemporaryFolder folder;
    const Ended ended = improvements(write_small_district(folder.path()), folder / "out");
    INFO(ended.out << ended.err);
    REQUIRE(ended.exit_code == 0);
    CHECK(contains(ended.out, "one more of each usual thing"));
    const Package result(folder / "out" / "improvements.gpkg");
    CHECK(result.number("SELECT count(*) FROM improvements WHERE offered_by = 'program' AND cost "
                        "IS NULL") == 4);
}

TEST_CASE("an improvement that cannot be is one line with its place") {
    const TemporaryFolder folder;
    const auto refused = [&](const std::string& table, const std::string& words) {
        const fs::path district = written(
            folder / "d", more(wanting_district(), "district.toml", "[[improvement]]\n" + table));
        const Ended ended = improvements(district, folder / "out");
        CAPTURE(table, ended.err);
        CHECK(ended.exit_code == 2);
        CHECK(contains(ended.err, words));
        CHECK(contains(ended.err, "district.toml:"));
        CHECK_FALSE(fs::exists(folder / "out"));
    };
    refused("kind = \"tanker\"\nstation = \"S7\"\ngallons = 2500\n",
            "station \"S7\" is not in [stations]; did you mean \"S1\"?");
    refused("kind = \"tanker\"\nstation = \"S1\"\nlike = \"E1\"\n", "like \"E1\" is no tanker");
    refused("kind = \"tanker\"\nstation = \"S1\"\n", "of kind tanker lacks gallons or like");
    refused("kind = \"hose\"\nunit = \"T1\"\nlength_ft = 500\ndiameter_in = 4\n", "is no engine");
    refused("kind = \"hose\"\nunit = \"E1\"\nlength_ft = 500\ndiameter_in = 3.5\n",
            "must be 2.5, 3, 4 or 5");
    refused("kind = \"portable_tank\"\nunit = \"E1\"\ngallons = 2500\ncrew = 3\n",
            "has no use for crew; it takes unit, gallons, count");
    refused("kind = \"automatic_aid\"\nunit = \"T1\"\n", "has no mutual aid to make automatic");
    refused("kind = \"automatic_aid\"\nunit = \"T1\"\nstation = \"S1\"\n", "not both");
    refused("kind = \"winter_access\"\nroad = \"Main\"\n", "is maintained all year");
    refused("kind = \"bridge\"\nroad = \"Loop\"\n", "has no posted weight");
    refused("kind = \"bridge\"\nroad = \"row 99\"\n", "is no road of [roads]");
    refused("kind = \"staffing\"\nunit = \"T2\"\nperiod = \"noon\"\n", "lacks crew or turnout_min");
    refused("kind = \"source\"\nproposal = \"C2\"\n", "is none of the 2 places");
    refused("kind = \"helicopter\"\n", "kind must be tanker, portable_tank");
}
