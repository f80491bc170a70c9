// What a result layer or table is made of: a schema and a row generator, never a list of rows.
// Reports describe, `io` writes.
#pragma once

#include <cstdint>
#include <functional>
#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "analyzer/district/plane.h"
#include "analyzer/geometry/polygon.h"

namespace farwater::io {

enum class ColumnType : std::uint8_t { text, integer, real, yes_no };
enum class ShapeKind : std::uint8_t { none, point, line, polygon, areas };

struct Column {
    std::string name;  // snake_case with its unit
    ColumnType type = ColumnType::text;
    std::string description;  // one sentence, with the unit spelled out
    int decimals = 1;         // of a real column, as documents and CSV print it
};

// Empty = NULL. Text is only looked at until the generator is called for the next row.
using Value = std::variant<std::monostate, std::int64_t, double, bool, std::string_view>;

struct Row {
    std::vector<Value> values;  // one per column, in their order; the writer sizes and clears it
    Polyline shape;  // point: one vertex; line: two or more; polygon: one closed ring; empty = NULL
    MultiPolygon areas = {};  // of ShapeKind::areas, written as multipolygons; empty = NULL
};

struct FeatureTable {
    std::string name;
    std::string title;
    std::string description;
    ShapeKind shape = ShapeKind::none;
    std::vector<Column> columns;
    std::size_t rows = 0;
    // Fills `row` for row `index`. Called once per row, in order, from one thread.
    std::function<void(std::size_t index, Row& row)> fill;
};

// A result layer that carries an input layer's geometry and columns through, record by record, with
// result columns behind them. `fill` is called with the record number of the input (from 0);
// records that the reading set aside get no row: `keeps(record)` says so.
struct PassThroughTable {
    FeatureTable results;  // its shape and rows are those of the input
    std::string input;     // section of the district file: "parcels" or "roads"
    std::function<bool(std::size_t record)> keeps;
    // Where given: sees the rings of each kept record on the way, in order, in metres of the
    // working CRS; none where the record has no area. Curves come as short straight pieces.
    std::function<void(std::size_t record, std::span<const Polyline> rings)> sees = {};
};

}  // namespace farwater::io
