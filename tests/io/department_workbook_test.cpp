// The workbook that a department fills in: what stands in it, and how it is read blank and filled.
#include "io/draft/department_workbook.h"

#include <algorithm>
#include <set>

#include <catch2/catch.hpp>
#include <cpl_vsi.h>
#include <ogrsf_frmts.h>

#include "io/error.h"
#include "io/records/column_names.h"
#include "io/records/dataset.h"
#include "io/workbook_writer.h"
#include "tests/io/draft_folder.h"
#include "tests/io/read_scene.h"
#include "tests/support/program.h"

using namespace farwater;
using namespace farwater::io;
using farwater::support::bytes_of;
using farwater::support::contains;
using Strings = std::vector<std::string>;

namespace {

std::vector<std::string_view> all_sheets() {
    return {sections_with_sheet().begin(), sections_with_sheet().end()};
}

std::filesystem::path written_workbook(const support::TemporaryFolder& folder) {
    std::filesystem::path file = folder / "department.xlsx";
    write_department_workbook(file, all_sheets());
    return file;
}

LayerSpec sheet_spec(const std::filesystem::path& file, std::string_view section) {
    LayerSpec spec;
    spec.section = section;
    spec.file = file.filename().string();
    spec.path = file;
    spec.layer = sheet_of_section(section);
    return spec;
}

Strings headings_of(const LayerSpec& spec) {
    const OpenLayer open = open_layer(spec);
    OGRFeatureDefn& columns = *open.layer->GetLayerDefn();
    Strings names;
    for (int i = 0; i < columns.GetFieldCount(); ++i) {
        names.emplace_back(columns.GetFieldDefn(i)->GetNameRef());
    }
    return names;
}

std::string part_of_zip(const std::filesystem::path& file, const std::string& part) {
    const std::string name = "/vsizip/" + file.string() + "/" + part;
    VSILFILE* stream = VSIFOpenL(name.c_str(), "rb");
    if (stream == nullptr) {
        return {};
    }
    std::string text(1U << 20U, '\0');
    text.resize(VSIFReadL(text.data(), 1, text.size(), stream));
    VSIFCloseL(stream);
    return text;
}

void put_into_zip(const std::string& name, const std::string& text) {
    prepare_gdal();
    VSILFILE* stream = VSIFOpenL(name.c_str(), "wb");
    REQUIRE(stream != nullptr);
    VSIFWriteL(text.data(), 1, text.size(), stream);
    VSIFCloseL(stream);
}

std::string why_not_read(const ReadScene& scene) { return scene.refusal(); }

}  // namespace

TEST_CASE("each sheet has every field of its section once, those asked first leftmost") {
    const support::TemporaryFolder folder;
    const std::filesystem::path file = written_workbook(folder);
    for (const std::string_view section : sections_with_sheet()) {
        CAPTURE(section);
        const Strings headings = headings_of(sheet_spec(file, section));
        const SectionRow& row = *find_section(section);
        REQUIRE(headings.size() == row.fields.size());
        CHECK(std::set<std::string>(headings.begin(), headings.end()).size() == headings.size());
        for (const FieldRow& field : row.fields) {
            const std::string heading = field.name == "x"   ? "longitude"
                                        : field.name == "y" ? "latitude"
                                                            : std::string(field.name);
            CHECK(columns_called(heading, headings).size() == 1);
        }
    }
    const Strings trucks = headings_of(sheet_spec(file, "apparatus"));
    CHECK(Strings(trucks.begin(), trucks.begin() + 6) ==
          Strings{"unit_id", "station_id", "kind", "tank_gal", "pump_gpm", "portable_tank_gal"});
}

TEST_CASE("a note says what goes there, in which unit, and what a blank means") {
    const FieldRow& tank = *find_field(*find_section("apparatus"), "tank_gal");
    CHECK(note_of_field(tank) ==
          "water carried. A cell holds: number, in gal, 0 to 20000. Blank = not known.");
    const FieldRow& kind = *find_field(*find_section("water_sources"), "kind");
    CHECK(note_of_field(kind) ==
          "what it is. A cell holds: hydrant, dry_hydrant, draft_site or cistern. Needed in every "
          "row.");
    const FieldRow& standing = *find_field(*find_section("water_sources"), "standing");
    CHECK_FALSE(contains(note_of_field(standing), "Blank = not known"));
    const support::TemporaryFolder folder;
    const std::string notes = part_of_zip(written_workbook(folder), "xl/comments2.xml");
    CHECK(contains(notes, note_of_field(tank)));
    std::size_t count = 0;
    for (auto at = notes.find("<comment "); at != std::string::npos;
         at = notes.find("<comment ", at + 1)) {
        ++count;
    }
    CHECK(count == find_section("apparatus")->fields.size());
}

