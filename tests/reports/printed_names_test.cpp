// Names as print shows them: cut where they would widen a table, whole in the data.
#include <catch2/catch.hpp>

#include "reports/print/sheet_blocks.h"
#include "reports/text/plain_text.h"
#include "tests/support/program.h"

using namespace farwater::reports;
using farwater::support::contains;

TEST_CASE("a name of more than ninety letters is cut with a sign") {
    const std::string ninety(90, 'x');
    CHECK(name_words(ninety) == ninety);
    CHECK(name_words(ninety + "y") == ninety + "...");
    CHECK(padded(ninety + "yyyyyyy", 95) == ninety + "...  ");
    // Letters, not bytes.
    std::string letters;
    for (int i = 0; i < 91; ++i) {
        letters += "\u00fc";
    }
    CHECK(name_words(letters) == letters.substr(0, 180) + "...");
}

TEST_CASE("of a text only words that are too long are cut") {
    const std::string word(200, 'x');
    const std::string plain =
        "Every word of this sentence is short, however long it is in the end, "
        "and so it stays as it is.";
    CHECK(with_names_cut(plain) == plain);
    CHECK(with_names_cut("Pond " + word + " at the mill") ==
          "Pond " + std::string(90, 'x') + "... at the mill");
    CHECK(with_names_cut(word + "\n" + word) ==
          std::string(90, 'x') + "...\n" + std::string(90, 'x') + "...");
    CHECK(with_names_cut("").empty());
}

TEST_CASE("tables and facts of a sheet cut ids in HTML and on paper alike") {
    const std::string id(500, 'x');
    SheetBlocks sheet;
    sheet.table({"Id", "#gpm"}, {{id, "500"}}).facts({{"Source", "W1 " + id}});
    const std::string html = html_of(sheet);
    CHECK_FALSE(contains(html, std::string(91, 'x')));
    CHECK(contains(html, std::string(90, 'x') + "..."));
    // Paper draws the same blocks.
    CHECK(std::get<SheetTable>(sheet.all().front()).rows.front().front() ==
          std::string(90, 'x') + "...");
}
