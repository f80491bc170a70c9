// Small tables and files for the tests of writing.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "io/crs.h"
#include "io/feature_table.h"
#include "io/geopackage/sqlite_file.h"
#include "io/geopackage_writer.h"

namespace farwater::io::test {

inline const std::string fixed_date = "2026-01-01T00:00:00.000Z";

inline WorkingCrs utm_18() {
    WorkingCrs crs;
    crs.code = "EPSG:32618";
    return crs;
}

// Survey feet: Massachusetts mainland.
inline WorkingCrs feet_crs() {
    WorkingCrs crs;
    crs.code = "EPSG:2249";
    crs.metres_per_unit = 0.304800609601219;
    return crs;
}

// `rows` points in a row, 10 m apart, with their number.
inline FeatureTable points(const std::string& name, std::size_t rows) {
    FeatureTable table;
    table.name = name;
    table.title = "Points of " + name;
    table.description = "Where the points are.";
    table.shape = ShapeKind::point;
    table.columns = {{"number", ColumnType::integer, "The point's number.", 0}};
    table.rows = rows;
    table.fill = [](std::size_t index, Row& row) {
        row.values[0] = static_cast<std::int64_t>(index);
        row.shape = {{500000.0 + 10.0 * static_cast<double>(index), 4700000.0}};
    };
    return table;
}

// False when the writing was stopped.
inline bool write_file(const std::filesystem::path& file, const std::vector<FeatureTable>& tables,
                       const WorkingCrs& crs = utm_18(), const Work& work = {}) {
    GeoPackageWriter writer(file, crs, fixed_date);
    for (const FeatureTable& table : tables) {
        if (!writer.write(table, work)) {
            return false;
        }
    }
    return writer.close(work);
}

// All rows of a query, cells joined by '|', rows by a line end.
inline std::string rows_of(const std::filesystem::path& file, const std::string& sql,
                           int columns = 1) {
    const SqliteFile sqlite(file);
    SqliteStatement statement = sqlite.prepare(sql);
    std::string text;
    while (statement.step()) {
        for (int i = 0; i < columns; ++i) {
            text += (i > 0 ? "|" : "") + statement.text(i);
        }
        text += "\n";
    }
    return text;
}

}  // namespace farwater::io::test
