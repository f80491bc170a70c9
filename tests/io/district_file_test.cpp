#include "io/district_file.h"

#include <catch2/catch.hpp>

#include "io/error.h"
#include "io/settings/schema.h"
#include "tests/support/program.h"
#include "tests/support/temporary_folder.h"

using namespace farwater;
using namespace farwater::io;
using farwater::support::contains;
using namespace std::chrono_literals;

namespace {

// The least that a district file must say, on lines 1 to 9.
const std::string least = R"(name = "Alder Notch"
[roads]
file = "roads.gpkg"
[parcels]
file = "parcels.gpkg"
[stations]
file = "stations.csv"
[apparatus]
file = "fleet.csv"
)";

DistrictFile parse(const std::string& text) {
    return parse_district_file(text, "some/district.toml");
}

std::string fault_of(const std::string& text) {
    try {
        parse_district_file(text, "district.toml");
    } catch (const SettingsError& error) {
        return error.what();
    }
    return "no fault";
}

// The fault of the least file with lines behind it; those begin on line 10.
std::string fault_with(const std::string& more) { return fault_of(least + more); }

}  // namespace

TEST_CASE("the least district file has a season, a period and every default") {
    const DistrictFile file = parse(least);
    CHECK(file.name == "Alder Notch");
    CHECK(file.tanker_word == "tanker");
    CHECK_FALSE(file.data_date);
    CHECK(file.crs.empty());
    CHECK(file.text == least);
    CHECK(file.folder == "some");
    REQUIRE(file.seasons.size() == 1);
    CHECK(file.seasons[0].name == "all_year");
    CHECK(file.seasons[0].months == MonthSet::all());
    REQUIRE(file.periods.size() == 1);
    CHECK(file.periods[0].name == "any_time");
    CHECK(file.assumptions.given.empty());
    CHECK(file.layers.size() == 4);
    CHECK_FALSE(file.elevation);
}

TEST_CASE("paths are relative to the district file and connections stay what they are") {
    const DistrictFile file = parse(R"(name = "x"
[roads]
file = "../gis/roads.gpkg"
[parcels]
file = "/data/parcels.gpkg"
[stations]
file = "PG:dbname=gis password=secret"
[apparatus]
file = "fleet.csv"
)");
    CHECK(file.layers.at("roads").path == "gis/roads.gpkg");
    CHECK(file.layers.at("parcels").path == "/data/parcels.gpkg");
    CHECK(file.layers.at("stations").path.empty());
    CHECK(file.layers.at("apparatus").path == "some/fleet.csv");
    CHECK(file.layers.at("apparatus").file == "fleet.csv");
}

TEST_CASE("an input section takes all its keys") {
    const DistrictFile file = parse(R"(name = "x"
tanker_word = "tender"
data_date = 2026-05-31
crs = "EPSG:32618"
[roads]
file = "gis.gpkg"
layer = "centrelines"
crs = "EPSG:2249"
where = "TOWN = 'X'"
open_options = ["LIST_ALL_TABLES=NO"]
columns = { class = "CLASS", width_ft = "WIDTH", bridge = "BR" }
units = { width_ft = "m" }
[roads.values.class]
II = "state"
"99" = ""
[roads.values]
bridge = { 1 = true, 2 = "no" }
[parcels]
file = "p.gpkg"
[stations]
file = "s.csv"
[apparatus]
file = "a.csv"
)");
    CHECK(file.tanker_word == "tender");
    CHECK(file.data_date == 2026y / 5 / 31);
    CHECK(file.crs == "EPSG:32618");
    const LayerSpec& roads = file.layers.at("roads");
    CHECK(roads.section == "roads");
    CHECK(roads.layer == "centrelines");
    CHECK(roads.crs == "EPSG:2249");
    CHECK(roads.where == "TOWN = 'X'");
    CHECK(roads.open_options == std::vector<std::string>{"LIST_ALL_TABLES=NO"});
    CHECK(roads.columns.at("class") == "CLASS");
    CHECK(roads.units.at("width_ft") == "m");
    CHECK(roads.values.at("class").at("II") == "state");
    CHECK(roads.values.at("class").at("99").empty());
    CHECK(roads.values.at("bridge").at("1") == "true");
}

