#include "io/geopackage_blob.h"

#include <bit>
#include <cstddef>

#include <ogr_geometry.h>

namespace farwater::io {

namespace {

// Bits of the header's flags.
constexpr unsigned little_endian = 1;
constexpr unsigned box_of_xy = 1U << 1U;
constexpr unsigned box_of_xyz = 2U << 1U;
constexpr unsigned empty_shape = 1U << 4U;

std::optional<ShapeBox> box_of(const OGRGeometry& shape) {
    if (shape.IsEmpty() != 0) {
        return std::nullopt;
    }
    OGREnvelope box;
    shape.getEnvelope(&box);
    return ShapeBox{box.MinX, box.MaxX, box.MinY, box.MaxY};
}

unsigned flags_of(const OGRGeometry& shape, bool has_box) {
    if (!has_box) {
        return little_endian | empty_shape;
    }
    if (wkbFlatten(shape.getGeometryType()) == wkbPoint) {
        return little_endian;  // a point is its own box
    }
    return little_endian | (shape.Is3D() != 0 ? box_of_xyz : box_of_xy);
}

}  // namespace

template <class Number>
void GeoPackageBlobWriter::append(Number number) {
    for (std::size_t i = 0; i < sizeof(number); ++i) {
        bytes_.push_back(static_cast<unsigned char>(number >> (8U * i)));
    }
}

void GeoPackageBlobWriter::write_header(const OGRGeometry& shape,
                                        const std::optional<ShapeBox>& box) {
    const auto side = [this](double value) { append(std::bit_cast<std::uint64_t>(value)); };
    const unsigned flags = flags_of(shape, box.has_value());
    bytes_.assign({'G', 'P', 0, static_cast<unsigned char>(flags)});
    append(static_cast<std::uint32_t>(srs_id_));
    if ((flags & (box_of_xy | box_of_xyz)) != 0) {
        side(box->min_x);
        side(box->max_x);
        side(box->min_y);
        side(box->max_y);
    }
    if ((flags & box_of_xyz) != 0) {
        OGREnvelope3D heights;
        shape.getEnvelope(&heights);
        side(heights.MinZ);
        side(heights.MaxZ);
    }
}

ShapeBlob GeoPackageBlobWriter::operator()(const OGRGeometry& shape) {
    const std::optional<ShapeBox> box = box_of(shape);
    write_header(shape, box);
    const std::size_t header = bytes_.size();
    bytes_.resize(header + shape.WkbSize());
    shape.exportToWkb(wkbNDR, bytes_.data() + header, wkbVariantIso);
    return {bytes_, box};
}

}  // namespace farwater::io
