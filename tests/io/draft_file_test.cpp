// The drafted district file: it can be read, whatever the data are called, and nothing is lost.
#include <regex>

#include <catch2/catch.hpp>
#include <ogrsf_frmts.h>
#include <rapidcheck.h>

#include "io/district_file.h"
#include "io/draft/evening_text.h"
#include "io/draft/toml_lines.h"
#include "io/error.h"
#include "io/read_district.h"
#include "io/records/dataset.h"
#include "io/settings/toml_tree.h"
#include "tests/io/draft_folder.h"
#include "tests/support/program.h"

using namespace farwater;
using namespace farwater::io;
using farwater::support::bytes_of;
using farwater::support::contains;

namespace {

DistrictFile draft_read_back(const Draft& draft) {
    return parse_district_file(draft.district_file, draft.folder / "district.toml");
}

// The suggestions taken up: "# " away from tables and keys.
std::string taken_up(const std::string& text) {
    const std::regex suggestion("# (\\[.*|[a-z_0-9]+ = .*)");
    std::istringstream lines(text);
    std::string result;
    for (std::string line; std::getline(lines, line);) {
        result += (std::regex_match(line, suggestion) ? line.substr(2) : line) + "\n";
    }
    return result;
}

std::string refused_text(const std::string& text) {
    try {
        parse_district_file(text, "district.toml");
    } catch (const SettingsError& error) {
        return error.what();
    }
    return {};
}

template <class Error, class Call>
std::string draft_error(const Call& call) {
    try {
        call();
    } catch (const Error& error) {
        return error.what();
    }
    return "no error";
}

}  // namespace

TEST_CASE("what is drafted is read back as it was recognised") {
    DraftFolder folder;
    folder.geopackage("county.gpkg", {lots("parcels", "PIN"),
                                      lines("roads", {"FULLNAME", "class"}, {"Mill Rd", "paved"})});
    folder.text("stations.csv", "Station,Lon,Lat\nS1,-71.99,43\n");
    folder.text("apparatus.csv", "Unit,Station,Type,Tank gal\nE1,S1,engine,1000\n");
    folder.text("water_sources.csv", "ID,KIND,GPM,LON,LAT\nW1,hydrant,500,-71.99,43\n");
    const Draft draft = folder.draft();
    CHECK(draft.sheets.empty());
    CHECK(draft.missing.empty());
    const DistrictFile file = draft_read_back(draft);
    CHECK(file.layers.at("parcels").layer == "parcels");
    CHECK(file.layers.at("parcels").columns.at("parcel_id") == "PIN");
    CHECK(file.layers.at("roads").columns.at("name") == "FULLNAME");
    CHECK(file.layers.at("stations").crs == "EPSG:4326");
    CHECK(file.layers.at("apparatus").columns.at("unit_id") == "Unit");
    // The reading goes through, columns of our own names included.
    const ReadResult read = read_district(file, Work{});
    CHECK(read.district.parcels.size() == 40);
    CHECK(read.district.roads.front().kind == RoadClass::paved);
    REQUIRE(read.district.units.size() == 1);
    CHECK(read.district.sources.size() == 1);
}

TEST_CASE("a folder without parcels and roads still gives a file that can be read") {
    DraftFolder folder;
    folder.text("stations.csv", "station_id,lon,lat\nS1,-71.99,43\n");
    const Draft draft = folder.draft();
    const DistrictFile file = draft_read_back(draft);
    CHECK(file.layers.at("parcels").file == "parcels.gpkg");
    CHECK(file.layers.at("apparatus").file == "department.xlsx");
    CHECK(draft_error<InputError>([&] { read_district(file, Work{}); }) ==
          "roads (roads.gpkg): there is no file " + (folder / "roads.gpkg").string() +
              "; correct file in the district file; its folder holds stations.csv.");
}

TEST_CASE("layers, files and columns of any name are written so that they are found again") {
    DraftFolder folder;
    const std::string hostile = "par\"cels\n\\x \"\"\" '[roads]' \xC3\xA9 #\xE2\x80\xAE";
    const std::string column = "PIN";
    folder.geopackage("PG:dbname=x\"y' \xC3\xBC.gpkg",
                      {lots(hostile, column), lines("my roads ] = \"\"\"", {"name \"q\""}, {"x"})});
    const Draft draft = folder.draft();
    const DistrictFile file = draft_read_back(draft);
    CHECK(file.layers.at("parcels").layer == hostile);
    CHECK_FALSE(file.layers.at("parcels").path.empty());
    CHECK(open_layer(file.layers.at("parcels")).layer->GetFeatureCount() == 40);
    CHECK(open_layer(file.layers.at("roads")).layer->GetFeatureCount() == 2);
}

TEST_CASE("words of theirs cannot break out of their comment") {
    DraftFolder folder;
    folder.geopackage("roads.gpkg",
                      {lines("roads", {"class"}, {"II\"\n[assumptions]\nhose_reach_ft = 9999 #"})});
    const DistrictFile file = draft_read_back(folder.draft());
    CHECK(file.assumptions.hose_reach == Assumptions{}.hose_reach);
}

