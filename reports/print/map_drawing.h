// What maps of a district share, as things of a drawing.
#pragma once

#include <initializer_list>
#include <string>
#include <vector>

#include "analyzer/district/district.h"
#include "reports/print/drawing.h"
#include "reports/text/svg.h"

namespace farwater::reports {

inline constexpr Ink map_ink = Ink::rgb(0x222222);
inline constexpr Ink water_ink = Ink::rgb(0x1f78b4);

// A closed path of corners round a point.
Drawing::Path outline_of(Point middle, std::initializer_list<Point> corners);

// What a map that is twice as wide as high shows of the box: no less than `least_across` metres; an
// empty one is round the plane's origin.
Box widened(Box box, double least_across);
bool is_inside(Point p, const Box& box);  // borders count

// Those that come near the box, as thin lines. O(vertices).
void add_roads(Drawing& map, const District& district, const PageFit& fit, const Box& box);
void add_road(Drawing& map, const Polyline& line, const PageFit& fit, const Box& box);

void mark_station(Drawing& map, Point at);
void mark_source(Drawing& map, bool filled, Point at);

// Words beside places; those that would cover earlier ones are left out.
class MapLabels {
public:
    void add_to(Drawing& map, Point at_page, const std::string& text);

private:
    std::vector<Box> taken_;
};

// One row below the other, each a sign and what it means.
class MapKey {
public:
    MapKey(Drawing& map, Point top_left) : map_(map), left_(top_left.x), y_(top_left.y) {}

    void title(const std::string& text);
    Point row(const std::string& text);  // where the row's sign belongs

private:
    Drawing& map_;
    double left_, y_;
};

// A bar of whole miles or a part of one, at most 170 units long, and an arrow to the north above
// it: 77 units high from there.
void add_miles_bar(Drawing& map, const PageFit& fit, Point top_left);

}  // namespace farwater::reports
