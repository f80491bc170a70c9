#include "io/geopackage/geopackage_finish.h"

#include <cstdint>
#include <string_view>

#include "io/error.h"
#include "io/files/disk.h"
#include "io/geopackage/spatial_index.h"

namespace farwater::io {

namespace {

constexpr std::string_view stage = "finishing the GeoPackage";

// Definitions of the tables: OGC 12-128, tables 13 (extensions), 34 and 35 (schema extension).
constexpr std::string_view extension_tables =
    "CREATE TABLE IF NOT EXISTS gpkg_extensions (table_name TEXT, column_name TEXT,"
    " extension_name TEXT NOT NULL, definition TEXT NOT NULL, scope TEXT NOT NULL,"
    " CONSTRAINT ge_tce UNIQUE (table_name, column_name, extension_name));";
constexpr std::string_view schema_tables =
    "CREATE TABLE gpkg_data_columns (table_name TEXT NOT NULL, column_name TEXT NOT NULL,"
    " name TEXT, title TEXT, description TEXT, mime_type TEXT, constraint_name TEXT,"
    " CONSTRAINT pk_gdc PRIMARY KEY (table_name, column_name),"
    " CONSTRAINT gdc_tn UNIQUE (table_name, name));"
    "CREATE TABLE gpkg_data_column_constraints (constraint_name TEXT NOT NULL,"
    " constraint_type TEXT NOT NULL, value TEXT, min NUMERIC, min_is_inclusive BOOLEAN,"
    " max NUMERIC, max_is_inclusive BOOLEAN, description TEXT,"
    " CONSTRAINT gdcc_ntv UNIQUE (constraint_name, constraint_type, value));"
    "INSERT INTO gpkg_extensions VALUES('gpkg_data_columns', NULL, 'gpkg_schema',"
    " 'http://www.geopackage.org/spec121/#extension_schema', 'read-write');"
    "INSERT INTO gpkg_extensions VALUES('gpkg_data_column_constraints', NULL, 'gpkg_schema',"
    " 'http://www.geopackage.org/spec121/#extension_schema', 'read-write');";

void describe_columns(SqliteFile& file, const std::vector<WrittenTable>& tables) {
    file.run("BEGIN");
    file.run(extension_tables);
    file.run(schema_tables);
    // `name` would have to be unique; it stays NULL.
    SqliteStatement add = file.prepare(
        "INSERT INTO gpkg_data_columns(table_name, column_name, description) VALUES(?, ?, ?)");
    for (const WrittenTable& table : tables) {
        for (const ColumnDescription& column : table.columns) {
            if (!column.description.empty()) {
                add.bind(1, table.name).bind(2, column.column).bind(3, column.description).run();
            }
        }
    }
    file.run("COMMIT");
}

bool in_progress(const Work& work, std::size_t done, std::size_t total) {
    work.step(stage, done, total);
    return !work.stopped();
}

[[noreturn]] void fail_check(const std::filesystem::path& path, const std::string& what) {
    throw OutputError(path.string() + ": failed its check after writing: " + what +
                      ". It is not used.");
}

void require_count(const std::filesystem::path& path, const std::string& what, std::int64_t found,
                   std::size_t written) {
    if (found != static_cast<std::int64_t>(written)) {
        fail_check(path, what + " has " + std::to_string(found) + " instead of " +
                             std::to_string(written));
    }
}

void check_table(const SqliteFile& file, const std::filesystem::path& path,
                 const WrittenTable& table) {
    require_count(path, table.name, file.integer("SELECT count(*) FROM " + sql_name(table.name)),
                  table.rows);
    require_count(path, "the row count of " + table.name,
                  file.integer("SELECT feature_count FROM gpkg_ogr_contents WHERE table_name = " +
                               sql_text(table.name)),
                  table.rows);
    if (!table.has_geometry) {
        return;
    }
    const std::string index = "rtree_" + table.name + "_geom";
    require_count(path, "the spatial index of " + table.name,
                  file.integer("SELECT count(*) FROM " + sql_name(index + "_rowid")), table.shapes);
    if (table.index_right) {
        return;
    }
    const std::string answer = file.text("SELECT rtreecheck(" + sql_text(index) + ")");
    if (answer != "ok") {
        fail_check(path, "the spatial index of " + table.name + ": " + answer);
    }
}

}  // namespace

void check_geopackage(const SqliteFile& file, const std::filesystem::path& path,
                      const std::vector<WrittenTable>& tables) {
    const std::string pages = file.text("PRAGMA quick_check(1)");
    if (pages != "ok") {
        fail_check(path, pages);
    }
    const std::string key = file.text("PRAGMA foreign_key_check");
    if (!key.empty()) {
        fail_check(path, "a row of " + key + " points nowhere");
    }
    for (const WrittenTable& table : tables) {
        check_table(file, path, table);
    }
}

bool finish_geopackage(const std::filesystem::path& file, std::vector<WrittenTable> tables,
                       const Work& work) {
    const std::size_t steps = tables.size() + 1;
    {
        SqliteFile sqlite(file);
        sqlite.run("PRAGMA synchronous = OFF");
        describe_columns(sqlite, tables);
    }
    for (std::size_t i = 0; i < tables.size(); ++i) {
        if (!in_progress(work, i, steps)) {
            return false;
        }
        if (tables[i].has_geometry && !tables[i].index_right) {
            build_index_by_gdal(file, tables[i].name);
        }
    }
    if (!in_progress(work, tables.size(), steps)) {
        return false;
    }
    {
        SqliteFile written(file);
        // Every page is looked at twice; mapped, it is not copied. So much memory at most.
        written.run("PRAGMA mmap_size = 33554432");
        check_geopackage(written, file, tables);
    }
    for (const char* suffix : {"-wal", "-shm", "-journal"}) {
        if (stands(file.string() + suffix)) {
            fail_check(file, "a journal is left beside it");
        }
    }
    return in_progress(work, steps, steps);
}

}  // namespace farwater::io
