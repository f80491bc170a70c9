// Writing the files through GDAL: a GeoPackage of many layers, CSV, the elevation raster. Nothing
// of the clock gets in: the same rows give the same bytes with the same versions of GDAL and
// SQLite. Everything here throws std::runtime_error when a file cannot be written.
#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "sample_region/generate/records.h"
#include "sample_region/generate/shapes.h"

namespace farwater::sample {

enum class ColumnKind { text, whole, real };
struct Column {
    std::string_view name;
    ColumnKind kind = ColumnKind::text;
};
// monostate = NULL; views must live until the call returns.
using Cell = std::variant<std::monostate, std::int64_t, double, std::string_view>;

enum class Shape { point, line, polygon, multi_polygon };
// monostate = NULL.
using Geometry = std::variant<std::monostate, Point, const Polyline*, const Polygons*>;

class GeoPackage {
public:
    // Replaces a file of this name. `epsg` is the CRS of all layers.
    GeoPackage(const std::filesystem::path& path, int epsg);
    ~GeoPackage();
    GeoPackage(const GeoPackage&) = delete;
    GeoPackage& operator=(const GeoPackage&) = delete;

    // The layer's number. A spatial index costs much of the time of a large layer.
    int add_layer(const char* name, Shape shape, std::span<const Column> columns, bool indexed);
    // One cell for each column of the layer; a closed ring (polygon) is a Polyline without its last
    // point. O(1) memory.
    void write(int layer, std::span<const Cell> cells, const Geometry& geometry);
    void close();  // also commits; to be called last

private:
    struct Open;
    std::unique_ptr<Open> open_;
};

// Rows of text with a comma between and a header line; cells with commas are put in quotes. With
// `epsg` not 0 the columns LON and LAT (degrees, 6 decimals) are added from the points.
void write_csv(const std::filesystem::path& path, const TypedTable& table, int epsg);

void write_text(const std::filesystem::path& path, const std::string& text);

// Ground heights in metres, rounded to 0.1, in cells of `cell` metres over `box`; the band says
// "m". height(p) is asked for the middle of every cell, row by row from the north.
void write_elevation(const std::filesystem::path& path, const Box& box, double cell, int epsg,
                     const std::function<double(Point)>& height);

}  // namespace farwater::sample