TEST_CASE("cells of words offer theirs, stations are chosen from their sheet, months stay text") {
    const support::TemporaryFolder folder;
    const std::filesystem::path file = written_workbook(folder);
    const std::string trucks = part_of_zip(file, "xl/worksheets/sheet3.xml");
    CHECK(contains(trucks, "\"engine,tanker,other\""));
    CHECK(contains(trucks, "stations!$A$2:$A$101"));
    CHECK(contains(trucks, "state=\"frozen\""));
    const std::string water = part_of_zip(file, "xl/worksheets/sheet4.xml");
    CHECK(contains(water, "\"hydrant,dry_hydrant,draft_site,cistern\""));
    CHECK(contains(water, "\"yes,no\""));
    CHECK(contains(part_of_zip(file, "xl/styles.xml"), "formatCode=\"@\""));
    CHECK(contains(part_of_zip(file, "xl/workbook.xml"), "name=\"read me\" sheetId=\"1\""));
}

TEST_CASE("the same sheets are the same bytes") {
    const support::TemporaryFolder one;
    const support::TemporaryFolder two;
    CHECK(bytes_of(written_workbook(one)) == bytes_of(written_workbook(two)));
}

TEST_CASE("a workbook that cannot be written is an error of writing") {
    const support::TemporaryFolder folder;
    const auto write = [&] {
        write_department_workbook(folder / "no/department.xlsx", all_sheets());
    };
    CHECK_THROWS_AS(write(), OutputError);
    CHECK_THROWS_WITH(write(), Catch::EndsWith(".") && !Catch::EndsWith(".."));
}

TEST_CASE("blank sheets are told in one sentence, water too") {
    ReadScene scene;
    write_department_workbook(scene / "department.xlsx", all_sheets());
    const std::string degrees =
        "crs = \"EPSG:4326\"\ncolumns = { x = \"longitude\", y = \"latitude\" }";
    scene.source("stations", "department.xlsx", "layer = \"stations\"\n" + degrees);
    scene.source("apparatus", "department.xlsx", "layer = \"apparatus\"");
    scene.source("water_sources", "department.xlsx", "layer = \"water_sources\"\n" + degrees);
    CHECK(why_not_read(scene) ==
          "stations (department.xlsx, layer stations), apparatus (department.xlsx, layer "
          "apparatus): the layer holds no record; the analysis cannot do without, so write a row "
          "there for each; water_sources (department.xlsx, layer water_sources) has none either, "
          "and without water no flow is held.");
    scene.table("stations", "station_id,WKT\nS1,POINT (700010 4769995)\n")
        .section("stations", "crs = \"EPSG:32618\"");
    CHECK(contains(why_not_read(scene),
                   "apparatus (department.xlsx, layer apparatus): the layer holds"));
    scene.table("apparatus", "unit_id,station_id,kind,tank_gal\nE1,S1,engine,1000\n")
        .section("apparatus", "");
    CHECK(scene.read().district.sources.empty());
}

TEST_CASE("a sheet of its names alone has them for columns, of any maker and with a filter") {
    ReadScene scene;
    FeatureTable table{.name = "sheet"};
    table.columns = {{"Unit", ColumnType::text, "", 0}, {"Tank (gal)", ColumnType::text, "", 0}};
    table.rows = 0;
    using namespace std::chrono_literals;
    REQUIRE(write_workbook(scene / "a.xlsx", {"t", "f", std::chrono::sys_days(2026y / 5 / 31)},
                           {{"sheet", table}}, Work{}));
    const std::string names = "urn:oasis:names:tc:opendocument:xmlns:";
    const auto cell = [](const std::string& text) {
        return "<table:table-cell office:value-type=\"string\"><text:p>" + text +
               "</text:p></table:table-cell>";
    };
    const std::string zip = "/vsizip/" + (scene / "a.ods").string();
    put_into_zip(zip + "/mimetype", "application/vnd.oasis.opendocument.spreadsheet");
    put_into_zip(
        zip + "/content.xml",
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?><office:document-content xmlns:office=\"" +
            names + "office:1.0\" xmlns:table=\"" + names + "table:1.0\" xmlns:text=\"" + names +
            "text:1.0\" office:version=\"1.2\">"
            "<office:body><office:spreadsheet><table:table table:name=\"sheet\">"
            "<table:table-row>" +
            cell("Unit") + cell("Tank (gal)") +
            "</table:table-row></table:table></office:spreadsheet></office:body>"
            "</office:document-content>");
    for (const char* file : {"a.xlsx", "a.ods"}) {
        CAPTURE(file);
        LayerSpec spec;
        spec.file = file;
        spec.path = scene / file;
        spec.where = "Unit = 'E1'";
        CHECK(headings_of(spec) == Strings{"Unit", "Tank (gal)"});
        CHECK(open_layer(spec).layer->GetFeatureCount() == 0);
        CHECK(open_layer(spec).layer->GetNextFeature() == nullptr);
    }
}