TEST_CASE("seasons and periods come in the file's order") {
    const DistrictFile file = parse(least + R"(
[season.winter]
months = "11-3"
speed_factor = 0.75
extra_setup_min = 3
ice = true
closed_access = ["unmaintained", "gated"]
sources_out = ["draft_site"]
[season.summer]
months = "4-10"
[period.night]
turnout_volunteer_min = 6
[period.day]
)");
    REQUIRE(file.seasons.size() == 2);
    const Season& winter = file.seasons[0];
    CHECK(winter.name == "winter");
    CHECK(winter.months.contains(std::chrono::January));
    CHECK_FALSE(winter.months.contains(std::chrono::April));
    CHECK(winter.speed_factor == 0.75);
    CHECK(in_minutes(winter.extra_setup) == 3.0);
    CHECK(winter.ice);
    CHECK(winter.closed_access == std::vector{RoadAccess::unmaintained, RoadAccess::gated});
    CHECK(winter.sources_out == std::vector{SourceKind::draft_site});
    CHECK(file.seasons[1].name == "summer");
    REQUIRE(file.periods.size() == 2);
    CHECK(file.periods[0].name == "night");
    CHECK(file.periods[0].turnout_volunteer == minutes(6));
    CHECK_FALSE(file.periods[0].turnout_staffed);
    CHECK(file.periods[1].name == "day");
}

TEST_CASE("assumptions that are given are remembered in the file's order") {
    const DistrictFile file = parse(least + R"(
[assumptions]
hose_reach_ft = 1200
duration_min = 60
gated_roads_usable = true
max_profiles = 2
)");
    CHECK(file.assumptions.given == std::vector<std::string>{"hose_reach_ft", "duration_min",
                                                             "gated_roads_usable", "max_profiles"});
    CHECK(in_feet(file.assumptions.hose_reach) == Approx(1200));
    CHECK(in_minutes(file.assumptions.duration) == 60.0);
    CHECK(file.assumptions.gated_roads_usable);
    CHECK_FALSE(file.assumptions.private_roads_usable);
    CHECK(file.assumptions.max_profiles == 2);
}

TEST_CASE("joins are one table or several") {
    const std::string one = R"([join]
file = "assessor.csv"
key = "PID"
columns = { needed_gpm = "NFF" }
)";
    const DistrictFile single = parse(least + one);
    REQUIRE(single.joins.size() == 1);
    CHECK(single.joins[0].key == "PID");
    CHECK(single.joins[0].parcel_key.empty());
    CHECK(single.joins[0].table.section == "join");
    CHECK(single.joins[0].table.columns.at("needed_gpm") == "NFF");
    const DistrictFile two =
        parse(least + "[" + one.substr(0, 6) + "]" + one.substr(6) + R"([[join]]
file = "zones.csv"
key = "ID"
parcel_key = "MAPLOT"
columns = { zone = "ZONE" }
)");
    REQUIRE(two.joins.size() == 2);
    CHECK(two.joins[1].parcel_key == "MAPLOT");
}

TEST_CASE("the rule of drive times is one of three, by road speeds where none is named") {
    const auto rule = [](std::string_view word) {
        return parse("travel_time = \"" + std::string(word) + "\"\n" + least).travel_time;
    };
    CHECK(parse(least).travel_time == TravelTime::road_speeds);
    CHECK(rule("road_speeds") == TravelTime::road_speeds);
    CHECK(rule("linear_per_leg") == TravelTime::linear_per_leg);
    CHECK(rule("linear_per_round_trip") == TravelTime::linear_per_round_trip);
    CHECK_THROWS_AS(rule("linear"), SettingsError);
}

