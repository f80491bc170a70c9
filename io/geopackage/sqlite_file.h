// SQLite itself, for what GDAL does not do with its GeoPackage, or not fast enough. GDAL may have
// the file open as well: each works while the other has no transaction.
#pragma once

#include <cstdint>
#include <filesystem>
#include <memory>
#include <span>
#include <string>
#include <string_view>

struct sqlite3;
struct sqlite3_stmt;

namespace farwater::io {

class SqliteFile;

// One prepared statement, used again and again. Parameters are counted from 1, columns from 0. All
// functions throw OutputError with the file's path and SQLite's own words.
class SqliteStatement {
public:
    SqliteStatement& bind(int parameter, std::int64_t value);
    SqliteStatement& bind(int parameter, double value);
    SqliteStatement& bind_null(int parameter);
    // Text and bytes must live until the next step.
    SqliteStatement& bind(int parameter, std::string_view text);
    SqliteStatement& bind(int parameter, std::span<const unsigned char> bytes);

    bool step();  // true: a row is there
    void run();   // to its end, ready for the next binding

    std::int64_t integer(int column) const;
    std::string text(int column) const;  // NULL = empty

private:
    friend class SqliteFile;
    struct Finalize {
        void operator()(sqlite3_stmt* statement) const;
    };
    SqliteStatement(const SqliteFile& file, sqlite3_stmt* statement);
    const SqliteFile* file_;
    std::unique_ptr<sqlite3_stmt, Finalize> statement_;
};

// One connection, for one thread.
class SqliteFile {
public:
    explicit SqliteFile(const std::filesystem::path& file);  // must exist

    void run(std::string_view sql);  // one or more statements without results
    bool in_transaction() const;     // a full disk may have ended it
    SqliteStatement prepare(std::string_view sql) const;
    std::int64_t integer(std::string_view sql) const;  // the first cell; 0 where there is no row
    std::string text(std::string_view sql) const;  // the first cell; empty where there is no row
    [[noreturn]] void fail() const;

private:
    struct Close {
        void operator()(sqlite3* file) const;
    };
    std::filesystem::path path_;
    std::unique_ptr<sqlite3, Close> file_;
};

// "name" with its own quotes doubled; 'text' likewise.
std::string sql_name(std::string_view name);
std::string sql_text(std::string_view text);

}  // namespace farwater::io
