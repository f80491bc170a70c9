// Results of runs, read back.
#include "io/result_file.h"

#include <catch2/catch.hpp>

#include "io/error.h"
#include "io/results/flat_settings.h"
#include "io/results/stored_layers.h"
#include "tests/io/geopackage_tables.h"
#include "tests/support/temporary_folder.h"

using namespace farwater;
using namespace farwater::io;
using farwater::support::put;
using farwater::support::TemporaryFolder;
namespace fs = std::filesystem;

namespace {

// A table whose cells are given row by row; shapes are 10 m squares in a row.
FeatureTable table_of(const std::string& name, ShapeKind shape, std::vector<Column> columns,
                      std::vector<std::vector<Value>> rows) {
    FeatureTable table{.name = name,
                       .title = name,
                       .description = name,
                       .shape = shape,
                       .columns = std::move(columns),
                       .rows = rows.size(),
                       .fill = {}};
    table.fill = [rows = std::move(rows), shape](std::size_t index, Row& row) {
        row.values = rows[index];
        const double x = 500000.0 + 10.0 * static_cast<double>(index);
        const double y = 4700000.0;
        if (shape == ShapeKind::point) {
            row.shape = {{x, y}};
        } else if (shape == ShapeKind::polygon) {
            row.shape = {{x, y}, {x + 10, y}, {x + 10, y + 10}, {x, y + 10}, {x, y}};
        }
    };
    return table;
}

using namespace std::string_view_literals;

FeatureTable run_record(std::vector<std::vector<Value>> rows) {
    return table_of("run_record", ShapeKind::none,
                    {{"key", ColumnType::text, "k", 0}, {"value", ColumnType::text, "v", 0}},
                    std::move(rows));
}

const std::vector<std::vector<Value>> usual_record{
    {"program"sv, "farwater 1"sv},
    {"district_file_text"sv, "data_date = 2026-05-31\n[season.winter]\nmonths = \"12-3\"\n"sv}};

FeatureTable parcels_without_clocks() {
    return table_of("parcel_supply", ShapeKind::polygon,
                    {{"parcel_id", ColumnType::text, "p", 0},
                     {"state", ColumnType::text, "s", 0},
                     {"needed_gpm", ColumnType::real, "n", 1},
                     {"cautious_gpm", ColumnType::text, "a column of another type", 0}},
                    {{"007"sv, "held"sv, 500.0, "many"sv}, {"008"sv, "soggy"sv, Value{}, "few"sv}});
}

fs::path put_result(const TemporaryFolder& folder, const std::vector<FeatureTable>& tables,
                    const WorkingCrs& crs = test::utm_18()) {
    const fs::path file = folder / "supply.gpkg";
    test::write_file(file, tables, crs);
    return file;
}

std::string why_refused(const fs::path& path) {
    try {
        const ResultFile file(path);
        return {};
    } catch (const InputError& error) {
        return error.what();
    }
}

bool says(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("what a result does not tell, or tells in a column of another type, is none") {
    const TemporaryFolder folder;
    put_result(folder, {parcels_without_clocks(), run_record(usual_record)});
    const ResultFile file(folder.path());
    const StoredResult result = file.read({});
    REQUIRE(result.parcels.places.size() == 2);
    CHECK(result.parcels.tells(AnswerNumber::needed));
    CHECK_FALSE(result.parcels.tells(AnswerNumber::cautious));
    CHECK_FALSE(result.parcels.tells(AnswerNumber::tank_water));
    CHECK_FALSE(result.parcels.tells(AnswerText::mode));
    const StoredAnswer& first = result.parcels.places[0];
    CHECK(first.id == "007");
    CHECK(first.state == SupplyState::held);
    CHECK(*first[AnswerNumber::needed] == Tenths{5000});
    CHECK_FALSE(first[AnswerNumber::cautious]);
    const StoredAnswer& second = result.parcels.places[1];
    CHECK_FALSE(second.state);
    CHECK(second.other_state == "soggy");
    CHECK_FALSE(second[AnswerNumber::needed]);
    CHECK_FALSE(result.targets.told);
    CHECK(result.table("fleet") == nullptr);
    CHECK(result.recorded("program") == "farwater 1");
    CHECK(result.data_date ==
          Date{std::chrono::year(2026), std::chrono::May, std::chrono::day(31)});
    REQUIRE(result.settings);
    CHECK(result.settings->back() ==
          std::pair<std::string, std::string>("season.winter.months", "12-3"));
}

TEST_CASE("a flow that no run wrote is refused with file, layer and record") {
    for (const double flow : {-1.0, -2e8, 1.5e6, 2e8}) {
        CAPTURE(flow);
        const TemporaryFolder folder;
        const fs::path file =
            put_result(folder, {table_of("parcel_supply", ShapeKind::polygon,
                                         {{"parcel_id", ColumnType::text, "p", 0},
                                          {"state", ColumnType::text, "s", 0},
                                          {"needed_gpm", ColumnType::real, "n", 1}},
                                         {{"007"sv, "held"sv, 500.0}, {"008"sv, "held"sv, flow}}),
                                run_record(usual_record)});
        const ResultFile result(folder.path());
        std::string why;
        try {
            result.read({});
        } catch (const InputError& error) {
            why = error.what();
        }
        CHECK(says(why, file.string() + ": layer parcel_supply, record 2, column needed_gpm: "));
    }
}

TEST_CASE("shapes come back in metres of the plane that is asked for") {
    const TemporaryFolder folder;
    put_result(folder, {parcels_without_clocks(), run_record(usual_record)});
    ResultFile file(folder.path());
    const MultiPolygon area = file.parcel_area(2);
    REQUIRE(area.size() == 1);
    CHECK(area_m2(area) == Approx(100.0));
    CHECK(box_of(area).low.x == Approx(500010.0));
    CHECK(file.parcel_area(99).empty());
    REQUIRE(file.show_in(test::feet_crs()));
    CHECK(area_m2(file.parcel_area(2)) == Approx(100.0).epsilon(0.01));
    CHECK(box_of(file.parcel_area(2)).low.x < 400000.0);
    CHECK(file.roads({}).empty());
}

TEST_CASE("a folder that is no result gets one clear sentence") {
    const TemporaryFolder folder;
    CHECK(says(why_refused(folder / "none"), "there is no such file or folder."));
    CHECK(says(why_refused(folder.path()), "there is no supply.gpkg in it."));
    put(folder / "supply.gpkg", "");
    CHECK(says(why_refused(folder.path()), "the file is empty."));
    put(folder / "supply.gpkg", "not a database at all, but long enough to be looked at twice");
    CHECK(says(why_refused(folder.path()), "it is no GeoPackage."));
    fs::remove(folder / "supply.gpkg");
    put_result(folder, {test::points("parcel_supply", 2)});
    CHECK(says(why_refused(folder.path()), "it has no table run_record."));
    fs::remove(folder / "supply.gpkg");
    put_result(folder, {run_record(usual_record)});
    CHECK(says(why_refused(folder / "supply.gpkg"), "it has no layer parcel_supply."));
    fs::remove(folder / "supply.gpkg");
    put_result(folder, {run_record({{"audience"sv, "public"sv}})});
    CHECK(says(why_refused(folder.path()), "was made for the public"));
    fs::remove(folder / "supply.gpkg");
    put_result(folder, {test::points("parcel_supply", 2), run_record(usual_record)});
    CHECK(says(why_refused(folder.path()), "parcel_supply has no column parcel_id."));
}

TEST_CASE("a result in the making is refused") {
    const TemporaryFolder folder;
    put_result(folder, {parcels_without_clocks(), run_record(usual_record)});
    put(folder / ".farwater-results",
        "This folder belongs to farwater, which replaces it as a whole. Keep your own files "
        "elsewhere.\n");
    CHECK(says(why_refused(folder.path()), "is not whole"));
}

TEST_CASE("numbers are written without zeros at the end") {
    CHECK(number_text(5351.39990234375, 1) == "5351.4");
    CHECK(number_text(2500.0, 1) == "2500");
    CHECK(number_text(0.35, 6) == "0.35");
    CHECK(number_text(-0.00000001, 6) == "0");
    CHECK(number_text(100.0, 0) == "100");
    CHECK(number_text(std::numeric_limits<double>::quiet_NaN(), 1).empty());
}

TEST_CASE("a district file is flat, whatever its order, its lists numbered") {
    const auto flat = flat_settings(
        "name = \"N\"\n[assumptions]\nx = 1.50\n[[improvement]]\nkind = \"a\"\n[[improvement]]\n"
        "kind = \"b\"\n[period.noon]\n[roads]\nopen_options = [\"A=1\", \"B\"]\n");
    REQUIRE(flat);
    using Pair = std::pair<std::string, std::string>;
    CHECK(flat->keys == StoredRecord{Pair{"name", "N"}, Pair{"assumptions.x", "1.5"},
                                     Pair{"improvement.1.kind", "a"},
                                     Pair{"improvement.2.kind", "b"}, Pair{"period.noon", ""},
                                     Pair{"roads.open_options", "A=1, B"}});
    CHECK_FALSE(flat->data_date);
    CHECK_FALSE(flat_settings("no = toml = here"));
}
