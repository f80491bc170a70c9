// Our configuration of GDAL's OpenStreetMap driver, which hides most tags without one.
#pragma once

#include <span>
#include <string>
#include <string_view>

namespace farwater::io {

// The tags of ways that become columns of the driver's layer "lines".
std::span<const std::string_view> osm_line_tags();

// Where GDAL finds it, in memory: it is part of the program, so that the program's version stands
// for it in the record of a run. Written at the first call.
const std::string& osm_config_file();

}  // namespace farwater::io
