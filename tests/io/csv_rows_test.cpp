#include "io/records/csv_rows.h"

#include <catch2/catch.hpp>

#include "tests/support/temporary_folder.h"

using namespace farwater;
using namespace farwater::io;

namespace {

std::optional<CsvRows> rows_of_text(const std::string& text, std::size_t columns) {
    const support::TemporaryFolder folder;
    support::put(folder / "t.csv", text);
    return look_at_csv(folder / "t.csv", columns);
}

// The numbers of the rows that are too long, with their cells.
std::string too_long(const std::string& text, std::size_t columns) {
    const std::optional<CsvRows> rows = rows_of_text(text, columns);
    std::string list = rows ? "" : "unknown";
    for (const CsvRow& row : rows ? rows->too_long : std::vector<CsvRow>{}) {
        list += std::to_string(row.number) + ":" + std::to_string(row.cells) + " ";
    }
    return list;
}

}  // namespace

TEST_CASE("rows with a value behind the last column are too long") {
    CHECK(too_long("a,b\n1,2\n1,500,3\n4,5\n6,,7", 2) == "2:3 4:3 ");
    CHECK(too_long("a;b\n1;2\n1;5;3\n", 2) == "2:3 ");
    CHECK(too_long("\xEF\xBB\xBF\"a\",b\r\n1,\"1,500\"\r\n\r\n2,1,500\r\n", 2) == "2:3 ");
    CHECK(too_long("a\tb\n1\t2,3\n", 2).empty());
    CHECK(too_long("a,b\n1,2,,\n1,2, ,\r\n1\n", 2).empty());
    CHECK(too_long("a,b\n1,\"2\n3,4\",\n5,6,7\n", 2) == "2:3 ");
    CHECK(too_long("a,b\n1,2\n", 3) == "unknown");
    CHECK(too_long("", 1) == "unknown");
}

TEST_CASE("quote marks that swallow rows are found, and those that do not are let be") {
    CHECK(rows_of_text("a,b\n1,2\n3,6\" main\n4,8\" main\n", 2)->swallows == 2);
    CHECK(rows_of_text("a,b\n1,\"never\n3,4\n", 2)->swallows == 1);
    CHECK_FALSE(rows_of_text("a,b\n1,\"two\nlines\"\n3,\"6\"\" main\"\n", 2)->swallows);
    CHECK_FALSE(rows_of_text("a,b\n1,2\" and 3\" hose\n", 2)->swallows);
    CHECK(rows_of_text("\"a\nb\",c\n1,2\n", 1)->head_breaks);
}
