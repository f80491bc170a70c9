// Shapes as the bytes that a GeoPackage keeps them in (OGC 12-128, clause 2.1.3): a header with the
// box around the shape, then ISO WKB, both little endian. The same bytes that GDAL writes.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "analyzer/district/plane.h"

class OGRGeometry;

namespace farwater::io {

struct ShapeBox {
    double min_x = 0.0, max_x = 0.0, min_y = 0.0, max_y = 0.0;
};

struct ShapeBlob {
    std::span<const unsigned char> bytes;  // valid until the next call of the writer
    std::optional<ShapeBox> box;           // none round an empty shape
};

// A shape that went from one GeoPackage to the other.
struct CopiedShape {
    ShapeBlob blob;
    int type = 0;  // GDAL's OGRwkbGeometryType
};

// One shape after another; the memory is used again.
class GeoPackageBlobWriter {
public:
    explicit GeoPackageBlobWriter(std::int32_t srs_id) : srs_id_(srs_id) {}
    ShapeBlob operator()(const OGRGeometry& shape);

    // The same bytes without making an object of the shape. None where it takes one: shapes that
    // are empty, have heights, measures or curves, are collections of different kinds, big endian
    // or damaged. Where `rings` is given, those of an area are added to it, in the shape's units.
    // O(bytes).
    std::optional<CopiedShape> copy(std::span<const unsigned char> blob,
                                    std::vector<Polyline>* rings = nullptr);

private:
    void write_header(const OGRGeometry& shape, const std::optional<ShapeBox>& box);
    void begin_header(unsigned flags);
    void write_box(const ShapeBox& box);
    template <class Number>
    void append(Number number);

    std::int32_t srs_id_;
    std::vector<unsigned char> bytes_;
};

}  // namespace farwater::io
