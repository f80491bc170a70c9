// Draws a card's map: the same strokes for the printed page and for the picture in the HTML.
#pragma once

#include <string>

#include "reports/cards/site_map.h"
#include "reports/print/page_canvas.h"

namespace farwater::reports {

// Into the rectangle, framed, under a band with title, scale bar and north arrow. Names that would
// cover one another are left out. O(vertices + names^2).
void draw_map(PageCanvas& canvas, const SiteMap& map, const Rect& whole);

// The map as a picture of its own (PNG, greys), map_size large, two dots to the point.
std::string map_picture(const SiteMap& map);

}  // namespace farwater::reports