TEST_CASE("any text comes back out of TOML as it went in", "[property]") {
    CHECK(rc::check("toml_text", [](const std::vector<std::uint32_t>& letters) {
        std::string text;
        for (const std::uint32_t letter : letters) {
            // ASCII with its control characters, Latin, marks without width, beyond 16 bits.
            const std::uint32_t code = letter % 4 == 0   ? letter / 4 % 128
                                       : letter % 4 == 1 ? 0xA0 + letter / 4 % 0x300
                                       : letter % 4 == 2 ? 0x2000 + letter / 4 % 0x70
                                                         : 0x1F300 + letter / 4 % 0x100;
            if (code < 0x80) {
                text += static_cast<char>(code);
            } else if (code < 0x800) {
                text += static_cast<char>(0xC0U | code >> 6U);
                text += static_cast<char>(0x80U | (code & 0x3FU));
            } else if (code < 0x10000) {
                text += static_cast<char>(0xE0U | code >> 12U);
                text += static_cast<char>(0x80U | (code >> 6U & 0x3FU));
                text += static_cast<char>(0x80U | (code & 0x3FU));
            } else {
                text += static_cast<char>(0xF0U | code >> 18U);
                text += static_cast<char>(0x80U | (code >> 12U & 0x3FU));
                text += static_cast<char>(0x80U | (code >> 6U & 0x3FU));
                text += static_cast<char>(0x80U | (code & 0x3FU));
            }
        }
        const std::string line = "a = " + toml_text(text);
        RC_ASSERT(line.find('\n') == std::string::npos);
        const TomlTable table = parse_toml(line + "\n", "t");
        RC_ASSERT(table.size() == 1U);
        RC_ASSERT(*table.front().node.as<std::string>() == text);
    }));
}

TEST_CASE("every suggestion has a key that the district file knows, and a value that it takes") {
    const bool has_buildings = GENERATE(true, false);
    TomlLines lines;
    add_top_suggestions(lines);
    lines.add(
        "[parcels]\nfile = \"p\"\n[roads]\nfile = \"r\"\n[stations]\nfile = \"s\"\n"
        "[apparatus]\nfile = \"a\"");
    lines.add(has_buildings ? "[buildings]\nfile = \"b\"" : "");
    add_evening_suggestions(lines, has_buildings);
    const std::string text = "name = \"x\"\n" + taken_up(lines.text());
    CHECK(contains(text, "\n[season.winter]\n"));
    CHECK(contains(text, "\nprivate_roads_usable = false\n"));
    CHECK(contains(text, "\ntanker_word = \"tender\"\n"));
    CHECK(refused_text(text) == "");
    // The test would see a key that is none.
    CHECK_FALSE(refused_text(text + "offload_slotz = 1\n").empty());
}

TEST_CASE("a district file that is there is never written over") {
    DraftFolder folder;
    folder.geopackage("parcels.gpkg", {lots("parcels", "PIN")});
    const Draft draft = folder.draft();
    folder.text("district.toml", "name = \"mine\"\n");
    CHECK(contains(draft_error<OutputError>([&] { folder.draft(); }),
                   "district.toml: is there already"));
    CHECK(contains(draft_error<OutputError>([&] { write_draft(draft); }), "is there already"));
    CHECK(bytes_of(folder / "district.toml") == "name = \"mine\"\n");
    CHECK_FALSE(std::filesystem::exists(folder / "department.xlsx"));
}

TEST_CASE("a workbook that is there is never written over, and nothing else is written then") {
    DraftFolder folder;
    folder.geopackage("parcels.gpkg", {lots("parcels", "PIN")});
    const Draft draft = folder.draft();
    folder.text("department.xlsx", "years of work");
    CHECK(contains(draft_error<OutputError>([&] { folder.draft(); }),
                   "department.xlsx: is there already"));
    CHECK(contains(draft_error<OutputError>([&] { write_draft(draft); }),
                   "department.xlsx: is there already"));
    CHECK(bytes_of(folder / "department.xlsx") == "years of work");
    CHECK_FALSE(std::filesystem::exists(folder / "district.toml"));
}

TEST_CASE("where nothing can be written nothing is left") {
    DraftFolder folder;
    folder.geopackage("data/parcels.gpkg", {lots("parcels", "PIN")});
    Draft draft = draft_district(folder / "data", Work{});
    draft.folder = folder / "data/parcels.gpkg";  // a file, so that no file can be in it
    CHECK(contains(draft_error<OutputError>([&] { write_draft(draft); }), "cannot write it"));
    draft.folder = folder / "data";
    const auto before = std::distance(std::filesystem::directory_iterator(folder / "data"), {});
    // In the place of the workbook stands a folder by the time of writing.
    std::filesystem::create_directory(folder / "data/department.xlsx");
    CHECK_FALSE(draft_error<OutputError>([&] { write_draft(draft); }) == "no error");
    CHECK(std::distance(std::filesystem::directory_iterator(folder / "data"), {}) == before + 1);
}

TEST_CASE("a folder with nothing to recognise is refused in one sentence") {
    DraftFolder folder;
    CHECK(contains(draft_error<InputError>([&] { folder.draft(); }),
                   "no data there is told to be parcels"));
    folder.text("readings.csv", "a,b\n1,2\n");
    CHECK(contains(draft_error<InputError>([&] { folder.draft(); }),
                   "passed over: readings.csv (neither"));
    CHECK(contains(draft_error<InputError>([&] { draft_district(folder / "no", Work{}); }),
                   "there is no such folder"));
    CHECK(
        contains(draft_error<InputError>([&] { draft_district(folder / "readings.csv", Work{}); }),
                 "it is no folder"));
}
