// What a GeoPackage still needs when GDAL has closed it: descriptions of its columns, and proof
// that all is there.
#pragma once

#include <cstddef>
#include <filesystem>
#include <string>
#include <vector>

#include "analyzer/parallel/work.h"
#include "io/geopackage/sqlite_file.h"

namespace farwater::io {

struct ColumnDescription {
    std::string column;
    std::string description;
};

// A table as it was written.
struct WrittenTable {
    std::string name;
    bool has_geometry = false;
    std::size_t rows = 0;
    std::size_t shapes = 0;  // rows with a shape that is neither NULL nor empty
    std::vector<ColumnDescription> columns;
    bool index_right = false;  // filled, rtreecheck is done
};

// Registers the Schema extension and fills gpkg_data_columns (OGC 12-128, annex F.9), has GDAL
// build indexes that are not right, checks the file (check_geopackage), leaves it without a
// journal. False when stopped. Throws OutputError. Precondition: the file is closed.
bool finish_geopackage(const std::filesystem::path& file, std::vector<WrittenTable> tables,
                       const Work& work);

// Throws OutputError, saying what is wrong, unless pages and keys are sound (quick_check,
// foreign_key_check), every index not yet known as right passes rtreecheck, every one holds every
// shape, and every table has its rows, by count and in gpkg_ogr_contents.
void check_geopackage(const SqliteFile& file, const std::filesystem::path& path,
                      const std::vector<WrittenTable>& tables);

}  // namespace farwater::io
