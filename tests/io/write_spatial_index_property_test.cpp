// The index from the leaves up against a plain scan, for every number of boxes where the tree grows
// a level and for boxes that lie badly.
#include <random>
#include <sstream>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "io/geopackage/spatial_index.h"
#include "tests/io/geopackage_tables.h"
#include "tests/support/temporary_folder.h"

namespace {

using namespace farwater;
using namespace farwater::io;
using namespace farwater::io::test;

enum class Lie { scattered, one_place, on_a_line, huge_and_tiny, negative };

std::vector<IndexBox> boxes_of(Lie lie, std::size_t count, std::mt19937& random) {
    std::uniform_real_distribution<double> place(0.0, 1000.0);
    std::vector<IndexBox> boxes;
    std::int64_t fid = 0;
    for (std::size_t i = 0; i < count; ++i) {
        fid += 1 + static_cast<std::int64_t>(random() % 3);
        double x = place(random);
        double y = place(random);
        double size = place(random) / 50.0;
        if (lie == Lie::one_place) {
            x = y = 5.0;
            size = 0.0;
        } else if (lie == Lie::on_a_line) {
            y = 7.0;
        } else if (lie == Lie::huge_and_tiny) {
            size = i % 10 == 0 ? 1000.0 : 0.0;
        } else if (lie == Lie::negative) {
            x = -x - 4e6;
            y = -y;
        }
        boxes.push_back(index_box(fid, x, x + size, y, y + size));
    }
    return boxes;
}

// To the last bit: a window's side may be that of a box.
std::string to_the_bit(double side) {
    std::ostringstream text;
    text.precision(17);
    text << side;
    return text.str();
}

std::string found(const SqliteFile& file, const IndexBox& window) {
    SqliteStatement statement = file.prepare(
        "SELECT id FROM rtree_p_geom WHERE maxx >= " + to_the_bit(window.min_x) +
        " AND minx <= " + to_the_bit(window.max_x) + " AND maxy >= " + to_the_bit(window.min_y) +
        " AND miny <= " + to_the_bit(window.max_y) + " ORDER BY id");
    std::string fids;
    while (statement.step()) {
        fids += statement.text(0) + " ";
    }
    return fids;
}

std::string found_by_scan(const std::vector<IndexBox>& boxes, const IndexBox& window) {
    std::string fids;
    for (const IndexBox& box : boxes) {
        if (box.max_x >= window.min_x && box.min_x <= window.max_x && box.max_y >= window.min_y &&
            box.min_y <= window.max_y) {
            fids += std::to_string(box.fid) + " ";
        }
    }
    return fids;
}

}  // namespace

TEST_CASE("an index from the leaves up finds what a scan finds, for any number and lie of boxes") {
    // 51 boxes a node at SQLite's usual page size: one leaf, two, a full second level, a third.
    const std::size_t count = GENERATE(0U, 1U, 2U, 51U, 52U, 102U, 103U, 2601U, 2602U, 6000U);
    const Lie lie =
        GENERATE(Lie::scattered, Lie::one_place, Lie::on_a_line, Lie::huge_and_tiny, Lie::negative);
    const unsigned seed = std::random_device()();
    CAPTURE(count, static_cast<int>(lie), seed);
    std::mt19937 random(seed);

    const support::TemporaryFolder folder;
    const auto path = folder / "a.gpkg";
    REQUIRE(write_file(path, {points("p", 0)}));
    const std::vector<IndexBox> boxes = boxes_of(lie, count, random);
    SqliteFile file(path);
    file.run("PRAGMA synchronous = OFF");
    REQUIRE(fill_spatial_index(file, "p", boxes));
    CHECK(file.text("SELECT rtreecheck('rtree_p_geom')") == "ok");
    CHECK(file.integer("SELECT count(*) FROM rtree_p_geom") == static_cast<std::int64_t>(count));

    const std::vector<IndexBox> windows = boxes_of(lie, 20, random);
    for (const IndexBox& window : windows) {
        CHECK(found(file, window) == found_by_scan(boxes, window));
    }
    // SQLite's own insertion and deletion work on the tree.
    file.run("BEGIN");
    for (int i = 0; i < 100; ++i) {
        file.run("INSERT INTO rtree_p_geom VALUES(" + std::to_string(1'000'000 + i) +
                 ", 1, 2, 1, 2)");
    }
    for (std::size_t i = 0; i < boxes.size(); i += 2) {
        file.run("DELETE FROM rtree_p_geom WHERE id = " + std::to_string(boxes[i].fid));
    }
    CHECK(file.text("SELECT rtreecheck('rtree_p_geom')") == "ok");
    file.run("ROLLBACK");
}
