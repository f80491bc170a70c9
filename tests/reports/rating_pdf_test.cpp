// The rating's documents on paper say what the HTML says, on every page with its head and foot.
#include <algorithm>

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include "reports/print/blocks_paper.h"
#include "reports/print/paper_table.h"
#include "reports/rating/rating_documents.h"
#include "tests/reports/rated_found.h"
#include "tests/support/pdf_text.h"

using namespace farwater;
using namespace farwater::reports;
using namespace farwater::reports::test;

namespace {

std::string pdf_of(const Findings& findings, const std::vector<RatingSheet>& sheets) {
    std::string pdf;
    REQUIRE(write_rating_pdf(findings, record_of_rated(), sheets,
                             [&](std::string_view bytes) { pdf += bytes; }));
    return pdf;
}

std::vector<std::string> pages_in(const std::string& text) {
    std::vector<std::string> pages;
    std::size_t begin = 0;
    for (std::size_t at = text.find('\f'); at != std::string::npos; at = text.find('\f', begin)) {
        pages.push_back(text.substr(begin, at - begin));
        begin = at + 1;
    }
    return pages;
}

PageCanvas unseen_canvas() {
    return PageCanvas::pdf(
        {},
        {.title = "t", .author = {}, .subject = {}, .creator = {}, .date = "2026-05-31T00:00:00Z"},
        [](std::string_view) {});
}

PaperPiece piece(double height, bool stays = false) {
    return {.height = height, .stays_with_next = stays, .draw = {}, .repeats = {}};
}

}  // namespace

TEST_CASE("the PDF holds every text of the HTML, and each page its caution, origin and number") {
    RatedFound found;
    found.district.data_date = Date{std::chrono::year{2026} / 5 / 31};
    const Findings findings = found.rated();
    const auto sheets = rating_sheets(findings, record_of_rated());
    const std::string pdf = pdf_of(findings, sheets);
    const std::string paper = support::text_of_pdf(pdf, support::PdfOrder::as_written);
    for (const RatingDocument& document : rating_documents(findings, record_of_rated(), sheets)) {
        CAPTURE(document.file);
        const std::size_t main = document.html.find("<main>");
        CHECK(support::missing_on_paper(document.html.substr(main), paper) ==
              std::vector<std::string>{});
    }
    const auto pages = pages_in(paper);
    REQUIRE(pages.size() > 7);
    for (std::size_t i = 0; i < pages.size(); ++i) {
        CAPTURE(i, pages[i]);
        CHECK(pages[i].find("prove them by a timed drill") != std::string::npos);
        CHECK(pages[i].find("Data of 2026-05-31") != std::string::npos);
        CHECK(pages[i].find("farwater 9.9.9") != std::string::npos);
        CHECK(pages[i].find(std::string(16, 'a')) != std::string::npos);
        CHECK(pages[i].find("page " + std::to_string(i + 1) + " of " +
                            std::to_string(pages.size())) != std::string::npos);
    }
    CHECK(pdf == pdf_of(findings, sheets));
}

// Whether smaller letters spare the last page or not.
TEST_CASE("a sheet of any length is in the PDF from its first line to its last") {
    const RatedFound found;
    const Findings findings = found.rated();
    std::vector<RatingSheet> sheets;
    std::size_t lines = 0;
    for (int length = 30; length < 90; ++length) {
        SheetBlocks blocks;
        for (int line = 1; line <= length; ++line) {
            blocks.paragraph(fmt::format("begin-{}-{}-end", length, line));
            ++lines;
        }
        sheets.push_back({"a.html", "Any length", std::move(blocks)});
    }
    const std::string paper =
        support::text_of_pdf(pdf_of(findings, sheets), support::PdfOrder::as_written);
    std::size_t seen = 0;
    for (std::size_t at = paper.find("-end"); at != std::string::npos;
         at = paper.find("-end", at + 1)) {
        ++seen;
    }
    CHECK(seen == lines);
}

TEST_CASE("each page of the PDF tells sources that are not there") {
    RatedFound found;
    found.district.what_if_sources = 1;
    found.rating.sources[1].lacks.clear();
    const Findings findings = found.rated();
    const std::string pdf = pdf_of(findings, rating_sheets(findings, record_of_rated()));
    for (const std::string& page :
         pages_in(support::text_of_pdf(pdf, support::PdfOrder::as_written))) {
        CHECK(page.find("not the district as it is. Not to be signed.") != std::string::npos);
    }
}

