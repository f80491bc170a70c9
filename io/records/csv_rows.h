// What GDAL does not tell of a CSV file: rows whose cells may stand in the wrong columns.
#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <optional>
#include <vector>

namespace farwater::io {

struct CsvRow {
    std::int64_t number = 0;  // as GDAL counts them: from 1, without the head and blank lines
    std::size_t cells = 0;
};

struct CsvRows {
    char separator = ',';
    std::size_t columns = 0;
    // Rows with more cells than there are columns, those behind the last column not all blank: a
    // comma within a number has no quotes. In the file's order.
    std::vector<CsvRow> too_long;
    bool head_breaks = false;  // a column's name goes over a line end, and GDAL loses the others
    // A row with a quote mark inside a cell without quotes that swallows the rows after it, or with
    // quotes that are never closed.
    std::optional<std::int64_t> swallows;
    // By column of a table parted by semicolons: some cell of it shows that a point begins
    // decimals, such as 1.25 or 0.125, where 1.200 can be either. Empty for other separators.
    std::vector<bool> point_shown;

    const CsvRow* too_long_row(std::int64_t number) const;  // null = it is not
};

// None where the file cannot be read, or its first row has not `columns` cells by any separator
// that GDAL knows. O(bytes).
std::optional<CsvRows> look_at_csv(const std::filesystem::path& file, std::size_t columns);

}  // namespace farwater::io
