// `init` as its users meet it: from a folder of data to a run.
#include <algorithm>
#include <map>

#include <catch2/catch.hpp>
#include <ogrsf_frmts.h>
#include <xlsxwriter.h>

#include "io/records/dataset.h"
#include "tests/support/program.h"
#include "tests/support/temporary_folder.h"

using namespace farwater::support;

namespace {

const std::string init_program = FARWATER_PROGRAM;

std::string feature(const std::string& geometry, const std::string& properties) {
    return R"({"type":"Feature","geometry":)" + geometry + R"(,"properties":{)" + properties + "}}";
}

std::string collection(const std::vector<std::string>& features) {
    std::string text = R"({"type":"FeatureCollection","features":[)";
    for (std::size_t i = 0; i < features.size(); ++i) {
        text += (i == 0 ? "" : ",\n") + features[i];
    }
    return text + "]}\n";
}

std::string box(double west, double south, double side) {
    const auto at = [](double x, double y) {
        return "[" + std::to_string(x) + "," + std::to_string(y) + "]";
    };
    return R"({"type":"Polygon","coordinates":[[)" + at(west, south) + "," +
           at(west + side, south) + "," + at(west + side, south + side) + "," +
           at(west, south + side) + "," + at(west, south) + "]]}";
}

// A county road of a mile, forty lots along it, a house on each: as a county sends them.
std::filesystem::path write_county_folder(const std::filesystem::path& folder) {
    std::vector<std::string> lots;
    std::vector<std::string> houses;
    for (int i = 0; i < 40; ++i) {
        const double west = -72.1 + 0.0005 * i;
        const std::string number = std::to_string(100 + 7 * i);
        lots.push_back(
            feature(box(west, 43.1501, 0.0005),
                    R"("PIN":"4-)" + number + R"(","SITE_ADDR":")" + number + R"( Mill Rd")"));
        houses.push_back(feature(box(west + 0.0002, 43.1503, 0.0001), R"("BLDG_ID":)" + number));
    }
    put(folder / "parcels.geojson", collection(lots));
    put(folder / "buildings.geojson", collection(houses));
    put(folder / "centerlines.geojson",
        collection(
            {feature(R"({"type":"LineString","coordinates":[[-72.11,43.15],[-72.07,43.15]]})",
                     R"("FULLNAME":"Mill Rd","RDCLASS":"paved")")}));
    return folder;
}

using Cells = std::map<std::string, std::string>;  // heading -> text

// The workbook as somebody saves it who filled it in: its own sheets and headings, with rows.
void fill_in(const std::filesystem::path& file,
             const std::map<std::string, std::vector<Cells>>& rows) {
    std::vector<std::pair<std::string, std::vector<std::string>>> sheets;
    {
        farwater::io::prepare_gdal();
        const GDALDatasetUniquePtr book(
            GDALDataset::Open(file.c_str(), GDAL_OF_VECTOR | GDAL_OF_READONLY));
        REQUIRE(book);
        for (OGRLayer* layer : book->GetLayers()) {
            farwater::io::take_only_row_for_names(*book, *layer);
            auto& [name, headings] = sheets.emplace_back();
            name = layer->GetName();
            for (int i = 0; i < layer->GetLayerDefn()->GetFieldCount(); ++i) {
                headings.emplace_back(layer->GetLayerDefn()->GetFieldDefn(i)->GetNameRef());
            }
        }
    }
    lxw_workbook* book = workbook_new(file.c_str());
    for (const auto& [name, headings] : sheets) {
        lxw_worksheet* sheet = workbook_add_worksheet(book, name.c_str());
        for (std::size_t i = 0; i < headings.size(); ++i) {
            const auto column = static_cast<lxw_col_t>(i);
            worksheet_write_string(sheet, 0, column, headings[i].c_str(), nullptr);
            const auto filled = rows.find(name);
            for (std::size_t row = 0; filled != rows.end() && row < filled->second.size(); ++row) {
                const auto cell = filled->second[row].find(headings[i]);
                if (cell != filled->second[row].end()) {
                    worksheet_write_string(sheet, static_cast<lxw_row_t>(row + 1), column,
                                           cell->second.c_str(), nullptr);
                }
            }
        }
    }
    REQUIRE(workbook_close(book) == LXW_NO_ERROR);
}

Cells engine(const std::string& id) {
    return {{"unit_id", id},      {"station_id", "S1"},    {"kind", "engine"}, {"tank_gal", "1000"},
            {"pump_gpm", "1500"}, {"hose_4in_ft", "1000"}, {"crew", "4"}};
}

Cells tanker(const std::string& id) {
    return {{"unit_id", id},
            {"station_id", "S1"},
            {"kind", "tanker"},
            {"tank_gal", "2500"},
            {"portable_tank_gal", "2500"},
            {"crew", "2"},
            {"fill_limit_gpm", "1000"},
            {"offload_gpm", "1000"}};
}

}  // namespace

