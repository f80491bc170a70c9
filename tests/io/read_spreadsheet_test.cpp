// Workbooks as an officer's spreadsheet saves them.
#include <catch2/catch.hpp>

#include "io/workbook_writer.h"
#include "tests/io/read_scene.h"

using namespace farwater;
using namespace farwater::io;
using namespace std::chrono_literals;

namespace {

using Rows = std::vector<std::vector<std::string>>;

// A sheet of texts; an empty text leaves its cell out. The columns' names become headings.
FeatureTable sheet_of(std::vector<std::string> columns, Rows rows) {
    FeatureTable table;
    table.name = "sheet";
    for (const std::string& column : columns) {
        table.columns.push_back({column, ColumnType::text, "A column.", 0});
    }
    table.rows = rows.size();
    table.fill = [rows = std::move(rows)](std::size_t row, Row& cells) {
        for (std::size_t i = 0; i < rows[row].size(); ++i) {
            cells.values[i] = std::string_view(rows[row][i]);
        }
    };
    return table;
}

void write_sheet(const std::filesystem::path& file, const FeatureTable& table) {
    REQUIRE(write_workbook(file, {"t", "f", std::chrono::sys_days(2026y / 5 / 31)},
                           {{"sheet", table}}, Work{}));
}

}  // namespace

TEST_CASE("the first row of a sheet names the columns, also where all cells are texts") {
    ReadScene scene;
    write_sheet(scene / "stations.xlsx",
                sheet_of({"Number", "Called"}, {{"S1", "Central"}, {"S2", "North"}}));
    scene.source("stations", "stations.xlsx", "columns = { station_id = \"Number\" }");
    CHECK(scene.refusal() ==
          "stations (stations.xlsx): the layer has no shapes; name the columns of its coordinates "
          "in [stations] columns, such as x = \"LON\" and y = \"LAT\"; the layer has Number, "
          "Called.");
}

TEST_CASE("stations of a sheet stand where its columns say") {
    ReadScene scene;
    write_sheet(scene / "stations.xlsx",
                sheet_of({"Number", "East", "North"}, {{"S1", "700010", "4769995"},
                                                       {"S2", "700290", "4769995"},
                                                       {"", "", ""},
                                                       {"", "", ""}}));
    scene.source("stations", "stations.xlsx",
                 "crs = \"EPSG:32618\"\ncolumns = { station_id = \"Number\", x = \"East\", y = "
                 "\"North\" }");
    const ReadResult read = scene.read();
    REQUIRE(read.district.stations.size() == 2);
    CHECK(read.district.stations[1].place == Point{700290, 4769995});
}