TEST_CASE("where the next sources go is chosen only where the file says so, by its terms") {
    CHECK_FALSE(parse(least).next_source);
    const auto terms = parse(least + "\n[next_source]\n").next_source;
    REQUIRE(terms);
    CHECK_FALSE(terms->sites);
    CHECK_FALSE(terms->weigh_by);
    const auto given = parse(least +
                             "\n[next_source]\nbudget = 60000\nyearly_budget = 20000\n"
                             "weigh_by = \"value\"\nplanned = [\"C1\"]\nruled_out = [\"DH-2\"]\n")
                           .next_source;
    REQUIRE(given);
    CHECK(given->budget == 60000.0);
    CHECK(given->yearly_budget == 20000.0);
    CHECK(given->weigh_by == WeighBy::value);
    CHECK(given->planned == std::vector<std::string>{"C1"});
    CHECK(given->ruled_out == std::vector<std::string>{"DH-2"});
    CHECK(fault_with("[next_source]\nsites = 3\nbudget = 60000\n") ==
          "district.toml:12:10: [next_source] has sites and budget: say how many, or for how much");
    CHECK(fault_of("next_source = 3\n" + least) ==
          "district.toml:1:15: next_source must be a table: [next_source]");
}

TEST_CASE("improvements keep what they name, in the file's order") {
    const DistrictFile file = parse(least + R"([[improvement]]
kind = "offload"
unit = "T2"
offload_gpm = 1000
backs_to_offload = false
cost = 9000
[[improvement]]
kind = "staffing"
name = "drivers at noon"
station = "S1"
period = "noon"
crew = 2
)");
    REQUIRE(file.improvements.size() == 2);
    const ImprovementSpec& valve = file.improvements[0];
    CHECK(valve.kind == ImprovementKind::offload);
    CHECK(valve.texts.at("unit") == "T2");
    CHECK(valve.places.at("unit").line == 12);
    CHECK(valve.numbers.at("offload_gpm") == 1000.0);
    CHECK(valve.numbers.at("cost") == 9000.0);
    CHECK(valve.backs_to_offload == false);
    CHECK(file.improvements[1].texts.at("name") == "drivers at noon");
    CHECK(file.improvements[1].numbers.at("crew") == 2.0);
}

TEST_CASE("a key that a kind of improvement has no use for is a fault, and one that it lacks") {
    CHECK(fault_with("[[improvement]]\nkind = \"siphon\"\nunit = \"T1\"\ngallons = 2500\n") ==
          "district.toml:13:11: [[improvement]] of kind siphon has no use for gallons; it takes "
          "unit, count");
    CHECK(fault_with("[[improvement]]\nkind = \"bridge\"\n") ==
          "district.toml:10:1: [[improvement]] of kind bridge lacks road");
    CHECK(fault_with("[[improvement]]\nunit = \"T1\"\n") ==
          "district.toml:10:1: [[improvement]] lacks kind: what it is");
    CHECK(fault_with("[[improvement]]\nkind = \"offload\"\nunit = \"T1\"\noffload_gpm = "
                     "\"fast\"\n") ==
          "district.toml:13:15: [[improvement]] offload_gpm must be a number, not a text");
}

TEST_CASE("an elevation raster has a unit and a band") {
    const DistrictFile file =
        parse(least + "[elevation]\nfile = \"dem.tif\"\nelevation_unit = \"ft\"\nband = 2\n");
    REQUIRE(file.elevation);
    CHECK(file.elevation->path == "some/dem.tif");
    CHECK(file.elevation->elevation_unit == "ft");
    CHECK(file.elevation->band == 2);
}

TEST_CASE("a district file that is no TOML says where") {
    CHECK(fault_of("name = \"x\"\nroads = \n") ==
          "district.toml:2:9: this is no TOML: key-value pair: expected value, saw '\\n'");
    CHECK(fault_of("name = \"x\"\nname = \"y\"\n").starts_with("district.toml:2:"));
}

