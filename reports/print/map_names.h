// Names on a map, beside their things.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "reports/print/map_placing.h"
#include "reports/print/page_canvas.h"

namespace farwater::reports {

inline constexpr double map_name_size = 6.3;

// One that would cover another or leave the frame is left out.
class MapNames {
public:
    enum class Ground : std::uint8_t { plate, edge };  // white below the name, or round its letters

    MapNames(PageCanvas& canvas, const Rect& frame, Ground ground = Ground::plate)
        : canvas_(canvas), frame_(frame), ground_(ground) {}

    void keep_free(const Rect& rect) { taken_.push_back(rect); }
    // Whether it lies in the frame and on nothing that stands there or is kept free. O(names).
    bool is_free(const Rect& rect) const;
    // Whether it was drawn. O(names).
    bool place(Point middle, const std::string& name, const TextLook& look, double angle);
    // Right of a mark of that radius, else left, above or below.
    bool place_beside(Point mark, double radius, const std::string& name, const TextLook& look);

private:
    PageCanvas& canvas_;
    Rect frame_;
    Ground ground_;
    std::vector<Rect> taken_;
};

struct NamedLine {
    const Polyline& line;  // of the working plane
    std::string name;
};

struct RoadNameLook {
    double size = map_name_size;
    double aside = 0.0;        // beside the road where there is no room on it
    double again_after = 1e9;  // from where it stands already, in points
};

// Each name along its longest straight stretches, the longest first.
void draw_road_names(PageCanvas& canvas, MapNames& names, const std::vector<NamedLine>& lines,
                     const MapPlacing& place, const Rect& rect, const RoadNameLook& look = {});

}  // namespace farwater::reports
