// Marks on a card's map: houses, stations, water, fill sites and the dump site.
#pragma once

#include "reports/cards/site_map.h"
#include "reports/print/map_names.h"
#include "reports/print/map_placing.h"
#include "reports/print/page_canvas.h"

namespace farwater::reports {

// With their names: right of the mark, else left, above or below. Fill sites that would lie on the
// dump site or on another one step aside. What lies outside of the frame is left out.
void draw_marks(PageCanvas& canvas, MapNames& names, const SiteMap& map, const MapPlacing& place,
                const Rect& rect);

}  // namespace farwater::reports