// The parser takes as many as there are, table in table, until the stack is full.
TEST_CASE("a key of very many parts is refused, and dots elsewhere are not") {
    std::string deep;
    for (int i = 0; i < 100000; ++i) {
        deep += "a.";
    }
    CHECK(fault_with(deep + "a = 1\n") == "district.toml:10:32: no key has more than 16 parts");
    CHECK(fault_with("[" + deep + "a]\n") == "district.toml:10:33: no key has more than 16 parts");
    CHECK(fault_with("x = { " + deep + "a = 1 }\n").find("16 parts") != std::string::npos);
    const std::string dots(100, '.');
    CHECK(parse("name = \"" + dots + "\\\"" + dots + "\" # " + dots + "\n" +
                least.substr(least.find('\n') + 1))
              .name == dots + "\"" + dots);
}

TEST_CASE("an unknown key is shown with the nearest right one") {
    CHECK(fault_with("[buildings]\nfil = \"b.gpkg\"\n") ==
          "district.toml:10:2: [buildings] lacks file: path relative to the district file, or a "
          "connection "
          "string that begins with PG:\n"
          "district.toml:11:1: [buildings] has no key \"fil\"; did you mean \"file\"?");
    CHECK(fault_with("[assumptions]\nhose_reach_m = 300\n") ==
          "district.toml:11:1: [assumptions] has no key \"hose_reach_m\"; did you mean "
          "\"hose_reach_ft\"?");
    CHECK(fault_with("[season.winter]\nmonths = \"11-3\"\nfrost = true\n") ==
          "district.toml:12:1: [season.winter] has no key \"frost\"; it may have months, "
          "speed_factor, "
          "extra_setup_min, ice, closed_access or sources_out");
}

TEST_CASE("an unknown table is shown with the nearest right one") {
    CHECK(fault_with("[building]\nfile = \"b.gpkg\"\n") ==
          "district.toml:10:2: the district file has no table \"building\"; did you mean "
          "\"buildings\"?");
}

TEST_CASE("a key in the wrong table is told where it belongs") {
    CHECK(fault_of("hose_reach_ft = 300\n" + least) ==
          "district.toml:1:1: the district file has no key \"hose_reach_ft\"; it belongs in "
          "[assumptions]");
    CHECK(fault_with("tanker_word = \"tender\"\n") ==
          "district.toml:10:1: [apparatus] has no key \"tanker_word\"; it belongs at the top of "
          "the file, before "
          "every table");
}

TEST_CASE("a value of the wrong type says what it must be") {
    CHECK(fault_with("[assumptions]\nduration_min = \"120\"\n") ==
          "district.toml:11:16: [assumptions] duration_min must be a number, not a text");
    CHECK(fault_with("[assumptions]\nmax_profiles = 2.5\n") ==
          "district.toml:11:16: [assumptions] max_profiles must be a whole number, not a decimal "
          "number");
    CHECK(fault_with("[assumptions]\nprivate_roads_usable = \"yes\"\n") ==
          "district.toml:11:24: [assumptions] private_roads_usable must be true or false, not a "
          "text");
    CHECK(fault_of("data_date = \"2026-05-31\"\n" + least) ==
          "district.toml:1:13: the district file data_date must be a date such as 2026-05-31, "
          "without quotes, not "
          "a text");
    CHECK(fault_with("[season]\nwinter = 3\n") ==
          "district.toml:11:1: winter must be a table: [season.winter]");
    CHECK(fault_with("[season.winter]\nmonths = \"11-3\"\nclosed_access = \"gated\"\n") ==
          "district.toml:12:17: [season.winter] closed_access must be a list of texts, not a text");
    CHECK(fault_of("buildings = \"b.gpkg\"\n" + least) ==
          "district.toml:1:13: buildings must be a table: [buildings]");
    CHECK(fault_with("join = 3\n").find("[apparatus] has no key \"join\"") != std::string::npos);
    CHECK(fault_of("join = 3\n" + least) ==
          "district.toml:1:8: join must be a table [join] or tables [[join]]");
}

