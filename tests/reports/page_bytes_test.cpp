// How the page's data are packed: numbers, texts, shapes.
#include <random>

#include <catch2/catch.hpp>

#include "reports/page/packed_bytes.h"
#include "reports/page/packed_table.h"
#include "reports/page/page_shapes.h"
#include "reports/text/plain_text.h"

using namespace farwater;
using namespace farwater::reports;

namespace {

// The slow honest reader of what append_* and PackedShapes write.
class Reader {
public:
    explicit Reader(std::string bytes) : bytes_(std::move(bytes)) {}
    std::uint64_t count() {
        std::uint64_t number = 0;
        for (unsigned shift = 0;; shift += 7) {
            const auto byte = static_cast<unsigned char>(bytes_.at(at_++));
            number |= static_cast<std::uint64_t>(byte & 0x7FU) << shift;
            if (byte < 0x80) {
                return number;
            }
        }
    }
    std::int64_t whole() {
        const std::uint64_t n = count();
        return n % 2 == 0 ? static_cast<std::int64_t>(n / 2)
                          : -static_cast<std::int64_t>(n / 2) - 1;
    }
    std::string text() {
        const std::size_t length = count();
        at_ += length;
        return bytes_.substr(at_ - length, length);
    }
    bool at_end() const { return at_ == bytes_.size(); }

private:
    std::string bytes_;
    std::size_t at_ = 0;
};

using Rows = std::vector<std::vector<Polyline>>;

Rows read_shapes(const PackedShapes& shapes, const PageGrid& grid) {
    Reader reader(shapes.bytes());
    Rows rows(shapes.rows());
    std::int64_t east = 0;
    std::int64_t north = 0;
    for (auto& row : rows) {
        row.resize(reader.count());
        for (Polyline& part : row) {
            part.resize(reader.count());
            for (Point& p : part) {
                east += reader.whole();
                north += reader.whole();
                p = {grid.origin.x + static_cast<double>(east) * PageGrid::step_m,
                     grid.origin.y + static_cast<double>(north) * PageGrid::step_m};
            }
        }
    }
    CHECK(reader.at_end());
    return rows;
}

double distance_to_line(Point p, const Polyline& line) {
    double least = 1e300;
    for (std::size_t i = 1; i < line.size(); ++i) {
        const Point a = line[i - 1];
        const Point b = line[i];
        const double along = distance_squared(a, b);
        const double t =
            along == 0.0 ? 0.0 : ((p.x - a.x) * (b.x - a.x) + (p.y - a.y) * (b.y - a.y)) / along;
        const double inside = std::min(1.0, std::max(0.0, t));
        least = std::min(least, std::sqrt(distance_squared(
                                    p, {a.x + inside * (b.x - a.x), a.y + inside * (b.y - a.y)})));
    }
    return least;
}

}  // namespace

TEST_CASE("base64 gives the values of RFC 4648, section 10") {
    CHECK(base64("").empty());
    CHECK(base64("f") == "Zg==");
    CHECK(base64("fo") == "Zm8=");
    CHECK(base64("foo") == "Zm9v");
    CHECK(base64("foob") == "Zm9vYg==");
    CHECK(base64("fooba") == "Zm9vYmE=");
    CHECK(base64("foobar") == "Zm9vYmFy");
    CHECK(base64(std::string("\xFF\xFE\x00", 3)) == "//4A");
}

TEST_CASE("counts and signed numbers come back, in few bytes") {
    std::string bytes;
    append_count(bytes, 624485);  // the example of the DWARF standard, version 5, appendix C
    CHECK(bytes == "\xE5\x8E\x26");
    for (const std::int64_t number : {0L, -1L, 1L, 63L, -64L, 64L, 8191L, -8192L, 123456789012L,
                                      -123456789012L, INT64_MAX, INT64_MIN}) {
        std::string packed;
        append_signed(packed, number);
        CAPTURE(number);
        CHECK(Reader(packed).whole() == number);
        CHECK((packed.size() == 1) == (number >= -64 && number <= 63));
    }
}

