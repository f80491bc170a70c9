// Shapes of GDAL as plain coordinates. Heights and measures are left out, curves become lines.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "analyzer/district/plane.h"
#include "analyzer/geometry/polygon.h"

class OGRGeometry;

namespace farwater::io {

// None where the shape is of another kind. Preconditions: not empty.
std::optional<std::vector<Polyline>> lines_of(const OGRGeometry& shape);  // line or lines
std::optional<MultiPolygon> polygons_of(const OGRGeometry& shape);        // polygon or polygons
std::optional<Point> point_of(const OGRGeometry& shape);                  // point, or list of one

std::string kind_of_shape(const OGRGeometry& shape);  // "POINT"

// Little-endian WKB (OGC 06-103r4): a polygon where there is one, else a multipolygon.
std::vector<unsigned char> wkb_of(const MultiPolygon& shape);

}  // namespace farwater::io
