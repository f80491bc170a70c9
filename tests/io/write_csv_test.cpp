#include <cmath>
#include <limits>
#include <locale>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "io/csv_writer.h"
#include "io/error.h"
#include "tests/support/temporary_folder.h"

namespace {

using namespace farwater;
using namespace farwater::io;

FeatureTable one_column(ColumnType type, int decimals, std::vector<Value> values) {
    FeatureTable table;
    table.name = "things";
    table.columns = {{"thing", type, "A thing.", decimals}};
    table.rows = values.size();
    table.fill = [values = std::move(values)](std::size_t i, Row& row) {
        row.values[0] = values[i];
    };
    return table;
}

std::string text_of(const FeatureTable& table) {
    std::string text;
    REQUIRE(csv(table, Work{}, [&](std::string_view bytes) { text += bytes; }));
    return text;
}

// The one cell below the heading.
std::string cell(ColumnType type, const Value& value, int decimals = 1) {
    const std::string text = text_of(one_column(type, decimals, {value}));
    const std::string heading = "\xEF\xBB\xBFthing\r\n";
    REQUIRE(text.starts_with(heading));
    REQUIRE(text.ends_with("\r\n"));
    return text.substr(heading.size(), text.size() - heading.size() - 2);
}

std::string text_cell(std::string_view text) { return cell(ColumnType::text, text); }

}  // namespace

TEST_CASE("a table as CSV begins with a byte order mark and ends its lines with CR LF") {
    FeatureTable table;
    table.columns = {{"place", ColumnType::text, "", 0}, {"flow_gpm", ColumnType::real, "", 0}};
    table.rows = 2;
    table.fill = [](std::size_t i, Row& row) {
        row.values[0] = i == 0 ? std::string_view("Mill") : std::string_view("Höhe");
        row.values[1] = i == 0 ? Value(250.4) : Value();
    };
    CHECK(text_of(table) == "\xEF\xBB\xBFplace,flow_gpm\r\nMill,250\r\nHöhe,\r\n");
}

TEST_CASE("CSV text is quoted as RFC 4180 says") {
    CHECK(text_cell("plain text; semicolon") == "plain text; semicolon");
    CHECK(text_cell("a,b") == "\"a,b\"");
    CHECK(text_cell("say \"no\"") == "\"say \"\"no\"\"\"");
    CHECK(text_cell("two\nlines") == "\"two\nlines\"");
    CHECK(text_cell("two\r\nlines") == "\"two\r\nlines\"");
    CHECK(text_cell("").empty());
}

TEST_CASE("CSV text that a spreadsheet would run as a formula gets an apostrophe") {
    CHECK(text_cell("=1+1") == "'=1+1");
    CHECK(text_cell("+44") == "'+44");
    CHECK(text_cell("-5") == "'-5");
    CHECK(text_cell("@SUM(A1)") == "'@SUM(A1)");
    CHECK(text_cell("\tx") == "'\tx");
    CHECK(text_cell("\rx") == "\"'\rx\"");
    CHECK(text_cell("=A1,B1") == "\"'=A1,B1\"");
    CHECK(text_cell("0=1") == "0=1");
}

TEST_CASE("CSV numbers have the column's decimals and are never guarded as text") {
    CHECK(cell(ColumnType::real, -2.25, 1) == "-2.2");
    CHECK(cell(ColumnType::real, 1234567.0, 0) == "1234567");
    CHECK(cell(ColumnType::real, 0.125, 3) == "0.125");
    CHECK(cell(ColumnType::real, -0.04, 1) == "0.0");
    CHECK(cell(ColumnType::real, -0.06, 1) == "-0.1");
    CHECK(cell(ColumnType::real, std::nan(""), 1).empty());
    CHECK(cell(ColumnType::real, std::numeric_limits<double>::infinity(), 1).empty());
    CHECK(cell(ColumnType::integer, std::int64_t{-7}) == "-7");
    CHECK(cell(ColumnType::yes_no, true) == "yes");
    CHECK(cell(ColumnType::yes_no, false) == "no");
    CHECK(cell(ColumnType::yes_no, Value{}).empty());
}

TEST_CASE("a value that a row leaves unset is empty, not the value of the row before") {
    FeatureTable table = one_column(ColumnType::integer, 0, {std::int64_t{1}, Value{}});
    table.fill = [](std::size_t i, Row& row) {
        if (i == 0) {
            row.values[0] = std::int64_t{1};
        }
    };
    CHECK(text_of(table) == "\xEF\xBB\xBFthing\r\n1\r\n\r\n");
}

TEST_CASE("CSV does not depend on the program's locale") {
    struct Comma : std::numpunct<char> {
        char do_decimal_point() const override { return ','; }
    };
    const std::locale before = std::locale::global(std::locale(std::locale(), new Comma));
    const std::string text = cell(ColumnType::real, 1.5, 1);
    std::locale::global(before);
    CHECK(text == "1.5");
}

TEST_CASE("a CSV file takes the old one's place whole, and a stopped one leaves the old one") {
    const support::TemporaryFolder folder;
    const auto file = folder / "things.csv";
    support::put(file, "old");
    const FeatureTable table = one_column(ColumnType::integer, 0, {std::int64_t{5}});

    std::stop_source stop;
    stop.request_stop();
    CHECK_FALSE(write_csv(file, table, Work{stop.get_token(), 1, {}}));
    CHECK(support::bytes_of(file) == "old");

    CHECK(write_csv(file, table, Work{}));
    CHECK(support::bytes_of(file) == "\xEF\xBB\xBFthing\r\n5\r\n");
    CHECK(std::distance(std::filesystem::directory_iterator(folder.path()), {}) == 1);
}

TEST_CASE("a CSV file into a folder that does not exist is an error with the path") {
    const support::TemporaryFolder folder;
    const FeatureTable table = one_column(ColumnType::integer, 0, {});
    CHECK_THROWS_WITH(write_csv(folder / "none/things.csv", table, Work{}),
                      Catch::Contains("none/things.csv: cannot write it: No such file"));
}