TEST_CASE("text of any bytes becomes UTF-8 without control characters") {
    CHECK(mended("Mill Road\t7\n") == "Mill Road\t7\n");
    CHECK(mended("Höhe → 日本 \xF0\x9F\x9A\x92") == "Höhe → 日本 \xF0\x9F\x9A\x92");
    CHECK(mended(std::string("a\0b", 3)) ==
          "a\xEF\xBF\xBD"
          "b");
    CHECK(mended("\x1E\x7F\r") == "\xEF\xBF\xBD\xEF\xBF\xBD\xEF\xBF\xBD");
    CHECK(mended("\xC3") == "\xEF\xBF\xBD");
    CHECK(mended("\xED\xA0\x80") == "\xEF\xBF\xBD\xEF\xBF\xBD\xEF\xBF\xBD");  // half a pair
}

TEST_CASE("a line loses only vertices that lie within the tolerance", "[property]") {
    std::mt19937 random(20261129);
    std::normal_distribution<double> wobble(0.0, 1.0);
    for (int round = 0; round < 50; ++round) {
        Polyline line{{0, 0}};
        for (int i = 0; i < 60; ++i) {
            line.push_back({line.back().x + 2.0 + wobble(random), line.back().y + wobble(random)});
        }
        const Polyline less = simplified(line, 0.75);
        CHECK(less.front() == line.front());
        CHECK(less.back() == line.back());
        CHECK(less.size() < line.size());
        for (const Point p : line) {
            CHECK(distance_to_line(p, less) <= 0.75 + 1e-9);
        }
    }
    CHECK(simplified({{0, 0}, {5, 0.1}, {10, 0}}, 0.75).size() == 2);
    CHECK(simplified({{0, 0}, {5, 3}, {10, 0}}, 0.75).size() == 3);
    CHECK(simplified({{1, 1}, {1, 1}, {1, 1}}, 0.75).size() == 2);
    CHECK(simplified({}, 0.75).empty());
}

TEST_CASE("areas come back to half a step, holes and parts kept, slivers left out") {
    const PageGrid grid = PageGrid::at({{700000.3, 4700000.9}, {700900.0, 4700900.0}});
    CHECK(grid.origin == Point{700000.0, 4700000.5});
    PackedShapes shapes(grid);
    const Polyline shell{{700100.2, 4700100}, {700200, 4700100}, {700200, 4700200},
                         {700150, 4700200.2}, {700100, 4700200}, {700100.2, 4700100}};
    const Polyline hole{{700120, 4700120}, {700130, 4700120}, {700130, 4700130}, {700120, 4700120}};
    const Polyline sliver{
        {700300, 4700300}, {700300.1, 4700300}, {700300, 4700300.1}, {700300, 4700300}};
    shapes.add_areas(std::vector<Polyline>{shell, hole, sliver});
    shapes.add_areas({});
    shapes.add_areas(std::vector<Polyline>{hole});
    const Rows rows = read_shapes(shapes, grid);
    REQUIRE(rows.size() == 3);
    REQUIRE(rows[0].size() == 2);
    CHECK(rows[0][0] ==
          Polyline{{700100, 4700100}, {700200, 4700100}, {700200, 4700200}, {700100, 4700200}});
    CHECK(rows[0][1] == Polyline{{700130, 4700130}, {700130, 4700120}, {700120, 4700120}});
    CHECK(rows[1].empty());
    CHECK(rows[2] ==
          std::vector<Polyline>{{{700120, 4700120}, {700130, 4700120}, {700130, 4700130}}});
}

