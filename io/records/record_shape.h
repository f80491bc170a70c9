// The shape of a record in the working plane, checked and mended.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "analyzer/district/plane.h"
#include "analyzer/geometry/polygon.h"
#include "io/crs.h"
#include "io/records/layer_source.h"
#include "io/records/record.h"

namespace farwater::io {

struct AreaShape {
    Point inside;                          // of the shape, in the working plane
    MultiPolygon shape;                    // in the working plane
    std::optional<MultiPolygon> repaired;  // in the layer's own coordinates, where it was mended
};

struct PlaceShape {
    Point place;
    double area_m2 = 0.0;  // 0 for a point
    MultiPolygon shape;    // in the working plane; empty for a point
};

// Reads the shapes of one layer. What comes back empty was reported as a problem that sets the
// record aside. Not for two threads at once.
class ShapeReader {
public:
    // Shapes that do not touch `reach`, the land around the parcels, are no part of the district;
    // an empty box lets everything through.
    ShapeReader(const LayerSource& source, const WorkingCrs& working, const Box& parcels);

    // Parts of two different points or more, none with a step that no road has.
    std::vector<Polyline> lines(Record& record) const;
    std::optional<AreaShape> area(Record& record) const;
    // Of a polygon that encloses nothing the first corner.
    std::optional<PlaceShape> place(Record& record) const;

private:
    const OGRGeometry* shape_of(Record& record) const;
    std::optional<MultiPolygon> polygons_in(Record& record) const;  // as they are
    std::optional<AreaShape> in_plane(Record& record, AreaShape area) const;
    std::optional<PlaceShape> place_of_point(Record& record, Point point) const;
    std::optional<PlaceShape> place_of_columns(Record& record) const;
    std::string slip_of(Point point) const;  // of its coordinates; empty where none is likely
    std::optional<PlaceShape> place_of_area(Record& record) const;
    bool to_plane(MultiPolygon& shape) const;
    bool to_plane(Record& record, Polyline& line) const;  // false: reported
    bool in_reach(const Box& box) const;
    bool in_reach(Record& record, const Box& box, const std::string& slip) const;

    ToPlane to_plane_;
    Box parcels_;
    Box reach_;
    bool by_columns_;  // records without a shape may tell their place by x and y
    std::string section_;
};

// Throws InputError, with both extents, when `extent` (of a layer, not empty) lies more
// than a kilometre off the parcels' box.
void check_on_parcels(const LayerSpec& spec, const Box& extent, const Box& parcels);

// "x 10 to 20, y 30 to 40".
std::string printed(const Box& box);

}  // namespace farwater::io
