// Shapes as the bytes that a GeoPackage keeps them in (OGC 12-128, clause 2.1.3): a header with the
// box around the shape, then ISO WKB, both little endian. The same bytes that GDAL writes.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

class OGRGeometry;

namespace farwater::io {

struct ShapeBox {
    double min_x = 0.0, max_x = 0.0, min_y = 0.0, max_y = 0.0;
};

struct ShapeBlob {
    std::span<const unsigned char> bytes;  // valid until the next call of the writer
    std::optional<ShapeBox> box;           // none round an empty shape
};

// One shape after another; the memory is used again.
class GeoPackageBlobWriter {
public:
    explicit GeoPackageBlobWriter(std::int32_t srs_id) : srs_id_(srs_id) {}
    ShapeBlob operator()(const OGRGeometry& shape);

private:
    void write_header(const OGRGeometry& shape, const std::optional<ShapeBox>& box);
    template <class Number>
    void append(Number number);

    std::int32_t srs_id_;
    std::vector<unsigned char> bytes_;
};

}  // namespace farwater::io
