#include "reports/print/map_placing.h"

#include "reports/page/page_shapes.h"

namespace farwater::reports {

Polyline on_page(const Polyline& line, const MapPlacing& place) {
    Polyline points;
    for (const Point& point : simplified(line, 0.4 / place.points_per_metre())) {
        points.push_back(place(point));
    }
    return points;
}

bool inside_frame(const Rect& frame, Point p, double margin) {
    return p.x > frame.left + margin && p.x < frame.right() - margin && p.y > frame.top + margin &&
           p.y < frame.bottom() - margin;
}

}  // namespace farwater::reports
