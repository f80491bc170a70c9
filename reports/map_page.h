// report.html: one page with the map, the numbers and what they rest on, that opens from disk.
#pragma once

#include <functional>
#include <string_view>

#include "reports/findings.h"
#include "reports/layers.h"
#include "reports/page/page_shapes.h"
#include "reports/zones.h"

namespace farwater::reports {

// Above it the page draws a point per parcel and says so, and that there are no zones.
inline constexpr std::size_t most_parcels_as_areas = most_parcels_in_zones;

// Only a view: all must outlive it.
struct MapPage {
    const Findings& findings;
    const RunRecord& record;
    PageGrid grid;
    const PackedShapes* areas;  // a row per parcel; null: the page draws points
    std::function<std::string_view(std::size_t parcel)> address;
};

// Gives the page to `sink` piece by piece. Text of the data stands in it as base64 or escaped, so
// that none of it is ever read as HTML or script; a policy allows the page's own script and style
// alone, by their hashes, and no request. The same bytes for the same findings.
// O(parcels + vertices); holds one packed table at a time.
void write_map_page(const MapPage& page, const std::function<void(std::string_view)>& sink);

}  // namespace farwater::reports
