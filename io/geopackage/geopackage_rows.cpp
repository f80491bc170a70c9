#include "io/geopackage/geopackage_rows.h"

#include <algorithm>
#include <cmath>
#include <string_view>
#include <utility>

#include <gdal_priv.h>
#include <ogrsf_frmts.h>
#include <sqlite3.h>

#include "io/geopackage/sqlite_file.h"
#include "io/records/parse_cell.h"

namespace farwater::io {
namespace {

using Statement = std::unique_ptr<sqlite3_stmt, int (*)(sqlite3_stmt*)>;

Statement prepared(sqlite3* file, const std::string& sql) {
    sqlite3_stmt* statement = nullptr;
    sqlite3_prepare_v2(file, sql.c_str(), -1, &statement, nullptr);
    return {statement, &sqlite3_finalize};
}

std::string text_of(sqlite3_stmt* row, int column) {
    const auto* text = reinterpret_cast<const char*>(sqlite3_column_text(row, column));
    return text == nullptr ? std::string() : std::string(text);
}

bool is_plain_table(sqlite3* file, const std::string& name) {
    const Statement schema = prepared(
        file, "SELECT sql FROM sqlite_master WHERE type = 'table' AND name = " + sql_text(name));
    return schema && sqlite3_step(schema.get()) == SQLITE_ROW &&
           lower_case(text_of(schema.get(), 0)).starts_with("create table");
}

// SQLite's own row number, by which it keeps the rows.
bool is_row_number(sqlite3* file, const std::string& table, const std::string& column) {
    const Statement columns = prepared(file, "PRAGMA table_info(" + sql_name(table) + ")");
    bool found = false;
    int keys = 0;
    while (columns && sqlite3_step(columns.get()) == SQLITE_ROW) {
        const bool key = sqlite3_column_int(columns.get(), 5) != 0;
        keys += key ? 1 : 0;
        found = found || (key && text_of(columns.get(), 1) == column &&
                          lower_case(text_of(columns.get(), 2)) == "integer");
    }
    return found && keys == 1;
}

std::string selection(OGRLayer& layer) {
    std::string columns = sql_name(layer.GetFIDColumn());
    if (layer.GetGeomType() != wkbNone) {
        columns += "," + sql_name(layer.GetGeometryColumn());
    }
    for (const std::string& name : names_of(*layer.GetLayerDefn())) {
        columns += "," + sql_name(name);
    }
    return "SELECT " + columns + " FROM " + sql_name(layer.GetName());
}

// Texts that GDAL takes for a day and writes again as they are.
bool is_plain_date(std::string_view text) {
    const std::optional<Date> date = text.size() == 10 ? parse_year_first_date(text) : std::nullopt;
    return date && date->ok() && text[4] == '-' && text[7] == '-' && text[0] != '0';
}

// GDAL's connection locks at every look at a column; a value once fetched does not.
sqlite3_value* value_in(sqlite3_stmt* row, int column) { return sqlite3_column_value(row, column); }

std::string_view text_of(sqlite3_value* value) {
    const auto* text = reinterpret_cast<const char*>(sqlite3_value_text(value));
    return {text, static_cast<std::size_t>(sqlite3_value_bytes(value))};
}

std::span<const unsigned char> bytes_of(sqlite3_value* value) {
    const auto* bytes = static_cast<const unsigned char*>(sqlite3_value_blob(value));
    return {bytes, static_cast<std::size_t>(sqlite3_value_bytes(value))};
}

bool is_plain(sqlite3_value* value, Carry carry) {
    const int type = sqlite3_value_type(value);
    if (type == SQLITE_NULL) {
        return true;
    }
    switch (carry) {
        case Carry::integer:
            return type == SQLITE_INTEGER && sqlite3_value_int64(value) == sqlite3_value_int(value);
        case Carry::integer64:
            return type == SQLITE_INTEGER;
        case Carry::real:
            return type == SQLITE_FLOAT || type == SQLITE_INTEGER;
        case Carry::text:
            return type == SQLITE_TEXT;
        case Carry::bytes:
            return type == SQLITE_BLOB && sqlite3_value_bytes(value) > 0;
        case Carry::date:
            return type == SQLITE_TEXT && is_plain_date(text_of(value));
        case Carry::time:
        case Carry::as_text:
            break;
    }
    return false;
}

// Precondition: is_plain.
void add_cell(sqlite3_value* value, Carry carry, SqliteRows& cells) {
    if (sqlite3_value_type(value) == SQLITE_NULL) {
        cells.add_null();
    } else if (carry == Carry::integer || carry == Carry::integer64) {
        cells.add(std::int64_t{sqlite3_value_int64(value)});
    } else if (carry == Carry::real) {
        const double number = sqlite3_value_double(value);
        std::isfinite(number) ? cells.add(number) : cells.add_null();
    } else if (carry == Carry::bytes) {
        cells.add(bytes_of(value));
    } else {
        const std::string_view text = text_of(value);
        cells.add(text.substr(0, text.find('\0')));  // GDAL's texts end there
    }
}

}  // namespace

void GeoPackageRows::Finalize::operator()(sqlite3_stmt* statement) const {
    sqlite3_finalize(statement);
}

GeoPackageRows::GeoPackageRows(sqlite3_stmt* statement, bool geometry, std::vector<Carry> carries)
    : statement_(statement),
      geometry_(geometry),
      carries_(std::move(carries)),
      first_(geometry ? 2 : 1) {}

std::optional<GeoPackageRows> GeoPackageRows::of(const OpenLayer& input,
                                                 const std::vector<Carry>& carries, bool filtered) {
    const bool rewritten = std::ranges::any_of(
        carries, [](Carry carry) { return carry == Carry::time || carry == Carry::as_text; });
    OGRLayer& layer = *input.layer;
    const GDALDriver* driver = input.dataset->GetDriver();
    if (filtered || rewritten || driver == nullptr ||
        std::string_view(driver->GetDescription()) != "GPKG") {
        return std::nullopt;
    }
    auto* file = static_cast<sqlite3*>(input.dataset->GetInternalHandle("SQLITE_HANDLE"));
    if (file == nullptr || !is_plain_table(file, layer.GetName()) ||
        !is_row_number(file, layer.GetName(), layer.GetFIDColumn())) {
        return std::nullopt;
    }
    Statement rows = prepared(file, selection(layer));
    if (!rows) {
        return std::nullopt;
    }
    return GeoPackageRows(rows.release(), layer.GetGeomType() != wkbNone, carries);
}

bool GeoPackageRows::next() { return sqlite3_step(statement_.get()) == SQLITE_ROW; }

std::int64_t GeoPackageRows::fid() const { return sqlite3_column_int64(statement_.get(), 0); }

bool GeoPackageRows::plain() const {
    int column = first_;
    for (const Carry carry : carries_) {
        if (!is_plain(value_in(statement_.get(), column++), carry)) {
            return false;
        }
    }
    return true;
}

void GeoPackageRows::add_cells(SqliteRows& cells) const {
    int column = first_;
    for (const Carry carry : carries_) {
        add_cell(value_in(statement_.get(), column++), carry, cells);
    }
}

bool GeoPackageRows::has_shape() const {
    return geometry_ && sqlite3_column_type(statement_.get(), 1) != SQLITE_NULL;
}

std::span<const unsigned char> GeoPackageRows::shape() const {
    return bytes_of(value_in(statement_.get(), 1));
}

}  // namespace farwater::io