TEST_CASE("a value out of range names range and unit") {
    CHECK(fault_with("[assumptions]\nduration_min = 0\n") ==
          "district.toml:11:16: [assumptions] duration_min must be between 1 and 1440 min, not 0");
    CHECK(
        fault_with("[assumptions]\ndelivered_fraction = 1.5\n") ==
        "district.toml:11:22: [assumptions] delivered_fraction must be between 0.1 and 1, not 1.5");
    CHECK(fault_with("[assumptions]\nduration_min = nan\n") ==
          "district.toml:11:16: [assumptions] duration_min must be a number, not nan or infinity");
}

TEST_CASE("a word that is not in its list is shown with the list") {
    CHECK(fault_of("tanker_word = \"truck\"\n" + least) ==
          "district.toml:1:15: the district file tanker_word must be tanker or tender, not "
          "\"truck\"");
    CHECK(fault_with("[season.winter]\nmonths = \"11-3\"\nsources_out = [\"draftsite\"]\n") ==
          "district.toml:12:15: [season.winter] sources_out must be hydrant, dry_hydrant, "
          "draft_site or cistern, "
          "not \"draftsite\"; did you mean \"draft_site\"?");
    CHECK(fault_with("[season.winter]\nmonths = \"Nov-Mar\"\n") ==
          "district.toml:11:10: [season.winter] months must be months such as \"4-11\", \"11-3\", "
          "\"4,5,6\" or "
          "\"all\", not \"Nov-Mar\"");
}

TEST_CASE("a coordinate system that PROJ does not know is a fault of the district file") {
    CHECK(fault_of("crs = \"EPSG:0\"\n" + least) ==
          "district.toml:1:7: the district file crs \"EPSG:0\" is no coordinate system that PROJ "
          "knows");
    CHECK(fault_with("crs = \"Maine\"\n") ==
          "district.toml:10:7: [apparatus] crs \"Maine\" is no coordinate system that PROJ knows");
}

TEST_CASE("columns, units and values know the fields of their section") {
    CHECK(fault_with("[buildings]\nfile = \"b\"\ncolumns = { buildingid = \"B\" }\n") ==
          "district.toml:12:13: [buildings] has no field \"buildingid\" for its columns table; did "
          "you mean "
          "\"building_id\"?");
    CHECK(fault_with("[buildings]\nfile = \"b\"\ncolumns = { height = \"H\" }\n") ==
          "district.toml:12:13: [buildings] has no field \"height\" for its columns table; its "
          "fields are building_id, area_sqft, use, construction, storeys, height_ft, eaves_ft, "
          "hazard_class, sprinklers, x or y");
    CHECK(fault_with("[targets]\nfile = \"t\"\nunits = { needed_gpm = \"m\" }\n") ==
          "district.toml:12:24: [targets] units.needed_gpm must be gpm, l/min, l/s or m3/h");
    CHECK(fault_with("[targets]\nfile = \"t\"\nunits = { name = \"m\" }\n") ==
          "district.toml:12:11: [targets] units.name cannot be: the field has no unit");
    CHECK(fault_with("[water_sources]\nfile = \"w\"\nvalues = { kind = { H = \"hydrent\" } }\n") ==
          "district.toml:12:25: [water_sources] values.kind.H must be hydrant, dry_hydrant, "
          "draft_site or cistern, "
          "not \"hydrent\"; did you mean \"hydrant\"?");
    CHECK(fault_with(
              "[water_sources]\nfile = \"w\"\nvalues = { frost_proof = { X = \"perhaps\" } }\n") ==
          "district.toml:12:32: [water_sources] values.frost_proof.X must be yes or no");
    CHECK(fault_with("[targets]\nfile = \"t\"\ncolumns = { name = \" \" }\n") ==
          "district.toml:12:20: [targets] columns.name must be the name of a column");
}

TEST_CASE("a field of the parcels has one origin") {
    CHECK(fault_with("[join]\nfile = \"a.csv\"\nkey = \"P\"\ncolumns = { parcel_id = \"P\" }\n") ==
          "district.toml:10:2: [join] columns.parcel_id cannot be: the id comes from the parcels; "
          "name the table's "
          "key with key");
    CHECK(fault_of(R"(name = "x"
roads.file = "r"
stations.file = "s"
apparatus.file = "a"
[parcels]
file = "p"
columns = { zone = "Z" }
[join]
file = "a.csv"
key = "P"
columns = { zone = "ZONE" }
)") == "district.toml:8:2: [join] columns.zone cannot be: the field is mapped elsewhere too; keep "
       "one");
}

