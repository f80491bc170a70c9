// A workbook as other programs read it: by GDAL's driver, and as the XML that it is.
#include <catch2/catch.hpp>
#include <cpl_minixml.h>
#include <cpl_vsi.h>
#include <ogrsf_frmts.h>

#include "io/error.h"
#include "io/records/dataset.h"
#include "io/workbook_writer.h"
#include "tests/support/program.h"
#include "tests/support/temporary_folder.h"

using namespace farwater;
using namespace farwater::io;
using namespace farwater::support;

namespace {

const std::vector<std::string> cells_to_keep{"=1+1",
                                             "+1",
                                             "-2",
                                             "@SUM(A1)",
                                             "007",
                                             "1E5",
                                             "TRUE",
                                             "<b>&\"'</b>",
                                             "\xC3\xBC \xE2\x82\xAC",
                                             "bad \xFF byte",
                                             "bell\x07 tab\t",
                                             "  blanks  ",
                                             "_x0041_"};

FeatureTable hostile_cells() {
    return {.name = "texts",
            .title = "Texts",
            .description = "Hostile ones.",
            .columns = {{.name = "parcel_id", .type = ColumnType::text, .description = "Id."},
                        {.name = "shortfall_gpm_worst",
                         .type = ColumnType::real,
                         .description = "Flow."},
                        {.name = "parcels", .type = ColumnType::integer, .description = "Count."},
                        {.name = "staffed", .type = ColumnType::yes_no, .description = "Yes."}},
            .rows = cells_to_keep.size(),
            .fill = [](std::size_t index, Row& row) {
                row.values = {std::string_view(cells_to_keep[index]),
                              1234.25 + static_cast<double>(index),
                              static_cast<std::int64_t>(index), index % 2 == 0};
            }};
}

FeatureTable rows_of_numbers(std::size_t rows) {
    return {.name = "many",
            .title = "Many",
            .description = "Rows.",
            .columns = {{.name = "id", .type = ColumnType::text, .description = "Id."},
                        {.name = "n", .type = ColumnType::integer, .description = "Count."}},
            .rows = rows,
            .fill = [](std::size_t index, Row& row) {
                row.values = {std::string_view("row"), static_cast<std::int64_t>(index)};
            }};
}

const WorkbookHead book_head{.title = "A & B: water",
                             .footing = "Prove by a timed drill.",
                             .created = std::chrono::sys_days{std::chrono::year(2026) / 5 / 31}};

std::string part_of(const std::filesystem::path& book, const std::string& part) {
    const std::string path = "/vsizip/" + book.string() + "/" + part;
    VSILFILE* file = VSIFOpenL(path.c_str(), "rb");
    REQUIRE(file != nullptr);
    std::string bytes(1 << 20, '\0');
    bytes.resize(VSIFReadL(bytes.data(), 1, bytes.size(), file));
    VSIFCloseL(file);
    return bytes;
}

}  // namespace

TEST_CASE("text stays text in a workbook, whatever it looks like, and numbers stay numbers") {
    prepare_gdal();
    const TemporaryFolder folder;
    const auto book = folder.path() / "b.xlsx";
    REQUIRE(write_workbook(book, book_head,
                           {{"Texts", hostile_cells()}, {"Many", rows_of_numbers(3)}}, {}));
    const std::string sheet = part_of(book, "xl/worksheets/sheet1.xml");
    CHECK_FALSE(contains(sheet, "<f>"));
    const GDALDatasetUniquePtr data(GDALDataset::Open(book.c_str(), GDAL_OF_VECTOR));
    REQUIRE(data);
    REQUIRE(data->GetLayerCount() == 2);
    OGRLayer* layer = data->GetLayerByName("Texts");
    REQUIRE(layer != nullptr);
    CHECK(std::string(layer->GetLayerDefn()->GetFieldDefn(1)->GetNameRef()) ==
          "shortfall worst, gpm");
    CHECK(layer->GetLayerDefn()->GetFieldDefn(0)->GetType() == OFTString);
    REQUIRE(layer->GetFeatureCount() == static_cast<GIntBig>(cells_to_keep.size()));
    std::size_t index = 0;
    for (const auto& feature : layer) {
        std::string wanted = cells_to_keep[index];
        wanted = wanted == "bad \xFF byte" ? "bad ? byte" : wanted;
        wanted = wanted == "bell\x07 tab\t" ? "bell tab\t" : wanted;
        CAPTURE(wanted);
        CHECK(feature->GetFieldAsString(0) == wanted);
        CHECK(feature->GetFieldAsDouble(1) == 1234.25 + static_cast<double>(index));
        CHECK(feature->GetFieldAsInteger(2) == static_cast<int>(index));
        CHECK(std::string(feature->GetFieldAsString(3)) == (index % 2 == 0 ? "yes" : "no"));
        ++index;
    }
}