TEST_CASE("init says what it recognised, what is missing and the next command", "[unit]") {
    const TemporaryFolder folder;
    const auto county = write_county_folder(folder.path() / "the town");
    put(county / "notes.txt", "x");
    const Ended ended = run_program(init_program, {"init", county.string()});
    CAPTURE(ended.out, ended.err);
    REQUIRE(ended.exit_code == 0);
    CHECK(ended.err.empty());
    CHECK(contains(ended.out, "parcels           parcels.geojson, 40 records"));
    CHECK(contains(ended.out, "columns: parcel_id = PIN, address = SITE_ADDR"));
    CHECK(contains(ended.out, "no data by its name: notes.txt"));
    CHECK(
        contains(ended.out, "stations, apparatus, water_sources, dump_sites: fill in the sheets"));
    CHECK(contains(ended.out, "farwater check '" + (county / "district.toml").string() + "'"));
    CHECK(std::filesystem::exists(county / "department.xlsx"));
    CHECK(std::distance(std::filesystem::directory_iterator(county), {}) == 4 + 2);
    // A second time nothing is touched.
    const std::string before = bytes_of(county / "district.toml");
    const Ended again = run_program(init_program, {"init", county.string()});
    CHECK(again.exit_code == 4);
    CHECK(again.out.empty());
    CHECK(contains(again.err, "is there already and is not written over"));
    CHECK(bytes_of(county / "district.toml") == before);
}

TEST_CASE("init says what it does not read, which layer it took and which column", "[unit]") {
    const TemporaryFolder folder;
    const auto county = write_county_folder(folder / "county");
    put(county / "centerlines.geojson",
        collection(
            {feature(R"({"type":"LineString","coordinates":[[-72.11,43.15],[-72.07,43.15]]})",
                     R"("FULLNAME":"Mill Rd","RDCLASS":"paved","SPEEDLIM":30,"POSTED_SPD":35,)"
                     R"("BRG_LOAD":300)")}));
    put(county / "parcels_old.geojson", bytes_of(county / "parcels.geojson"));
    const Ended text = run_program(init_program, {"init", county.string()});
    CAPTURE(text.out, text.err);
    REQUIRE(text.exit_code == 0);
    CHECK(contains(
        text.out,
        "\nNot read, and answers may be too good without it\n  roads.BRG_LOAD looks like a "
        "weight limit, but is not read; if it is, write weight_limit_lb =\n"));
    CHECK(contains(text.out,
                   "    speed_limit_mph could be SPEEDLIM or POSTED_SPD; SPEEDLIM is taken, "));
    CHECK(contains(text.out,
                   "    could be the same, not used: parcels_old.geojson: nothing tells them"));
    CHECK(contains(text.out,
                   "  parcels: see whether it is parcels.geojson or parcels_old.geojson; "));
    std::filesystem::remove(county / "district.toml");
    std::filesystem::remove(county / "department.xlsx");
    const Ended json = run_program(init_program, {"init", county.string(), "--json"});
    CHECK(contains(json.out, "\"not_read\": ["));
    CHECK(contains(json.out, "\"roads.BRG_LOAD looks like a weight limit, but is not read; "));
}

TEST_CASE("json is one document and quiet is silent for init too", "[unit]") {
    const TemporaryFolder folder;
    const Ended json =
        run_program(init_program, {"init", write_county_folder(folder / "a").string(), "--json"});
    CHECK(json.exit_code == 0);
    CHECK(contains(json.out, "\"schema_version\": 1"));
    CHECK(contains(json.out, "\"section\": \"parcels\""));
    CHECK(json.out.front() == '{');
    CHECK(json.out.substr(json.out.size() - 2) == "}\n");
    const Ended quiet =
        run_program(init_program, {"init", write_county_folder(folder / "b").string(), "--quiet"});
    CHECK(quiet.exit_code == 0);
    CHECK(quiet.out.empty());
    CHECK(quiet.err.empty());
    // Whatever the folder, the same workbook; and the same file but for the name.
    CHECK(bytes_of(folder / "a/department.xlsx") == bytes_of(folder / "b/department.xlsx"));
    std::string text = bytes_of(folder / "a/district.toml");
    text.replace(text.find("name = \"a\""), 10, "name = \"b\"");
    CHECK(text == bytes_of(folder / "b/district.toml"));
}