TEST_CASE("a name or file that is empty is none") {
    CHECK(fault_of("name = \"\"" + least.substr(least.find('\n'))) ==
          "district.toml:1:8: the district file name must not be empty: the district's name");
    CHECK(contains(
        fault_of("name = \" \t\"\n[roads]\nfile = \"\"\n"),
        "district.toml:1:8: the district file name must not be empty: the district's name\n"));
    CHECK(contains(fault_of("name = \"A\"\n[roads]\nfile = \"\"\n"),
                   "district.toml:3:8: [roads] file must not be empty: "));
}

TEST_CASE("a list of rasters is refused with the way to make them one") {
    CHECK(fault_with("[elevation]\nfile = [\"a.tif\", \"b.tif\"]\n")
              .find("[elevation] file must be a text, not a list: one raster, relative to the "
                    "district file; of several tiles make one by `gdalbuildvrt") !=
          std::string::npos);
}

// A reader of the page must not have to guess what a number is in.
TEST_CASE("numbers of the reference page tell their unit, or only count and compare") {
    const std::string page = district_file_reference();
    const auto row = [&](const std::string& name) {
        const std::size_t at = page.find("| `" + name + "`");
        return at == std::string::npos ? "" : page.substr(at, page.find('\n', at) - at);
    };
    CHECK(row("extra_setup_min").find(" | number | min | 0 to 120 ") != std::string::npos);
    CHECK(row("area_sqft").find(" | number | sqft | ") != std::string::npos);
    CHECK(row("gallons").find(" | number | gal | ") != std::string::npos);
    CHECK(row("steepest_dump_site_pct").find(" | % | 5 | ") != std::string::npos);
    CHECK(row("life_years").find(" | number | years | ") != std::string::npos);
    CHECK(row("yearly_budget").find(" | number | money | ") != std::string::npos);
    CHECK(row("pump_gpm").find(" | gpm | ") != std::string::npos);
    CHECK(page.find("In `kind` pumper, engine pumper, pumper engine, fire engine mean engine; "
                    "tender, ") != std::string::npos);
}

TEST_CASE("all faults of a file are shown at once, the first twenty in the file's order") {
    CHECK(fault_of("crs = 3\n") ==
          "district.toml:1:1: the district file lacks name: the district's name\n"
          "district.toml:1:1: the district file lacks [roads]: road centrelines\n"
          "district.toml:1:1: the district file lacks [parcels]: properties; all their further "
          "columns pass through to "
          "the result\n"
          "district.toml:1:1: the district file lacks [stations]: own and neighbours'\n"
          "district.toml:1:1: the district file lacks [apparatus]: engines, tankers and what else "
          "comes\n"
          "district.toml:1:7: the district file crs must be a text, not a whole number");
    std::string many = "[assumptions]\n";
    for (int i = 0; i < 25; ++i) {
        many += "strange_" + std::to_string(i) + " = 1\n";
    }
    const std::string text = fault_with(many);
    CHECK(std::count(text.begin(), text.end(), '\n') == 20);
    CHECK(text.ends_with("\nand 5 more"));
}

TEST_CASE("a district file that is not there is one sentence") {
    CHECK_THROWS_WITH(
        read_district_file("no/such/district.toml"),
        "no/such/district.toml: there is no such file; name the district's TOML file");
    CHECK_THROWS_WITH(read_district_file("tests"),
                      "tests: it cannot be read; name the district's TOML file");
    CHECK_THROWS_WITH(read_district_file("/dev/zero"),
                      "/dev/zero: it is larger than any such file; name the district's TOML file");
}

