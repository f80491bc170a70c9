// Places for phones and navigation devices: GPX 1.1 (topografix.com, its schema of 2004) and
// KML 2.2 (OGC 07-147r2).
#pragma once

#include <filesystem>
#include <string>

#include "io/crs.h"
#include "io/feature_table.h"

namespace farwater::io {

struct PlacesHead {
    std::string district;
    std::string creator;    // the program and its version
    std::string data_time;  // "2026-05-31T00:00:00.000Z": of the data, never of the clock
    std::string origin;     // where the places come from, without a full stop
};

// `places`: points whose first four columns are text: group, name, note, kind. Text is escaped,
// whatever it holds; longitude and latitude are WGS 84 with seven decimals, about half an inch.
// KML has a folder for each group, in the order of their first places. Nothing in either file
// leads to the network. The same bytes for the same table. Throws OutputError, also where the
// working CRS has no way to longitude and latitude. O(places), for KML times the groups; holds one
// place at a time.
void write_gpx(const std::filesystem::path& file, const WorkingCrs& crs, const PlacesHead& head,
               const FeatureTable& places);
void write_kml(const std::filesystem::path& file, const WorkingCrs& crs, const PlacesHead& head,
               const FeatureTable& places);

}  // namespace farwater::io
