// The spatial index of a layer, built in one go from the leaves up: a tenth of the time of SQLite's
// own one-by-one insertion.
#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

#include "io/geopackage/sqlite_file.h"

namespace farwater::io {

// A feature's bounding box as the index keeps it: in the layer's coordinates, rounded outwards to
// single precision.
struct IndexBox {
    std::int64_t fid = 0;
    float min_x = 0.0F;
    float max_x = 0.0F;
    float min_y = 0.0F;
    float max_y = 0.0F;
};

IndexBox index_box(std::int64_t fid, double min_x, double max_x, double min_y, double max_y);

// Puts `boxes` (fids ascending) into the empty index that GDAL made for the layer `table`. False
// when what it made does not pass rtreecheck, has not all boxes or cannot be written: the index is
// then empty as before and GDAL must build it (build_index_by_gdal). Also inside a transaction;
// throws OutputError when that is lost, as on a full disk. O(n log n), 16 bytes a box beside the
// boxes.
//
// Sources: the shadow tables and the layout of their nodes are those of "The SQLite R*Tree Module"
// (sqlite.org/rtree.html); order along the curve of D. Hilbert, Math. Ann. 38, 1891 (from memory).
bool fill_spatial_index(SqliteFile& file, const std::string& table,
                        const std::vector<IndexBox>& boxes);

// Builds the index anew by GDAL, feature by feature. Throws OutputError. Precondition: nobody else
// has a transaction on the file.
void build_index_by_gdal(const std::filesystem::path& file, const std::string& table);

}  // namespace farwater::io
