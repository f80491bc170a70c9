#include "io/records/shape.h"

#include <bit>
#include <cstdint>
#include <memory>

#include <ogr_geometry.h>

namespace farwater::io {
namespace {

Polyline line_of(const OGRSimpleCurve& curve) {
    static_assert(sizeof(OGRRawPoint) == sizeof(Point));
    std::vector<OGRRawPoint> vertices(static_cast<std::size_t>(curve.getNumPoints()));
    curve.getPoints(vertices.data());
    Polyline line;
    line.reserve(vertices.size());
    for (const OGRRawPoint& vertex : vertices) {
        line.push_back({vertex.x, vertex.y});
    }
    return line;
}

Polygon polygon_of(const OGRPolygon& polygon) {
    Polygon result;
    if (polygon.getExteriorRing() != nullptr) {
        result.shell = line_of(*polygon.getExteriorRing());
    }
    for (int i = 0; i < polygon.getNumInteriorRings(); ++i) {
        result.holes.push_back(line_of(*polygon.getInteriorRing(i)));
    }
    return result;
}

// The shape, or its parts where it is a collection.
std::vector<const OGRGeometry*> parts_of(const OGRGeometry& shape) {
    if (!OGR_GT_IsSubClassOf(wkbFlatten(shape.getGeometryType()), wkbGeometryCollection)) {
        return {&shape};
    }
    std::vector<const OGRGeometry*> parts;
    for (const OGRGeometry* part : *shape.toGeometryCollection()) {
        if (part->IsEmpty() == 0) {
            parts.push_back(part);
        }
    }
    return parts;
}

// Calls `take` with the shape itself, or with one without curves.
template <class Take>
auto without_curves(const OGRGeometry& shape, const Take& take) {
    if (shape.hasCurveGeometry() == 0) {
        return take(shape);
    }
    const std::unique_ptr<OGRGeometry> straight(shape.getLinearGeometry());
    return take(*straight);
}

bool is_kind(const OGRGeometry& shape, OGRwkbGeometryType kind) {
    return wkbFlatten(shape.getGeometryType()) == kind;
}

class WkbWriter {
public:
    void open(std::uint32_t type) {
        bytes_.push_back(1);
        count(type);
    }
    void count(std::size_t value) { append(static_cast<std::uint32_t>(value)); }
    void ring(const Polyline& ring) {
        count(ring.size());
        for (const Point p : ring) {
            append(std::bit_cast<std::uint64_t>(p.x));
            append(std::bit_cast<std::uint64_t>(p.y));
        }
    }
    std::vector<unsigned char> take() { return std::move(bytes_); }

private:
    template <class Unsigned>
    void append(Unsigned value) {
        for (std::size_t i = 0; i < sizeof(value); ++i) {
            bytes_.push_back(static_cast<unsigned char>(value >> (8U * i)));
        }
    }
    std::vector<unsigned char> bytes_;
};

void write_polygon(WkbWriter& writer, const Polygon& polygon) {
    writer.open(3);
    writer.count(1 + polygon.holes.size());
    writer.ring(polygon.shell);
    for (const Polyline& hole : polygon.holes) {
        writer.ring(hole);
    }
}

}  // namespace

std::optional<std::vector<Polyline>> lines_of(const OGRGeometry& shape) {
    return without_curves(shape,
                          [](const OGRGeometry& straight) -> std::optional<std::vector<Polyline>> {
                              std::vector<Polyline> lines;
                              for (const OGRGeometry* part : parts_of(straight)) {
                                  if (!is_kind(*part, wkbLineString)) {
                                      return std::nullopt;
                                  }
                                  lines.push_back(line_of(*part->toLineString()));
                              }
                              return lines;
                          });
}

std::optional<MultiPolygon> polygons_of(const OGRGeometry& shape) {
    return without_curves(shape, [](const OGRGeometry& straight) -> std::optional<MultiPolygon> {
        MultiPolygon polygons;
        for (const OGRGeometry* part : parts_of(straight)) {
            if (!OGR_GT_IsSubClassOf(wkbFlatten(part->getGeometryType()), wkbPolygon)) {
                return std::nullopt;
            }
            polygons.push_back(polygon_of(*part->toPolygon()));
        }
        return polygons;
    });
}

std::optional<Point> point_of(const OGRGeometry& shape) {
    const std::vector<const OGRGeometry*> parts = parts_of(shape);
    if (parts.size() != 1 || !is_kind(*parts.front(), wkbPoint)) {
        return std::nullopt;
    }
    const OGRPoint& point = *parts.front()->toPoint();
    return Point{point.getX(), point.getY()};
}

std::string kind_of_shape(const OGRGeometry& shape) { return shape.getGeometryName(); }

std::vector<unsigned char> wkb_of(const MultiPolygon& shape) {
    WkbWriter writer;
    if (shape.size() != 1) {
        writer.open(6);
        writer.count(shape.size());
    }
    for (const Polygon& polygon : shape) {
        write_polygon(writer, polygon);
    }
    return writer.take();
}

}  // namespace farwater::io