TEST_CASE("passwords are never stored or printed") {
    CHECK(printable_source("PG:host=db user=gis password=s3cret dbname=x") ==
          "PG:host=db user=gis password=*** dbname=x");
    CHECK(printable_source("PG:password='a b \\' c' dbname=x") == "PG:password=*** dbname=x");
    CHECK(printable_source("postgresql://gis:s3cret@db/x") == "postgresql://gis:***@db/x");
    CHECK(printable_source("roads.gpkg") == "roads.gpkg");
    const DistrictFile file =
        parse(least + "[buildings]\nfile = \"PG:dbname=x PASSWORD=s3cret\"\n");
    CHECK(printable_text(file).find("s3cret") == std::string::npos);
    CHECK(printable_text(file).find("[buildings]\nfile = \"PG:dbname=x PASSWORD=***\"\n") !=
          std::string::npos);
}

TEST_CASE("the reference page holds every key, field and assumption with default and source") {
    const std::string page = district_file_reference();
    const auto has = [&](std::string_view text) {
        CAPTURE(text);
        CHECK(page.find(text) != std::string::npos);
    };
    for (const SectionRow& section : section_rows()) {
        has("### [" + std::string(section.name) + "]");
        for (const FieldRow& field : section.fields) {
            has("| `" + std::string(field.name) + "`");
            has(field.what);
        }
    }
    for (const auto keys : {top_keys(), layer_keys(), elevation_keys(), join_keys(), season_keys(),
                            period_keys(), improvement_keys()}) {
        for (const KeyRow& key : keys) {
            has("| `" + std::string(key.name) + "` |");
            has(key.what);
        }
    }
    for (const AssumptionRow& row : assumption_rows()) {
        has("| `" + std::string(row.key) + "` |");
        has(row.source);
    }
    has("| `duration_min` | min | 120 | 1 to 1440 | high |");
    has("| `private_roads_usable` |  | false | true or false | medium |");
}

TEST_CASE("a file with a letter that nobody sees is refused, with its line") {
    const support::TemporaryFolder folder;
    support::put(folder / "district.toml", "\xEF\xBB\xBF# Höhe\r\nname = \"A\"\n");
    support::put(folder / "hidden.toml", "# Höhe\r\nname = \"A\u202EB\"\n");
    try {
        read_district_file(folder / "hidden.toml");
        FAIL("not refused");
    } catch (const SettingsError& error) {
        CHECK(error.what() == (folder / "hidden.toml").string() +
                                  ":2: holds a letter that nobody sees, or that turns the writing "
                                  "round; type the line anew");
    }
    // That one lacks its tables.
    CHECK_THROWS_WITH(read_district_file(folder / "district.toml"), Catch::Contains("roads"));
}

TEST_CASE("a file that cannot be looked at is no reason to fail without a word") {
    const farwater::support::TemporaryFolder folder;
    const auto refusal_of = [](const std::filesystem::path& path) {
        try {
            read_district_file(path);
        } catch (const SettingsError& error) {
            return std::string(error.what());
        }
        return std::string("not refused");
    };
    const std::filesystem::path round = folder / "round.toml";
    std::filesystem::create_symlink("round.toml", round);  // leads to itself
    CHECK(refusal_of(round) ==
          round.string() + ": it cannot be read; name the district's TOML file");
    CHECK(refusal_of(folder / "none.toml") ==
          (folder / "none.toml").string() +
              ": there is no such file; name the district's TOML file");
    CHECK(refusal_of(folder.path()) ==
          folder.path().string() + ": it cannot be read; name the district's TOML file");
}

TEST_CASE("more seasons and periods than answers can tell apart are refused") {
    const auto tables = [](std::string_view kind, int count) {
        std::string text;
        for (int i = 0; i < count; ++i) {
            text += "[" + std::string(kind) + ".n" + std::to_string(i) + "]\n";
            text += kind == "season" ? "months = \"1-12\"\n" : "";
        }
        return text;
    };
    CHECK(parse(least + tables("season", 16) + tables("period", 16)).periods.size() == 16);
    CHECK(fault_with(tables("season", 16) + tables("period", 17)) ==
          "district.toml:42:2: 16 seasons with 17 periods are 272 variants; 256 are the most, so "
          "name fewer");
}
