#include "io/geopackage/sqlite_file.h"

#include <sqlite3.h>

#include "io/error.h"

namespace farwater::io {

namespace {

std::string quoted(std::string_view text, char quote) {
    std::string result(1, quote);
    for (const char letter : text) {
        result.append(letter == quote ? 2 : 1, letter);
    }
    return result += quote;
}

}  // namespace

void SqliteStatement::Finalize::operator()(sqlite3_stmt* statement) const {
    sqlite3_finalize(statement);
}

SqliteStatement::SqliteStatement(const SqliteFile& file, sqlite3_stmt* statement)
    : file_(&file), statement_(statement) {}

SqliteStatement& SqliteStatement::bind(int parameter, std::int64_t value) {
    if (sqlite3_bind_int64(statement_.get(), parameter, value) != SQLITE_OK) {
        file_->fail();
    }
    return *this;
}

SqliteStatement& SqliteStatement::bind(int parameter, double value) {
    if (sqlite3_bind_double(statement_.get(), parameter, value) != SQLITE_OK) {
        file_->fail();
    }
    return *this;
}

SqliteStatement& SqliteStatement::bind_null(int parameter) {
    if (sqlite3_bind_null(statement_.get(), parameter) != SQLITE_OK) {
        file_->fail();
    }
    return *this;
}

SqliteStatement& SqliteStatement::bind(int parameter, std::string_view text) {
    if (sqlite3_bind_text(statement_.get(), parameter, text.data(), static_cast<int>(text.size()),
                          SQLITE_STATIC) != SQLITE_OK) {
        file_->fail();
    }
    return *this;
}

SqliteStatement& SqliteStatement::bind(int parameter, std::span<const unsigned char> bytes) {
    if (sqlite3_bind_blob64(statement_.get(), parameter, bytes.data(), bytes.size(),
                            SQLITE_STATIC) != SQLITE_OK) {
        file_->fail();
    }
    return *this;
}

bool SqliteStatement::step() {
    const int result = sqlite3_step(statement_.get());
    if (result != SQLITE_ROW && result != SQLITE_DONE) {
        file_->fail();
    }
    return result == SQLITE_ROW;
}

void SqliteStatement::run() {
    while (step()) {
    }
    sqlite3_reset(statement_.get());
}

std::int64_t SqliteStatement::integer(int column) const {
    return sqlite3_column_int64(statement_.get(), column);
}

std::string SqliteStatement::text(int column) const {
    const unsigned char* text = sqlite3_column_text(statement_.get(), column);
    const auto size = static_cast<std::size_t>(sqlite3_column_bytes(statement_.get(), column));
    return text == nullptr ? std::string() : std::string(reinterpret_cast<const char*>(text), size);
}

void SqliteFile::Close::operator()(sqlite3* file) const { sqlite3_close(file); }

SqliteFile::SqliteFile(const std::filesystem::path& file) : path_(file) {
    sqlite3* opened = nullptr;
    const int result = sqlite3_open_v2(file.c_str(), &opened,
                                       SQLITE_OPEN_READWRITE | SQLITE_OPEN_NOMUTEX, nullptr);
    file_.reset(opened);
    if (result != SQLITE_OK) {
        fail();
    }
}

void SqliteFile::run(std::string_view sql) {
    if (sqlite3_exec(file_.get(), std::string(sql).c_str(), nullptr, nullptr, nullptr) !=
        SQLITE_OK) {
        fail();
    }
}

bool SqliteFile::in_transaction() const { return sqlite3_get_autocommit(file_.get()) == 0; }

SqliteStatement SqliteFile::prepare(std::string_view sql) const {
    sqlite3_stmt* statement = nullptr;
    if (sqlite3_prepare_v2(file_.get(), sql.data(), static_cast<int>(sql.size()), &statement,
                           nullptr) != SQLITE_OK) {
        fail();
    }
    return {*this, statement};
}

std::int64_t SqliteFile::integer(std::string_view sql) const {
    SqliteStatement statement = prepare(sql);
    return statement.step() ? statement.integer(0) : 0;
}

std::string SqliteFile::text(std::string_view sql) const {
    SqliteStatement statement = prepare(sql);
    return statement.step() ? statement.text(0) : std::string();
}

void SqliteFile::fail() const {
    throw OutputError(path_.string() + ": cannot be written: " + sqlite3_errmsg(file_.get()) + ".");
}

std::string sql_name(std::string_view name) { return quoted(name, '"'); }
std::string sql_text(std::string_view text) { return quoted(text, '\''); }

}  // namespace farwater::io