TEST_CASE("init refuses what it cannot use with the exit codes of all commands", "[unit]") {
    const TemporaryFolder folder;
    std::filesystem::create_directory(folder / "empty");
    CHECK(run_program(init_program, {"init"}).exit_code == 2);
    CHECK(run_program(init_program, {"init", (folder / "empty").string()}).exit_code == 3);
    CHECK(run_program(init_program, {"init", (folder / "none").string()}).exit_code == 3);
    CHECK(folder.entries() == 1);
}

TEST_CASE("nothing is written into a folder that may not be written to", "[unit]") {
    const TemporaryFolder folder;
    const auto county = write_county_folder(folder / "county");
    std::filesystem::permissions(
        county, std::filesystem::perms::owner_read | std::filesystem::perms::owner_exec |
                    std::filesystem::perms::others_read | std::filesystem::perms::others_exec);
    std::filesystem::permissions(folder.path(), std::filesystem::perms::all);
    // For root no folder is shut.
    const std::string as_nobody =
        "if [ $(id -u) = 0 ]; then exec setpriv --reuid 65534 --regid 65534 "
        "--clear-groups \"$0\" init \"$1\"; else exec \"$0\" init \"$1\"; fi";
    const Ended ended = run_program("/bin/sh", {"-c", as_nobody, init_program, county.string()});
    CAPTURE(ended.out, ended.err);
    CHECK(ended.exit_code == 4);
    CHECK(contains(ended.err, "district.toml: cannot write it: Permission denied"));
    CHECK(std::distance(std::filesystem::directory_iterator(county), {}) == 3);
    std::filesystem::permissions(county, std::filesystem::perms::owner_all);
}

TEST_CASE("a folder becomes a run when its workbook is filled in", "[unit]") {
    const TemporaryFolder folder;
    const auto county = write_county_folder(folder / "county");
    REQUIRE(run_program(init_program, {"init", county.string(), "--quiet"}).exit_code == 0);
    const std::string district = (county / "district.toml").string();
    const Ended blank = run_program(init_program, {"check", district});
    CHECK(blank.exit_code == 3);
    CHECK(std::ranges::count(blank.err, '\n') == 1);
    CHECK(contains(blank.err,
                   "stations (department.xlsx, layer stations), apparatus "
                   "(department.xlsx, layer apparatus): the layer holds no record"));
    fill_in(
        county / "department.xlsx",
        {{"stations",
          {{{"station_id", "S1"},
            {"name", "Central"},
            {"longitude", "-72.105"},
            {"latitude", "43.15"},
            {"staffed", "yes"}}}},
         {"apparatus",
          {engine("E1"), engine("E2"), engine("E3"), tanker("T1"), tanker("T2"), tanker("T3")}},
         {"water_sources",
          {{{"source_id", "D1"},
            {"name", "Mill Pond"},
            {"kind", "dry hydrant"},
            {"longitude", "-72.075"},
            {"latitude", "43.15"},
            {"standing", "declared"},
            {"standing_by", "Chief"},
            {"rate_gpm", "1,000"},
            {"usable_gal", "500000"},
            {"open_months", "4-11"}}}},
         {"dump_sites", {{{"place_id", "P1"}, {"longitude", "-72.095"}, {"latitude", "43.15"}}}}});
    const Ended check = run_program(init_program, {"check", district});
    CAPTURE(check.out, check.err);
    CHECK((check.exit_code == 0 || check.exit_code == 5));
    CHECK(contains(check.out, "stations                   1         1         0         0"));
    CHECK(contains(check.out, "dump_site_places           1         1         0         0"));
    CHECK_FALSE(contains(check.out, "date"));
    CHECK_FALSE(contains(check.out, "value_not"));
    const Ended run = run_program(init_program, {"run", district});
    CAPTURE(run.out, run.err);
    REQUIRE(run.exit_code == 0);
    CHECK(contains(run.out, "of 40 improved parcels meet their planned flow"));
    CHECK(std::filesystem::exists(county / "result/supply.gpkg"));
}
