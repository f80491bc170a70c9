// Run cards as values and on paper: addresses, which dump sites get one, pages that hold all of
// their text.
#include <algorithm>

#include <catch2/catch.hpp>

#include "reports/cards/address_index.h"
#include "reports/cards/card_book.h"
#include "reports/cards/draw_map.h"
#include "reports/cards/draw_sheet.h"
#include "reports/cards/index_columns.h"
#include "reports/cards/sheet_pieces.h"
#include "tests/reports/cards_found.h"
#include "tests/support/pdf_text.h"
#include "tests/support/program.h"

using namespace farwater;
using namespace farwater::reports;
using namespace farwater::reports::test;
using farwater::support::contains;
using farwater::support::text_of_pdf;

namespace {

std::string one_sheet(const PrintedSheet& sheet, int& pages) {
    std::string pdf;
    PageCanvas canvas = PageCanvas::pdf(
        {},
        {.title = "t", .author = {}, .subject = {}, .creator = {}, .date = "2026-05-31T00:00:00Z"},
        [&](std::string_view bytes) { pdf += bytes; });
    pages = draw_sheet(canvas, sheet, [&] { canvas.end_page(); });
    REQUIRE(canvas.finish());
    return pdf;
}

std::size_t how_often(const std::string& text, const std::string& part) {
    std::size_t count = 0;
    for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) {
        ++count;
    }
    return count;
}

}  // namespace

TEST_CASE("an address is a number and a road") {
    struct Case {
        const char *text, *number, *road;
    };
    const auto one = GENERATE(values<Case>({
        {"12 Mill Road", "12", "Mill Road"},
        {" 12A  Mill Road ", "12A", "Mill Road"},
        {"12 1/2 Mill Road", "12 1/2", "Mill Road"},
        {"12-14 Mill Road", "12-14", "Mill Road"},
        {"Mill Road", "", "Mill Road"},
        {"1st Street", "", "1st Street"},
        {"12 1st Street", "12", "1st Street"},
        {"12, Mill Road", "12", "Mill Road"},
        {"626", "626", ""},
        {"", "", ""},
        {" , ", "", ""},
        {"99999999999999999999 Far Road", "99999999999999999999", "Far Road"},
    }));
    CAPTURE(one.text);
    const HouseAddress address = house_address(one.text);
    CHECK(address.number == one.number);
    CHECK(address.road == one.road);
}

TEST_CASE("a card for each dump site in use, by its worst place") {
    CardsFound found;
    REQUIRE(found.sites.size() == 1);
    CHECK(found.sites[0].dump_site == DumpSiteIndex(1));
    CHECK(found.sites[0].rows == std::vector<std::uint32_t>{0, 1});
    CHECK(found.sites[0].worst == 1);

    found.assessment.supplies[3].dump_site = DumpSiteIndex(0);
    CHECK(card_sites(found.findings()).size() == 2);
    // Of more than may be printed those that serve most, and the book counts the rest.
    found.sites = card_sites(found.findings(), 1);
    REQUIRE(found.sites.size() == 1);
    CHECK(found.sites[0].dump_site == DumpSiteIndex(1));
    const Findings findings = found.findings();
    CHECK(sites_left_out(found.book(findings)) == 1);
    CHECK(contains(words_before_index(found.book(findings)).back(), "1 dump site that serve"));
}

TEST_CASE("of too many sources those that fill for most places have a page") {
    CardsFound found;
    for (std::size_t i = 0; i < 4; ++i) {
        found.district.sources.push_back(
            {.id = "W" + std::to_string(i), .kind = SourceKind::dry_hydrant});
        found.water.counted.push_back({.source = SourceIndex(i)});
    }
    found.assessment.supplies[0].fill_source = SourceIndex(3);
    found.assessment.supplies[1].fill_source = SourceIndex(3);
    found.assessment.supplies[1].further_fills[0].source = SourceIndex(1);
    const Findings findings = found.findings();
    const CardBook book = found.book(findings);
    CHECK(sources_with_page(book).size() == 4);
    const auto two = sources_with_page(book, 2);
    REQUIRE(two.size() == 2);
    CHECK(two[0]->source == SourceIndex(1));
    CHECK(two[1]->source == SourceIndex(3));
    // A hydrant that fills for no place has none, and the book says so.
    found.district.sources[0].kind = SourceKind::hydrant;
    found.district.sources[1].kind = SourceKind::hydrant;
    const auto three = sources_with_page(book);
    REQUIRE(three.size() == 3);
    CHECK(three[0]->source == SourceIndex(1));
    CHECK(contains(words_before_index(book).back(),
                   "1 source without a page: hydrants that fill for no"));
}

TEST_CASE("the index has every improved parcel once, roads by name, numbers in order") {
    const CardsFound found;
    const Findings findings = found.findings();
    const auto roads = address_index(found.book(findings));
    REQUIRE(roads.size() == 2);  // one in the hostile name; "Mill" and "mill" are one
    const auto mill = std::ranges::find_if(roads, [](const IndexRoad& road) {
        return contains(road.name, "Mill Road") || contains(road.name, "mill road");
    });
    REQUIRE(mill != roads.end());
    REQUIRE(mill->entries.size() == 1);
    CHECK(mill->entries[0].houses == std::vector<std::string>{"8", "12"});
    CHECK(mill->entries[0].card == std::uint32_t{0});
    std::size_t houses = 0;
    for (const IndexRoad& road : roads) {
        for (const IndexEntry& entry : road.entries) {
            houses += entry.houses.size();
            CHECK(entry.card.has_value() == entry.instead.empty());
        }
    }
    CHECK(houses == 3);
}

