// Many rows into one table of SQLite, several to a statement: a third less time than row by row.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "io/geopackage/sqlite_file.h"

namespace farwater::io {

// Cell after cell, row after row, in the order of the table's columns. What was added last may not
// be in the table before finish(). All functions throw OutputError. For use inside a transaction.
class SqliteRows {
public:
    // Precondition: the table has this many columns, one or more. `file` must outlive the rows.
    SqliteRows(const SqliteFile& file, const std::string& table, std::size_t columns);

    void add_null();
    void add(std::int64_t value);
    void add(double value);  // NaN becomes NULL
    // Text and bytes are copied; text that is no UTF-8 becomes it, for a GeoPackage holds no other,
    // and letters that nobody sees are left out (io/files/letters.h).
    void add(std::string_view text);
    void add(std::span<const unsigned char> bytes);

    void finish();  // precondition: the last row is complete

private:
    enum class Kind : std::uint8_t { null, integer, real, text, bytes };
    struct Cell {
        Kind kind = Kind::null;
        std::int64_t integer = 0;
        double real = 0.0;
        std::size_t begin = 0;  // in kept_
        std::size_t size = 0;
    };

    void take(const Cell& cell);
    void take(Kind kind, const void* data, std::size_t size);
    void bind(SqliteStatement& statement, int parameter, const Cell& cell) const;
    void write(SqliteStatement& statement);
    std::string insertion(std::size_t rows) const;

    const SqliteFile* file_;
    std::string table_;
    std::size_t columns_;
    std::size_t cells_per_statement_;
    SqliteStatement insert_;
    std::vector<Cell> cells_;
    std::vector<unsigned char> kept_;  // text and bytes of the cells
};

}  // namespace farwater::io
