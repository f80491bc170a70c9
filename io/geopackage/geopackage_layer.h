// One layer or table of a GeoPackage in the making; what the writers of result tables and of
// passed-through inputs have in common. GDAL makes the table and all that the standard wants beside
// it, SQLite takes the rows: that is four times as fast as GDAL's own way row by row.
#pragma once

#include <filesystem>
#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "io/crs.h"
#include "io/feature_table.h"
#include "io/files/unchanged_files.h"
#include "io/geopackage/geopackage_finish.h"
#include "io/geopackage/sqlite_file.h"
#include "io/geopackage/sqlite_rows.h"

class GDALDataset;
class OGRFieldDefn;
class OGRGeometry;

namespace farwater::io {

// The file that layers go into.
struct GeoPackageInMaking {
    std::filesystem::path file;
    std::shared_ptr<GDALDataset> dataset;
    std::unique_ptr<SqliteFile> sqlite;  // the same file
    Crs crs;
    double metres_per_unit = 1.0;
    std::vector<std::string> titles;  // gpkg_contents wants each only once
    std::vector<WrittenTable> tables;
    Fingerprints fingerprints;  // of the inputs
};

// Columns first, then begin(), then row by row, then finish(). All rows in one transaction. Throws
// OutputError with the file's path.
class GeoPackageLayer {
public:
    // `geometry_type`: an OGRwkbGeometryType, wkbNone for a table.
    GeoPackageLayer(GeoPackageInMaking& file, const FeatureTable& table, int geometry_type);
    ~GeoPackageLayer();
    GeoPackageLayer(const GeoPackageLayer&) = delete;
    GeoPackageLayer& operator=(const GeoPackageLayer&) = delete;

    void add_column(OGRFieldDefn& column, std::string_view description);
    void add_result_columns(const std::vector<Column>& columns);

    void begin();
    // A row: its shape (null = NULL, no matter for a table), a cell for each column in their order,
    // of which the last ones may come from add_results.
    void start_row(const OGRGeometry* shape);
    // The same for a shape as another GeoPackage in the same CRS keeps it. False: nothing is done,
    // GDAL shall read it. Where `rings` is given, those of an area are added to it; after false
    // they mean nothing.
    bool start_row(std::span<const unsigned char> shape, std::vector<Polyline>* rings = nullptr);
    SqliteRows& cells();
    void add_results(const Row& row);

    // Fills the index and commits; the table stands in file.tables.
    void finish();
    // The same for a layer of wkbUnknown: its type becomes the one that all its rows have; the
    // general one where they differ, `otherwise` where no row has a shape.
    void finish_with_type_of_rows(int otherwise);

private:
    [[noreturn]] void fail(std::string_view what) const;
    void hold_triggers();
    void end_rows();
    void commit();

    struct Open;  // the layer between begin() and finish()
    GeoPackageInMaking& file_;
    WrittenTable written_;
    int geometry_type_;
    std::unique_ptr<Open> open_;
};

}  // namespace farwater::io
