// Names on a card's map, beside their things.
#pragma once

#include <string>
#include <vector>

#include "reports/cards/map_placing.h"
#include "reports/cards/site_map.h"
#include "reports/print/page_canvas.h"

namespace farwater::reports {

inline constexpr double map_name_size = 6.3;

// One that would cover another or leave the frame is left out.
class MapNames {
public:
    MapNames(PageCanvas& canvas, const Rect& frame) : canvas_(canvas), frame_(frame) {}

    void keep_free(const Rect& rect) { taken_.push_back(rect); }
    // Whether it was drawn. O(names).
    bool place(Point middle, const std::string& name, const TextLook& look, double angle);

private:
    PageCanvas& canvas_;
    Rect frame_;
    std::vector<Rect> taken_;
};

// Each road's name once, along its longest straight stretch; the longest first.
void draw_road_names(PageCanvas& canvas, MapNames& names, const SiteMap& map,
                     const MapPlacing& place, const Rect& rect);

}  // namespace farwater::reports
