// Ground elevation from a raster.
#pragma once

#include <filesystem>
#include <optional>
#include <string_view>
#include <vector>

#include "analyzer/district/elevation.h"
#include "analyzer/district/plane.h"
#include "io/crs.h"
#include "io/district_file.h"

namespace farwater::io {

// Metres of one step of heights in this unit, as bands and district files spell it in any case;
// none for one that is not known.
std::optional<double> metres_of_height_unit(std::string_view unit);

struct ElevationRead {
    ElevationGrid grid;
    std::vector<std::filesystem::path> files;
};

// The raster inside `district` (the box of everything that was read), drawn into the working plane
// by bilinear interpolation, with square cells of about its own resolution, at most 4096 x 4096 of
// them. The unit is elevation_unit, else what the band says. Throws InputError: no file, no raster,
// no such band, no CRS, no unit, no overlap with the district.
ElevationRead read_elevation(const ElevationSpec& spec, const WorkingCrs& crs, const Box& district);

}  // namespace farwater::io
