#include <cmath>
#include <fstream>
#include <stdexcept>

#include <fmt/format.h>
#include <gdal_priv.h>
#include <ogr_spatialref.h>

#include "sample_region/generate/geo_files.h"

namespace farwater::sample {
namespace {

std::string csv_line(const std::vector<std::string>& cells) {
    std::string line;
    for (std::size_t i = 0; i < cells.size(); ++i) {
        const bool quoted = cells[i].find_first_of(",\"") != std::string::npos;
        line += (i > 0 ? "," : "") + (quoted ? '"' + cells[i] + '"' : cells[i]);
    }
    return line + "\n";
}

using Transformation = std::unique_ptr<OGRCoordinateTransformation>;

Transformation to_degrees(int epsg) {
    OGRSpatialReference from;
    OGRSpatialReference to;
    from.importFromEPSG(epsg);
    to.importFromEPSG(4326);
    from.SetAxisMappingStrategy(OAMS_TRADITIONAL_GIS_ORDER);
    to.SetAxisMappingStrategy(OAMS_TRADITIONAL_GIS_ORDER);
    Transformation result(OGRCreateCoordinateTransformation(&from, &to));
    if (!result) {
        throw std::runtime_error(fmt::format("no way from EPSG:{} to degrees", epsg));
    }
    return result;
}

}  // namespace

void write_text(const std::filesystem::path& path, const std::string& text) {
    std::ofstream file(path, std::ios::binary);
    file << text;
    file.close();
    if (!file) {
        throw std::runtime_error(fmt::format("{}: cannot be written", path.string()));
    }
}

void write_csv(const std::filesystem::path& path, const TypedTable& table, int epsg) {
    const Transformation degrees = epsg != 0 ? to_degrees(epsg) : nullptr;
    std::vector<std::string> header = table.header;
    if (degrees) {
        header.insert(header.end(), {"LON", "LAT"});
    }
    std::string text = csv_line(header);
    for (const PointRow& row : table.rows) {
        std::vector<std::string> cells = row.cells;
        if (degrees) {
            Point p = row.place;
            if (!degrees->Transform(1, &p.x, &p.y)) {
                throw std::runtime_error(
                    fmt::format("{}: a point has no place in degrees", path.string()));
            }
            cells.insert(cells.end(), {fmt::format("{:.6f}", p.x), fmt::format("{:.6f}", p.y)});
        }
        text += csv_line(cells);
    }
    write_text(path, text);
}

void write_elevation(const std::filesystem::path& path, const Box& box, double cell, int epsg,
                     const std::function<double(Point)>& height) {
    GDALAllRegister();
    const int columns = static_cast<int>(std::ceil((box.high.x - box.low.x) / cell));
    const int rows = static_cast<int>(std::ceil((box.high.y - box.low.y) / cell));
    CPLStringList options;
    options.SetNameValue("COMPRESS", "DEFLATE");
    options.SetNameValue("PREDICTOR", "3");
    GDALDriver* driver = GetGDALDriverManager()->GetDriverByName("GTiff");
    GDALDatasetUniquePtr raster(
        driver->Create(path.c_str(), columns, rows, 1, GDT_Float32, options.List()));
    if (!raster) {
        throw std::runtime_error(fmt::format("{}: cannot be created", path.string()));
    }
    double corner[6] = {box.low.x, cell, 0, box.high.y, 0, -cell};
    raster->SetGeoTransform(corner);
    OGRSpatialReference crs;
    crs.importFromEPSG(epsg);
    raster->SetSpatialRef(&crs);
    GDALRasterBand* band = raster->GetRasterBand(1);
    band->SetUnitType("m");
    std::vector<float> line(static_cast<std::size_t>(columns));
    for (int row = 0; row < rows; ++row) {
        for (int column = 0; column < columns; ++column) {
            const Point p{box.low.x + (column + 0.5) * cell, box.high.y - (row + 0.5) * cell};
            line[static_cast<std::size_t>(column)] =
                static_cast<float>(std::round(height(p) * 10) / 10);
        }
        if (band->RasterIO(GF_Write, 0, row, columns, 1, line.data(), columns, 1, GDT_Float32, 0,
                           0) != CE_None) {
            throw std::runtime_error(fmt::format("{}: {}", path.string(), CPLGetLastErrorMsg()));
        }
    }
}

}  // namespace farwater::sample