TEST_CASE("hostile names leave neither the pages nor the HTML") {
    const CardsFound found;
    const Findings findings = found.findings();
    const CardBook book = found.book(findings);
    const Work work;
    std::string pdf;
    REQUIRE(write_cards_pdf(book, work, [&](std::string_view bytes) { pdf += bytes; }));
    const std::string text = text_of_pdf(pdf);
    CHECK(contains(text, "RUN CARD"));
    CHECK(contains(text, "<b>\"Mill\" &"));
    CHECK(contains(text, "endobj"));
    CHECK(contains(text, "400"));   // cautious, as planned
    CHECK(contains(text, "1000"));  // needed
    std::string html;
    write_cards_html(book, work, [&](std::string_view bytes) { html += bytes; });
    CHECK_FALSE(contains(html, "<b>\"Mill\""));
    CHECK(contains(html, "&lt;b&gt;"));
    CHECK(contains(html, "href=\"#card-1\""));
    CHECK(contains(html, "id=\"card-1\""));
    std::string again;
    write_cards_pdf(book, work, [&](std::string_view bytes) { again += bytes; });
    CHECK(pdf == again);
}

TEST_CASE("a sheet that is too long goes on, and no word of it is lost") {
    PrintedSheet sheet{.anchor = "card-1",
                       .badge = "W123456789012345678901234567890",
                       .kind = "K",
                       .title = std::string(300, 'T'),
                       .outline = "o",
                       .lines = {},
                       .numbers = {},
                       .maps = {},
                       .parts = {}};
    SheetPart left{.heading = "LEFT", .column = SheetColumn::left, .items = {}};
    SheetPart right{.heading = "RIGHT", .column = SheetColumn::right, .items = {}};
    SheetPart foot{.heading = "FOOT", .column = SheetColumn::foot, .items = {}};
    std::string long_text;
    for (int i = 0; i < 1500; ++i) {
        long_text += "word" + std::to_string(i) + " ";
    }
    SheetTable table{.headers = {"Name", "#Number"}, .rows = {}};
    for (int i = 0; i < 150; ++i) {
        table.rows.push_back({"row" + std::to_string(i) + "end" +
                                  std::string(static_cast<std::size_t>(i % 7 * 20), 'x'),
                              std::to_string(i)});
    }
    left.items = {SheetText{long_text}};
    right.items = {table, LinesToFill{{"write here"}}};
    foot.items = {SheetText{"lastwords"}};
    sheet.parts = {left, right, foot};
    int pages = 0;
    const std::string text = text_of_pdf(one_sheet(sheet, pages));
    CHECK(pages > 1);
    CHECK(how_often(text, "\f") == static_cast<std::size_t>(pages));
    CHECK(how_often(text, "continued") == static_cast<std::size_t>(pages - 1));
    for (int i = 0; i < 1500; ++i) {
        const std::string word = "word" + std::to_string(i);
        CAPTURE(word);
        const bool there = contains(text, word + " ") || contains(text, word + "\n");
        REQUIRE(there);
    }
    for (int i = 0; i < 150; ++i) {
        CAPTURE(i);
        REQUIRE(contains(text, "row" + std::to_string(i) + "end"));
    }
    CHECK(contains(text, "write here"));
    CHECK(contains(text, "lastwords"));
}

TEST_CASE("pieces of a sheet keep to their column and their height") {
    PageCanvas canvas = PageCanvas::pdf({}, {}, [](std::string_view) {});
    const std::string word(90, 'W');  // as long as names are let be
    const SheetPart part{.heading = "H " + word,
                         .column = SheetColumn::left,
                         .items = {SheetText{word}, LinesToFill{{word, "b"}},
                                   SheetTable{{"a", "#b"}, {{word, "1"}, {"x", word}}}}};
    for (const double width : {274.0, 560.0}) {
        const auto pieces = pieces_of(canvas, part, 8.0, width);
        for (const PaperPiece& piece : pieces) {
            CHECK(piece.height > 0.0);
            CHECK(piece.height < printed_area.height);
        }
        CHECK(canvas.extent(word, {.size = 8.0}, width).width <= width);
    }
}

TEST_CASE("a map is a grey picture, and nothing to draw is no mistake") {
    SiteMap map{.title = "t", .box = {}, .lines = {}, .marks = {}};
    map.box.include({0, 0});
    map.box = box_on_paper(map.box, 500.0);
    CHECK(map.box.high.x - map.box.low.x >= 500.0);
    const std::string empty = map_picture(map);
    CHECK(empty.starts_with("\x89PNG"));
    map.lines = {{MapLine::loaded, {{-100, 0}, {100, 0}}, ""},
                 {MapLine::empty, {{100, 0}, {100, 0}, {-100, 0}}, ""},
                 {MapLine::road, {{0, 0}}, "x"},
                 {MapLine::main_road, {}, "y"}};
    map.marks = {{MapMark::dump_site, {0, 0}, ""}, {MapMark::house, {1e9, 1e9}, "far"}};
    const std::string drawn = map_picture(map);
    CHECK(drawn.starts_with("\x89PNG"));
    CHECK(drawn != empty);
    CHECK(drawn == map_picture(map));
}
