#include "io/inputs/read_elevation.h"

#include <algorithm>
#include <cmath>
#include <memory>

#include <cpl_string.h>
#include <fmt/format.h>
#include <gdal_priv.h>
#include <gdal_utils.h>
#include <gdalwarper.h>

#include "analyzer/district/units.h"
#include "io/error.h"
#include "io/files/why_unreadable.h"
#include "io/records/dataset.h"
#include "io/records/parse_cell.h"

namespace farwater::io {
namespace {

constexpr double most_cells_a_side = 4096.0;

using Dataset = std::shared_ptr<GDALDataset>;

Dataset owned(GDALDatasetH handle) {
    return Dataset(GDALDataset::FromHandle(handle), GDALDatasetUniquePtrDeleter());
}

[[noreturn]] void fail(const ElevationSpec& spec, const std::string& what) {
    throw InputError(fmt::format("elevation ({}): {}.", printable_source(spec.file), what));
}

Dataset open_raster(const ElevationSpec& spec) {
    if (const std::string why = spec.path.empty() ? "" : why_absent(spec.path); !why.empty()) {
        fail(spec, why);
    }
    const GdalMessages messages;
    Dataset raster = opened_by_gdal(spec.path, spec.file, spec.open_options, DatasetKind::raster);
    if (const std::string why = raster ? "" : why_not_opened(spec.path, messages); !why.empty()) {
        fail(spec, why);
    }
    if (!raster) {
        std::error_code error;
        fail(spec, (std::filesystem::is_directory(spec.path, error)
                        ? "this is a folder, and one raster is read; make its tiles one by "
                          "`gdalbuildvrt ground.vrt FOLDER/*.tif` and name ground.vrt"
                        : "this is no raster that can be read") +
                       messages.said());
    }
    if (spec.band > raster->GetRasterCount()) {
        fail(spec, fmt::format("there is no band {}; the raster has {}", spec.band,
                               raster->GetRasterCount()));
    }
    return raster;
}

Crs raster_crs(const ElevationSpec& spec, GDALDataset& raster) {
    const Crs crs =
        spec.crs.empty() ? crs_from_layer(raster.GetSpatialRef()) : crs_from_text(spec.crs);
    if (!crs) {
        fail(spec, "the raster names no coordinate system; add crs = \"EPSG:...\" to [elevation]");
    }
    return crs;
}

// Metres of one step of the heights.
double height_unit(const ElevationSpec& spec, GDALRasterBand& band) {
    const std::string said = spec.elevation_unit.empty() ? band.GetUnitType() : spec.elevation_unit;
    const std::optional<double> unit = metres_of_height_unit(said);
    if (!unit) {
        fail(spec, said.empty() ? std::string("the band names no unit for its heights; add "
                                              "elevation_unit = \"ft\" or \"m\" to [elevation]")
                                : fmt::format("the band's unit \"{}\" is not known; add "
                                              "elevation_unit = \"ft\" or \"m\" to [elevation]",
                                              lower_case(said)));
    }
    return *unit;
}

// The raster under the working CRS, not drawn yet: its box and resolution.
struct Frame {
    Box box;  // in the units of the working CRS
    double cell = 0.0;
};

Frame frame_of(const ElevationSpec& spec, GDALDataset& raster, const Crs& from, const Crs& to) {
    const GdalMessages messages;
    const std::string from_wkt = wkt_of(from);
    const std::string to_wkt = wkt_of(to);
    const Dataset drawn =
        owned(GDALAutoCreateWarpedVRT(GDALDataset::ToHandle(&raster), from_wkt.c_str(),
                                      to_wkt.c_str(), GRA_Bilinear, 0.0, nullptr));
    std::array<double, 6> place{};
    if (!drawn || drawn->GetGeoTransform(place.data()) != CE_None) {
        fail(spec, "the raster cannot be drawn in the working CRS" + messages.said());
    }
    Frame frame;
    frame.cell = std::abs(place[1]);
    frame.box.include({place[0], place[3]});
    frame.box.include({place[0] + place[1] * drawn->GetRasterXSize(),
                       place[3] + place[5] * drawn->GetRasterYSize()});
    return frame;
}

Box common(const Box& a, const Box& b) {
    return {{std::max(a.low.x, b.low.x), std::max(a.low.y, b.low.y)},
            {std::min(a.high.x, b.high.x), std::min(a.high.y, b.high.y)}};
}

// The part that is drawn: where raster and district meet, in whole cells, coarser where they are
// too many.
Frame wanted_part(const ElevationSpec& spec, const Frame& raster, const Box& district) {
    Box box = common(raster.box,
                     {{district.low.x - 2.0 * raster.cell, district.low.y - 2.0 * raster.cell},
                      {district.high.x + 2.0 * raster.cell, district.high.y + 2.0 * raster.cell}});
    if (box.low.x >= box.high.x || box.low.y >= box.high.y) {
        fail(spec,
             fmt::format(
                 "the raster lies off the district: it covers {} of the working CRS, the district "
                 "{}; correct its crs in [elevation]",
                 printed(CrsExtent{raster.box.low.x, raster.box.low.y, raster.box.high.x,
                                   raster.box.high.y}),
                 printed(
                     CrsExtent{district.low.x, district.low.y, district.high.x, district.high.y})));
    }
    const double side = std::max(box.high.x - box.low.x, box.high.y - box.low.y);
    const double cell = std::max(raster.cell, side / most_cells_a_side);
    box.high.x = box.low.x + cell * std::max(1.0, std::round((box.high.x - box.low.x) / cell));
    box.low.y = box.high.y - cell * std::max(1.0, std::round((box.high.y - box.low.y) / cell));
    return {box, cell};
}

Dataset drawn_part(const ElevationSpec& spec, GDALDataset& raster, const Crs& from, const Crs& to,
                   const Frame& part) {
    CPLStringList arguments;
    for (const std::string& argument : {std::string("-of"),
                                        std::string("MEM"),
                                        std::string("-ot"),
                                        std::string("Float32"),
                                        std::string("-r"),
                                        std::string("bilinear"),
                                        std::string("-dstnodata"),
                                        std::string("nan"),
                                        std::string("-novshift"),
                                        std::string("-s_srs"),
                                        wkt_of(from),
                                        std::string("-t_srs"),
                                        wkt_of(to),
                                        std::string("-te"),
                                        fmt::format("{}", part.box.low.x),
                                        fmt::format("{}", part.box.low.y),
                                        fmt::format("{}", part.box.high.x),
                                        fmt::format("{}", part.box.high.y),
                                        std::string("-tr"),
                                        fmt::format("{}", part.cell),
                                        fmt::format("{}", part.cell)}) {
        arguments.AddString(argument.c_str());
    }
    const GdalMessages messages;
    const std::unique_ptr<GDALWarpAppOptions, decltype(&GDALWarpAppOptionsFree)> options(
        GDALWarpAppOptionsNew(arguments.List(), nullptr), &GDALWarpAppOptionsFree);
    GDALDatasetH source = GDALDataset::ToHandle(&raster);
    Dataset drawn = owned(GDALWarp("", nullptr, 1, &source, options.get(), nullptr));
    if (!drawn) {
        fail(spec, "the raster cannot be drawn in the working CRS" + messages.said());
    }
    return drawn;
}

ElevationGrid grid_of(const ElevationSpec& spec, GDALDataset& drawn, const Frame& part,
                      double metres_per_unit) {
    const GdalMessages messages;
    ElevationGrid grid;
    grid.columns = static_cast<std::size_t>(drawn.GetRasterXSize());
    grid.rows = static_cast<std::size_t>(drawn.GetRasterYSize());
    grid.cell = part.cell * metres_per_unit;
    grid.north_west = {(part.box.low.x + part.cell / 2.0) * metres_per_unit,
                       (part.box.high.y - part.cell / 2.0) * metres_per_unit};
    grid.metres.resize(grid.columns * grid.rows);
    const int columns = drawn.GetRasterXSize();
    const int rows = drawn.GetRasterYSize();
    if (drawn.GetRasterBand(spec.band)->RasterIO(GF_Read, 0, 0, columns, rows, grid.metres.data(),
                                                 columns, rows, GDT_Float32, 0, 0,
                                                 nullptr) != CE_None) {
        fail(spec, "the raster cannot be read" + messages.said());
    }
    return grid;
}

}  // namespace

std::optional<double> metres_of_height_unit(std::string_view unit) {
    const std::string said = lower_case(unit);
    if (said == "m" || said == "metre" || said == "meter" || said == "metres" || said == "meters") {
        return 1.0;
    }
    if (said == "ft" || said == "foot" || said == "feet" || said == "international foot") {
        return metres_per_foot;
    }
    if (said == "us survey foot" || said == "us_survey_foot" || said == "ftus" || said == "us-ft" ||
        said == "foot_us") {
        return metres_per_us_survey_foot;
    }
    return std::nullopt;
}

ElevationRead read_elevation(const ElevationSpec& spec, const WorkingCrs& crs,
                             const Box& district) {
    prepare_gdal();
    const Dataset raster = open_raster(spec);
    GDALRasterBand& band = *raster->GetRasterBand(spec.band);
    const Crs from = raster_crs(spec, *raster);
    const Crs to = crs_of(crs);
    const double unit = height_unit(spec, band) * band.GetScale();
    const double offset = height_unit(spec, band) * band.GetOffset();
    const Box units{{district.low.x / crs.metres_per_unit, district.low.y / crs.metres_per_unit},
                    {district.high.x / crs.metres_per_unit, district.high.y / crs.metres_per_unit}};
    const Frame part = wanted_part(spec, frame_of(spec, *raster, from, to), units);
    const Dataset drawn = drawn_part(spec, *raster, from, to, part);
    ElevationRead read{grid_of(spec, *drawn, part, crs.metres_per_unit),
                       files_of(spec.path, *raster)};
    for (float& height : read.grid.metres) {
        height = static_cast<float>(static_cast<double>(height) * unit + offset);
    }
    return read;
}

}  // namespace farwater::io
