#include "io/inputs/osm_config.h"

#include <array>
#include <string_view>

#include <cpl_vsi.h>
#include <fmt/format.h>
#include <fmt/ranges.h>

#include "io/error.h"

namespace farwater::io {
namespace {

using namespace std::string_view_literals;

constexpr std::array line_tags{
    "name"sv,   "ref"sv,      "highway"sv, "service"sv,  "surface"sv,   "tracktype"sv,
    "oneway"sv, "junction"sv, "access"sv,  "vehicle"sv,  "bridge"sv,    "motor_vehicle"sv,
    "tunnel"sv, "layer"sv,    "width"sv,   "maxspeed"sv, "maxheight"sv, "maxweight"sv};

// A closed way is a line: most such roads are loops. One with area=yes is a polygon all the same.
std::string config_text() {
    return fmt::format(
        "closed_ways_are_polygons=building\n"
        "[points]\nosm_id=yes\nattributes=name\nother_tags=no\n"
        "[lines]\nosm_id=yes\nattributes={}\nother_tags=no\n"
        "[multipolygons]\nosm_id=yes\nattributes=name,building\nother_tags=no\n"
        "[multilinestrings]\nosm_id=yes\nattributes=name\nother_tags=no\n"
        "[other_relations]\nosm_id=yes\nattributes=name\nother_tags=no\n",
        fmt::join(line_tags, ","));
}

}  // namespace

std::string osm_config_file() {
    const std::string name = "/vsimem/farwater/osmconf.ini";
    const std::string text = config_text();
    VSILFILE* file = VSIFOpenL(name.c_str(), "wb");
    const bool written =
        file != nullptr && VSIFWriteL(text.data(), 1, text.size(), file) == text.size();
    if (file != nullptr) {
        VSIFCloseL(file);
    }
    if (!written) {
        throw InputError(name +
                         ": GDAL's memory takes no file; OpenStreetMap roads would lose "
                         "most of their tags.");
    }
    return name;
}

}  // namespace farwater::io
