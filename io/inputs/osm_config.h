// Our configuration of GDAL's OpenStreetMap driver, which hides most tags without one.
#pragma once

#include <string>

namespace farwater::io {

// Where GDAL finds it, in memory: it is part of the program, so that the program's version stands
// for it in the record of a run. Written anew at each call. Throws InputError where it cannot be.
std::string osm_config_file();

}  // namespace farwater::io
