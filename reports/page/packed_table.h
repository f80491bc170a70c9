// A result table as compact bytes, column by column, that reports/page/packed.js reads.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "io/feature_table.h"
#include "reports/page/page_shapes.h"

namespace farwater::reports {

// Rows, columns, title, description; then per column its name, description, form, decimals, number
// of bytes, bytes. Counts and texts as in reports/page/packed_bytes.h.
class PackedTable {
public:
    // How a column's bytes are read; reports/page/packed.js has the same numbers.
    enum class Form : std::uint8_t {
        numbers = 0,  // a count each: 0 = none, else one more than the signed number of
                      // 10^-decimals; yes and no are 1 and 0
        words = 1,    // few texts over and over: how many, the texts, then a count each (0 = none)
        texts = 2,    // all texts joined by U+001E, empty = none
        shapes = 3,   // PackedShapes
    };

    PackedTable(std::string_view title, std::string_view description, std::size_t rows);

    // Every column of the table, or those of `only`; then, where it has shapes, the column "shape".
    // Not more rows than the packed table has; missing ones are none. O(cells).
    void add(const io::FeatureTable& table, const PageGrid& grid,
             const std::vector<std::string_view>& only = {});
    // Shapes that were collected elsewhere, one per row.
    void add_shapes(const PackedShapes& shapes, std::string_view name = "shape");

    std::string bytes() const;

private:
    void add_column(const io::Column& column, Form form, std::string_view bytes);

    std::string title_;
    std::string description_;
    std::size_t rows_;
    std::size_t columns_ = 0;
    std::string packed_;
};

}  // namespace farwater::reports