TEST_CASE("shells run one way and holes the other, however the data have them") {
    const auto square = [](double low, double high) {
        return Polyline{{low, low}, {high, low}, {high, high}, {low, high}, {low, low}};
    };
    const auto turned = [](Polyline ring) { return Polyline(ring.rbegin(), ring.rend()); };
    const auto twice_area = [](const Polyline& ring) {
        double sum = 0.0;
        for (std::size_t i = 0; i < ring.size(); ++i) {
            const Point a = ring[i];
            const Point b = ring[(i + 1) % ring.size()];
            sum += a.x * b.y - b.x * a.y;
        }
        return sum;
    };
    // A shell, its hole, an island in the hole, a hole that touches the shell at a corner, and a
    // second part beside it.
    const std::vector<Polyline> rings{square(0, 100), square(10, 60), square(20, 50),
                                      Polyline{{100, 100}, {70, 95}, {95, 70}, {100, 100}},
                                      square(200, 300)};
    const std::vector<bool> holes{false, true, false, true, false};
    for (const bool turn : {false, true}) {
        PackedShapes shapes(PageGrid{});
        std::vector<Polyline> row;
        for (const Polyline& ring : rings) {
            row.push_back(turn ? turned(ring) : ring);
        }
        shapes.add_areas(row);
        const Rows rows = read_shapes(shapes, PageGrid{});
        REQUIRE(rows[0].size() == rings.size());
        for (std::size_t i = 0; i < rings.size(); ++i) {
            CAPTURE(turn, i);
            CHECK((twice_area(rows[0][i]) < 0.0) == holes[i]);
        }
    }
}

TEST_CASE("a point stays a point, an empty line is none") {
    PackedShapes shapes(PageGrid{});
    shapes.add_line({{10.2, -3.1}});
    shapes.add_line({});
    shapes.add_line({{0, 0}, {10, 0}});
    const Rows rows = read_shapes(shapes, PageGrid{});
    CHECK(rows[0] == std::vector<Polyline>{{{10.0, -3.0}}});
    CHECK(rows[1].empty());
    CHECK(rows[2] == std::vector<Polyline>{{{0, 0}, {10, 0}}});
}

TEST_CASE("a table's columns are packed by what they hold, none is told from zero") {
    io::FeatureTable table{.name = "things",
                           .title = "Things",
                           .description = "All of them.",
                           .columns = {{"gpm", io::ColumnType::real, "Flow.", 1},
                                       {"kind", io::ColumnType::text, "Kind.", 0},
                                       {"id", io::ColumnType::text, "Id.", 0},
                                       {"left_out", io::ColumnType::yes_no, "No.", 0}},
                           .rows = 4,
                           .fill = {}};
    static const std::vector<std::string> ids{"a", "b", "", "\x1E</script>"};
    table.fill = [](std::size_t row, io::Row& out) {
        const double flows[] = {0.0, -1.26, 1e300, 417.5};
        out.values = {row == 2 ? io::Value{} : io::Value{flows[row]},
                      std::string_view(row < 3 ? "pond" : "hydrant"), std::string_view(ids[row]),
                      true};
    };
    PackedTable packed(table.title, table.description, 4);
    packed.add(table, PageGrid{}, {"gpm", "kind", "id"});
    Reader reader(packed.bytes());
    CHECK(reader.count() == 4);
    CHECK(reader.count() == 3);
    CHECK(reader.text() == "Things");
    CHECK(reader.text() == "All of them.");
    const auto column = [&](const char* name, std::uint64_t form, std::uint64_t decimals) {
        CHECK(reader.text() == name);
        reader.text();
        CHECK(reader.count() == form);
        CHECK(reader.count() == decimals);
        return Reader(reader.text());
    };
    Reader numbers = column("gpm", 0, 1);
    CHECK(numbers.count() == 1);               // 0.0
    CHECK(numbers.count() == 1 + 2 * 13 - 1);  // -1.3
    CHECK(numbers.count() == 0);               // none
    CHECK(numbers.count() == 1 + 2 * 4175);
    Reader words = column("kind", 1, 0);
    CHECK(words.count() == 2);
    CHECK(words.text() == "pond");
    CHECK(words.text() == "hydrant");
    CHECK(words.count() == 1);
    CHECK(words.count() == 1);
    CHECK(words.count() == 1);
    CHECK(words.count() == 2);
    CHECK(reader.text() == "id");
    reader.text();
    CHECK(reader.count() == 2);
    CHECK(reader.count() == 0);
    CHECK(reader.text() ==
          "a\x1E"
          "b\x1E\x1E\xEF\xBF\xBD</script>");
    CHECK(reader.at_end());
}
