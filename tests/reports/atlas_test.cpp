// The wall sheet and the atlas: squares and pages that leave nothing out, and what stands on paper.
#include "reports/atlas/atlas.h"

#include <algorithm>
#include <random>

#include <catch2/catch.hpp>

#include "reports/atlas/map_grid.h"
#include "reports/atlas/map_legend.h"
#include "reports/atlas/page_tiles.h"
#include "reports/atlas/road_index.h"
#include "reports/cautions.h"
#include "tests/reports/cards_found.h"
#include "tests/support/draws.h"
#include "tests/support/pdf_text.h"
#include "tests/support/program.h"

using namespace farwater;
using namespace farwater::reports;
using namespace farwater::reports::test;
using farwater::support::contains;

namespace {

bool holds(const Box& box, Point point) {
    constexpr double a_hair = 1e-6;
    return point.x >= box.low.x - a_hair && point.x <= box.high.x + a_hair &&
           point.y >= box.low.y - a_hair && point.y <= box.high.y + a_hair;
}

std::string wall_sheet_of(const CardBook& book) {
    std::string pdf;
    REQUIRE(write_wall_sheet(book, [&](std::string_view bytes) { pdf += bytes; }));
    return pdf;
}

std::string atlas_of(const CardBook& book) {
    std::string pdf;
    REQUIRE(write_atlas(book, Work(), [&](std::string_view bytes) { pdf += bytes; }));
    return pdf;
}

}  // namespace

TEST_CASE("squares are lettered from the west and numbered from the north") {
    const double mile = metres_per_mile;
    const MapGrid grid = MapGrid::over({{0.0, 0.0}, {7.5 * mile, 6.0 * mile}});
    CHECK(grid.side() == mile);
    CHECK(grid.columns() == 8);
    CHECK(grid.rows() == 6);
    CHECK(grid.square_of({0.1 * mile, 5.9 * mile}) == "A1");
    CHECK(grid.square_of({7.4 * mile, 0.1 * mile}) == "H6");
    CHECK(grid.square_of({1e9, -1e9}) == "H6");  // outside: the nearest
    CHECK(MapGrid::over({}).square_of({0.0, 0.0}) == "A1");
    for (const double size : {1.0, 900.0, 40000.0, 900000.0}) {
        const MapGrid any = MapGrid::over({{0.0, 0.0}, {size, size / 3.0}});
        CHECK(any.columns() * any.side() >= size);
        CHECK(any.columns() <= 8);
        CHECK(any.rows() <= 9);
    }
}

TEST_CASE("the road index knows every square that a long straight road crosses") {
    District district;
    const double mile = metres_per_mile;
    district.roads.push_back({.line = {{0.0, 0.0}, {8.0 * mile, 0.0}}, .name = "Long Road"});
    district.roads.push_back(
        {.line = {{0.0, 4.0 * mile}, {10.0, 4.0 * mile}}, .name = "long road"});
    district.roads.push_back({.line = {{0.0, 0.0}, {1.0, 1.0}}, .name = ""});
    const MapGrid grid = MapGrid::over({{0.0, 0.0}, {8.0 * mile, 4.0 * mile}});
    const auto index = road_index(district, grid);
    REQUIRE(index.size() == 1);
    CHECK(index[0].name == "Long Road");
    CHECK(index[0].squares ==
          std::vector<std::string>{"A1", "A4", "B4", "C4", "D4", "E4", "F4", "G4", "H4"});
}

TEST_CASE("every place lies on a page of the atlas, and pages stay few", "[property]") {
    std::mt19937 random(20261129);
    for (int round = 0; round < farwater::test::draws(60); ++round) {
        CardsFound found;
        std::uniform_real_distribution<double> side(10.0, round % 2 == 0 ? 3000.0 : 300000.0);
        const double across = side(random);
        std::uniform_real_distribution<double> any(0.0, across);
        for (int i = 0; i < 20; ++i) {
            const Point from{any(random), any(random)};
            found.district.roads.push_back({.line = {from, {any(random), from.y}}, .name = "R"});
        }
        const Findings findings = found.findings();
        const PageTiles tiles = page_tiles(found.book(findings), 15.75, 9.5, most_atlas_pages);
        CAPTURE(round, across, tiles.feet_per_inch);
        CHECK(tiles.pages() <= most_atlas_pages);
        for (const Road& road : found.district.roads) {
            for (const double share : {0.0, 0.3, 1.0}) {
                const Point place{road.line[0].x + (road.line[1].x - road.line[0].x) * share,
                                  road.line[0].y};
                std::vector<int> pages;
                tiles.pages_at(place, pages);
                CHECK_FALSE(pages.empty());
                std::vector<int> seen;
                for (int row = 0; row < tiles.rows; ++row) {
                    for (int column = 0; column < tiles.columns; ++column) {
                        if (tiles.number(column, row) && holds(tiles.ground(column, row), place)) {
                            seen.push_back(*tiles.number(column, row));
                        }
                    }
                }
                CHECK(std::ranges::includes(pages, seen));
            }
        }
    }
}

TEST_CASE("wall sheet and atlas say what they show, and where it comes from") {
    CardsFound found;
    found.district.data_date = Date{std::chrono::year{2026} / 5 / 31};
    found.district.roads.push_back({.line = {{0, 300}, {4000, 300}}, .name = "Quarry Road"});
    found.district.sources.push_back({.id = "W77", .place = {200, 200}});
    found.water.counts.push_back(true);
    found.district.stations.push_back({.id = "S1", .name = "Gully station", .place = {300, 100}});
    const Findings findings = found.findings();
    const CardBook book = found.book(findings);
    for (const std::string& pdf : {wall_sheet_of(book), atlas_of(book)}) {
        const std::string text = support::text_of_pdf(pdf, support::PdfOrder::as_written);
        for (const char* words :
             {"Quarry Road", "W77", "Gully station", "Data of 2026-05-31", "farwater 0",
              "District file sha256 0123456789ab", "not for the public",
              "1 in =", "meets planned flow: 1", "short of it: 1", "A1"}) {
            CAPTURE(words);
            CHECK(contains(text, words));
        }
        CHECK(contains(text, std::string(cautions[3].substr(0, 30))));
    }
    CHECK(contains(support::text_of_pdf(atlas_of(book)), "page 1"));
    CHECK(wall_sheet_of(book) == wall_sheet_of(book));
    CHECK(atlas_of(book) == atlas_of(book));
}

TEST_CASE("a road index that is longer than the wall sheet's panel goes on, and loses no road") {
    CardsFound found;
    for (int i = 0; i < 900; ++i) {
        found.district.roads.push_back(
            {.line = {{0.0, i * 1.0}, {900.0, i * 1.0}}, .name = "Road" + std::to_string(i) + "x"});
    }
    const Findings findings = found.findings();
    const std::string text =
        support::text_of_pdf(wall_sheet_of(found.book(findings)), support::PdfOrder::as_written);
    CHECK(std::ranges::count(text, '\f') > 1);
    for (int i = 0; i < 900; ++i) {
        CAPTURE(i);
        CHECK(contains(text, "Road" + std::to_string(i) + "x"));
    }
}