TEST_CASE(
    "a table that goes on has its head again, and a heading is not parted from what follows") {
    const PageCanvas canvas = unseen_canvas();
    SheetTable table{.headers = {"Name", "#Number"}, .rows = {}};
    for (int i = 0; i < 100; ++i) {
        table.rows.push_back({"row", std::to_string(i)});
    }
    std::vector<PaperPiece> pieces = table_pieces(canvas, table, 8.0, 500.0);
    const auto pages = pages_of(pieces, 400.0);
    REQUIRE(pages.size() > 1);
    std::size_t rows = 0;
    for (const PaperPage& page : pages) {
        double height = 0.0;
        for (const PaperPiece& each : page) {
            height += each.height;
            rows += each.repeats ? 1U : 0U;
        }
        CHECK(height <= 400.0);
        CHECK(page.front().stays_with_next);
    }
    CHECK(rows == 100);

    pieces = {piece(90.0), piece(8.0, true), piece(20.0)};
    const auto two = pages_of(pieces, 100.0);
    REQUIRE(two.size() == 2);
    CHECK(two[0].size() == 1);
    CHECK(two[1].size() == 2);
    pieces[2].begins_page = true;
    CHECK(pages_of(pieces, 1000.0).size() == 2);
}

TEST_CASE(
    "no heading stands at the foot of a page, whatever follows it, and short tables are whole") {
    const PageCanvas canvas = unseen_canvas();
    SheetBlocks blocks;
    const SheetBlocks::Cells head{"Name", "Other"};
    Drawing drawing;
    drawing.width = drawing.height = 100.0;
    blocks.heading("Table").paragraph("said before").table(head, {{"a", "b"}, {"c", "d"}});
    blocks.heading("Facts").paragraph("said before").facts({{"a", "b"}, {"c", "d"}});
    blocks.heading("To fill in").paragraph("said before").blank_table(head, 3);
    blocks.heading("Drawing").paragraph("said before").drawing(drawing);
    blocks.heading("List").list({"one", "two"}).heading("Lines").lines_to_fill({"a", "b", "c"});
    blocks.heading("Words").paragraph("said").heading("Signed").signatures({"Chief"});
    const std::vector<PaperPiece> pieces = pieces_of(canvas, blocks, 150.0);
    constexpr double gap = 4.0;
    for (double height = 230.0; height < 600.0; height += 3.0) {
        CAPTURE(height);
        for (const PaperPage& page : pages_of(pieces, height)) {
            CHECK_FALSE(page.back().stays_with_next);
            const auto last =
                std::ranges::find_if(page.rbegin(), page.rend(),
                                     [](const PaperPiece& each) { return each.height > gap; });
            REQUIRE(last != page.rend());
            CHECK(last->entry.empty());
            CHECK_FALSE(page.front().repeats);  // no table goes on here
        }
    }
}

TEST_CASE("no page has signatures only, or with a note or a row, whatever stands before them") {
    const PageCanvas canvas = unseen_canvas();
    std::vector<SheetBlocks::Cells> rows(30, {"a", "b"});
    SheetBlocks after_rows;
    after_rows.heading("Signed").table({"Name", "Other"}, rows).signatures({"A", "B", "C", "D"});
    SheetBlocks after_note;
    after_note.heading("Signed").blank_table({"Name", "Other"}, 20).note("said").signatures({"A"});
    SheetBlocks after_blanks;
    after_blanks.heading("Signed").blank_table({"Name", "Other"}, 20).signatures({"A", "B"});
    for (const SheetBlocks* blocks : {&after_rows, &after_note, &after_blanks}) {
        const std::vector<PaperPiece> pieces = pieces_of(canvas, *blocks, 300.0);
        const double of_one = pieces.back().height;
        const std::size_t lines = blocks == &after_rows ? 2 : 1;
        for (double height = 200.0; height < 700.0; height += 3.0) {
            const std::vector<PaperPage> pages = pages_of(pieces, height);
            double last = 0.0;
            for (const PaperPiece& each : pages.back()) {
                last += each.height;
            }
            CAPTURE(height, pages.size());
            CHECK(last > of_one * static_cast<double>(lines) + 50.0);
        }
    }
}

TEST_CASE("a cell that is longer than a page goes on in a row below, and no word of it is lost") {
    std::string words;
    for (int i = 0; i < 1000; ++i) {
        words += "word" + std::to_string(i) + " ";
    }
    SheetBlocks blocks;
    blocks.heading("H").table({"Short", "_By hand", "Long"}, {{"a", "", words}}).note(words);
    const RatedFound found;
    const std::vector<RatingSheet> sheets{{"one.html", "One", blocks}};
    const std::string paper =
        support::text_of_pdf(pdf_of(found.rated(), sheets), support::PdfOrder::as_written);
    for (int i = 0; i < 1000; ++i) {
        const std::string word = "word" + std::to_string(i);
        std::size_t often = 0;
        for (std::size_t at = paper.find(word); at != std::string::npos;
             at = paper.find(word, at + word.size())) {
            const char after = paper[at + word.size()];
            often += after < '0' || after > '9' ? 1U : 0U;
        }
        CAPTURE(word);
        CHECK(often == 2);
    }
}
