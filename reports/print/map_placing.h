// Where things of the working plane come to lie on a map.
#pragma once

#include <algorithm>

#include "analyzer/district/plane.h"
#include "reports/print/page_canvas.h"

namespace farwater::reports {

// From the working plane into the rectangle: north up, one scale, the box in the middle.
class MapPlacing {
public:
    MapPlacing(const Box& box, const Rect& rect)
        : scale_(std::min(rect.width / (box.high.x - box.low.x),
                          rect.height / (box.high.y - box.low.y))),
          middle_{(box.low.x + box.high.x) / 2.0, (box.low.y + box.high.y) / 2.0},
          centre_{rect.left + rect.width / 2.0, rect.top + rect.height / 2.0} {}
    Point operator()(Point p) const {
        return {centre_.x + (p.x - middle_.x) * scale_, centre_.y - (p.y - middle_.y) * scale_};
    }
    double points_per_metre() const { return scale_; }

private:
    double scale_;
    Point middle_, centre_;
};

// The line in points of the page, without what is too small to see.
Polyline on_page(const Polyline& line, const MapPlacing& place);

// At least `margin` points inside.
bool inside_frame(const Rect& frame, Point p, double margin);

}  // namespace farwater::reports
