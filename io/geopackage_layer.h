// One layer or table of a GeoPackage in the making; what the writers of result tables and of
// passed-through inputs have in common.
#pragma once

#include <cstddef>
#include <filesystem>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "io/crs.h"
#include "io/feature_table.h"
#include "io/geopackage_finish.h"

class GDALDataset;
class OGRFeature;
class OGRFieldDefn;
class OGRGeometry;
class OGRLayer;

namespace farwater::io {

// The file that layers go into.
struct GeoPackageInMaking {
    std::filesystem::path file;
    std::shared_ptr<GDALDataset> dataset;
    Crs crs;
    double metres_per_unit = 1.0;
    std::vector<std::string> titles;  // gpkg_contents wants each only once
    std::vector<WrittenTable> tables;
};

// Columns first, then begin(), then row by row, then finish(). All in one transaction. Throws
// OutputError with the file's path.
class GeoPackageLayer {
public:
    // `geometry_type`: an OGRwkbGeometryType, wkbNone for a table. `rows`: how many are to come; it
    // decides who builds the index.
    GeoPackageLayer(GeoPackageInMaking& file, const FeatureTable& table, int geometry_type,
                    std::size_t rows);
    ~GeoPackageLayer();
    GeoPackageLayer(const GeoPackageLayer&) = delete;
    GeoPackageLayer& operator=(const GeoPackageLayer&) = delete;

    void add_column(OGRFieldDefn& column, std::string_view description);
    void add_result_columns(const std::vector<Column>& columns);  // the last ones

    void begin();
    OGRFeature& feature();             // the row that add_row() writes, used again for every row
    void set_results(const Row& row);  // its values into the result columns
    void set_shape(std::unique_ptr<OGRGeometry> shape);  // null = NULL
    void add_row();

    void finish();  // commits; the table stands in file.tables

private:
    [[noreturn]] void fail(std::string_view what) const;
    void note_shape(const OGRGeometry& shape);

    struct Open;  // GDAL's side
    GeoPackageInMaking& file_;
    WrittenTable written_;
    std::unique_ptr<Open> open_;
    std::size_t first_result_ = 0;  // columns before our own
};

}  // namespace farwater::io
