#include "io/geopackage/sqlite_rows.h"

#include <algorithm>
#include <cassert>

#include "io/files/letters.h"

namespace farwater::io {

namespace {

// More gain little. SQLite allows 32,766 cells in a statement and 2,000 columns in a table.
constexpr std::size_t most_rows = 32;
constexpr std::size_t most_cells = 2000;

std::size_t rows_per_statement(std::size_t columns) {
    return std::clamp<std::size_t>(most_cells / columns, 1, most_rows);
}

}  // namespace

SqliteRows::SqliteRows(const SqliteFile& file, const std::string& table, std::size_t columns)
    : file_(&file),
      table_(table),
      columns_(columns),
      cells_per_statement_(columns * rows_per_statement(columns)),
      insert_(file.prepare(insertion(rows_per_statement(columns)))) {
    cells_.reserve(cells_per_statement_);
}

std::string SqliteRows::insertion(std::size_t rows) const {
    std::string row = "(?";
    for (std::size_t i = 1; i < columns_; ++i) {
        row += ",?";
    }
    row += ")";
    std::string sql = "INSERT INTO " + sql_name(table_) + " VALUES" + row;
    for (std::size_t i = 1; i < rows; ++i) {
        sql += "," + row;
    }
    return sql;
}

void SqliteRows::take(const Cell& cell) {
    cells_.push_back(cell);
    if (cells_.size() == cells_per_statement_) {
        write(insert_);
    }
}

void SqliteRows::take(Kind kind, const void* data, std::size_t size) {
    const std::size_t begin = kept_.size();
    const auto* bytes = static_cast<const unsigned char*>(data);
    kept_.insert(kept_.end(), bytes, bytes + size);
    take({kind, 0, 0.0, begin, size});
}

void SqliteRows::add_null() { take({}); }
void SqliteRows::add(std::int64_t value) { take({Kind::integer, value, 0.0, 0, 0}); }
void SqliteRows::add(double value) { take({Kind::real, 0, value, 0, 0}); }
void SqliteRows::add(std::string_view text) {
    if (is_plain_ascii(text)) {
        return take(Kind::text, text.data(), text.size());
    }
    const std::string letters = without_hidden(as_utf8(text));
    take(Kind::text, letters.data(), letters.size());
}
void SqliteRows::add(std::span<const unsigned char> bytes) {
    take(Kind::bytes, bytes.data(), bytes.size());
}

void SqliteRows::bind(SqliteStatement& statement, int parameter, const Cell& cell) const {
    // Even of nothing: a null pointer would bind NULL.
    static constexpr unsigned char nothing = 0;
    const unsigned char* data = cell.size == 0 ? &nothing : kept_.data() + cell.begin;
    switch (cell.kind) {
        case Kind::null:
            statement.bind_null(parameter);
            break;
        case Kind::integer:
            statement.bind(parameter, cell.integer);
            break;
        case Kind::real:
            statement.bind(parameter, cell.real);
            break;
        case Kind::text:
            statement.bind(parameter,
                           std::string_view(reinterpret_cast<const char*>(data), cell.size));
            break;
        case Kind::bytes:
            statement.bind(parameter, std::span(data, cell.size));
            break;
    }
}

void SqliteRows::write(SqliteStatement& statement) {
    int parameter = 0;
    for (const Cell& cell : cells_) {
        bind(statement, ++parameter, cell);
    }
    statement.run();
    cells_.clear();
    kept_.clear();
}

void SqliteRows::finish() {
    assert(cells_.size() % columns_ == 0);
    if (!cells_.empty()) {
        SqliteStatement rest = file_->prepare(insertion(cells_.size() / columns_));
        write(rest);
    }
}

}  // namespace farwater::io