TEST_CASE("a sheet keeps its headings in sight, has a filter, and prints in landscape") {
    prepare_gdal();
    const TemporaryFolder folder;
    const auto book = folder.path() / "b.xlsx";
    REQUIRE(write_workbook(book, book_head, {{"Texts", hostile_cells()}}, {}));
    const std::string sheet = part_of(book, "xl/worksheets/sheet1.xml");
    for (const char* part :
         {"state=\"frozen\"", "<autoFilter ref=\"A1:D14\"/>", "orientation=\"landscape\"",
          "&amp;LA &amp;&amp; B: water&amp;RTexts", "Page &amp;P of &amp;N", "<cols>"}) {
        CAPTURE(part);
        CHECK(contains(sheet, part));
    }
    CHECK(contains(part_of(book, "xl/workbook.xml"), "_xlnm.Print_Titles"));
    CHECK(contains(part_of(book, "docProps/core.xml"), "2026-05-31T00:00:00Z"));
    CHECK(contains(part_of(book, "xl/styles.xml"), "#,##0.0"));
    for (const char* part : {"xl/worksheets/sheet1.xml", "xl/workbook.xml", "docProps/core.xml"}) {
        CPLXMLNode* tree = CPLParseXMLString(part_of(book, part).c_str());
        CHECK(tree != nullptr);
        CPLDestroyXMLNode(tree);
    }
}

TEST_CASE("a sheet that the format does not take is refused") {
    const TemporaryFolder folder;
    for (const char* name : {"[in brackets]", "a name of more than thirty-one letters"}) {
        CAPTURE(name);
        CHECK_THROWS_AS(
            write_workbook(folder.path() / "b.xlsx", book_head, {{name, hostile_cells()}}, {}),
            OutputError);
    }
    const WorkbookSheet twice{"Texts", hostile_cells()};
    CHECK_THROWS_AS(write_workbook(folder.path() / "b.xlsx", book_head, {twice, twice}, {}),
                    OutputError);
}

TEST_CASE("the same tables give the same workbook, byte by byte") {
    const TemporaryFolder folder;
    REQUIRE(write_workbook(folder.path() / "a.xlsx", book_head, {{"Texts", hostile_cells()}}, {}));
    REQUIRE(write_workbook(folder.path() / "b.xlsx", book_head, {{"Texts", hostile_cells()}}, {}));
    CHECK(bytes_of(folder.path() / "a.xlsx") == bytes_of(folder.path() / "b.xlsx"));
}

TEST_CASE("a sheet that is too long for a person says how many rows are in the CSV") {
    prepare_gdal();
    const TemporaryFolder folder;
    const auto book = folder.path() / "b.xlsx";
    REQUIRE(
        write_workbook(book, book_head, {{"Many", rows_of_numbers(most_rows_of_sheet + 7)}}, {}));
    const GDALDatasetUniquePtr data(GDALDataset::Open(book.c_str(), GDAL_OF_VECTOR));
    REQUIRE(data);
    OGRLayer* layer = data->GetLayer(0);
    REQUIRE(layer->GetFeatureCount() == static_cast<GIntBig>(most_rows_of_sheet + 1));
    const OGRFeatureUniquePtr last(layer->GetFeature(layer->GetFeatureCount() + 1));
    REQUIRE(last);
    CHECK(std::string(last->GetFieldAsString(0)) == "7 more rows: see tables/many.csv");
}

TEST_CASE("a workbook that cannot be written says so") {
    CHECK_THROWS_AS(write_workbook("/nowhere/b.xlsx", book_head, {{"Texts", hostile_cells()}}, {}),
                    OutputError);
    std::stop_source stop;
    stop.request_stop();
    Work stopped;
    stopped.stop = stop.get_token();
    const TemporaryFolder folder;
    std::filesystem::create_symlink("/dev/full", folder.path() / "full.xlsx");
    CHECK_THROWS_WITH(
        write_workbook(folder.path() / "full.xlsx", book_head, {{"Texts", hostile_cells()}}, {}),
        !Catch::Contains("..") && Catch::EndsWith(". An older result is untouched."));
    CHECK_FALSE(write_workbook(folder.path() / "b.xlsx", book_head, {{"Many", rows_of_numbers(9)}},
                               stopped));
}

TEST_CASE("headings carry their unit") {
    const auto heading = [](const char* name, ColumnType type) {
        return heading_of({.name = name, .type = type});
    };
    CHECK(heading("hose_ft", ColumnType::real) == "hose, ft");
    CHECK(heading("shortfall_gpm_worst", ColumnType::real) == "shortfall worst, gpm");
    CHECK(heading("parcel_id", ColumnType::text) == "parcel id");
    CHECK(heading("first_min_ft", ColumnType::text) == "first min, ft");
}
