// The rows of a GeoPackage's layer from SQLite itself, through GDAL's own connection: the same rows
// in the same order, without a feature and a geometry object made of each.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <vector>

#include "io/geopackage/carried_columns.h"
#include "io/geopackage/sqlite_rows.h"
#include "io/records/dataset.h"

struct sqlite3_stmt;

namespace farwater::io {

class GeoPackageRows {
public:
    // None where the layer is not a plain table of a GeoPackage with whole numbers as its key, is
    // filtered, or has columns whose values GDAL rewrites. The layer must outlive the rows.
    static std::optional<GeoPackageRows> of(const OpenLayer& input,
                                            const std::vector<Carry>& carries, bool filtered);

    bool next();  // false: there is none, or SQLite cannot go on
    std::int64_t fid() const;

    // Whether the cells are what their columns promise. Where they are not, GDAL shall read the
    // row.
    bool plain() const;
    // As add_carried_cells. Precondition: plain().
    void add_cells(SqliteRows& cells) const;

    bool has_shape() const;
    std::span<const unsigned char> shape() const;  // as a GeoPackage keeps it

private:
    struct Finalize {
        void operator()(sqlite3_stmt* statement) const;
    };
    GeoPackageRows(sqlite3_stmt* statement, bool geometry, std::vector<Carry> carries);

    std::unique_ptr<sqlite3_stmt, Finalize> statement_;
    bool geometry_;
    std::vector<Carry> carries_;
    int first_;  // of the carried columns
};

}  // namespace farwater::io
