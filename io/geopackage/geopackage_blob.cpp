#include "io/geopackage/geopackage_blob.h"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <cstddef>
#include <cstring>
#include <limits>

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

// The bytes of the header where it is little endian, of version 0, and of a shape that is neither
// empty nor of a kind of its own; else 0. OGC 12-128, clause 2.1.3.1.1.
std::size_t header_of_plain(std::span<const unsigned char> blob) {
    constexpr std::array<std::size_t, 5> box_bytes{0, 32, 48, 48, 64};
    constexpr unsigned own_kind = 1U << 5U;
    if (blob.size() < 8 || blob[0] != 'G' || blob[1] != 'P' || blob[2] != 0) {
        return 0;
    }
    const unsigned flags = blob[3];
    const unsigned box = (flags >> 1U) & 7U;
    const bool plain = (flags & little_endian) != 0 && (flags & (empty_shape | own_kind)) == 0;
    return plain && box < box_bytes.size() ? 8 + box_bytes[box] : 0;
}

// Little endian well-known binary of the six simple kinds in the plane, none of whose parts is
// empty.
class PlainWkb {
public:
    explicit PlainWkb(std::span<const unsigned char> bytes, std::vector<Polyline>* rings = nullptr)
        : bytes_(bytes), rings_(rings) {}

    // False where it is anything else, or does not fill the bytes.
    bool walk() {
        type_ = static_cast<int>(kind());
        return shape(static_cast<std::uint32_t>(type_)) && at_ == bytes_.size();
    }
    int type() const { return type_; }
    const ShapeBox& box() const { return box_; }

private:
    template <class Number>
    Number number() {
        static_assert(std::endian::native == std::endian::little);
        Number value{};
        if (bytes_.size() - at_ < sizeof(value)) {
            at_ = bytes_.size();
            whole_ = false;
            return value;
        }
        std::memcpy(&value, bytes_.data() + at_, sizeof(value));
        at_ += sizeof(value);
        return value;
    }
    std::uint32_t kind() { return number<std::uint8_t>() == 1 ? number<std::uint32_t>() : 0; }

    bool shape(std::uint32_t kind) {
        switch (kind) {
            case wkbPoint:
                return points(1);
            case wkbLineString:
                return points(number<std::uint32_t>());
            case wkbPolygon:
                return parts([this] { return ring(); });
            case wkbMultiPoint:
            case wkbMultiLineString:
            case wkbMultiPolygon:
                return parts([this, of = kind - 3] { return this->kind() == of && shape(of); });
            default:
                return false;
        }
    }
    template <class Part>
    bool parts(Part part) {
        const auto count = number<std::uint32_t>();
        for (std::uint32_t i = 0; i < count; ++i) {
            if (!part()) {
                return false;
            }
        }
        return whole_ && count > 0;
    }
    bool ring() {
        const auto count = number<std::uint32_t>();
        return points(count, rings_ != nullptr ? &rings_->emplace_back() : nullptr);
    }
    bool points(std::uint32_t count, Polyline* line = nullptr) {
        if (line != nullptr) {
            line->reserve(std::min<std::size_t>(count, (bytes_.size() - at_) / point_bytes));
        }
        for (std::uint32_t i = 0; i < count && whole_; ++i) {
            const Point p{number<double>(), number<double>()};
            if (!note(p)) {
                return false;
            }
            if (line != nullptr) {
                line->push_back(p);
            }
        }
        return whole_ && count > 0;
    }
    bool note(Point p) {
        box_ = {p.x < box_.min_x ? p.x : box_.min_x, p.x > box_.max_x ? p.x : box_.max_x,
                p.y < box_.min_y ? p.y : box_.min_y, p.y > box_.max_y ? p.y : box_.max_y};
        return std::isfinite(p.x) && std::isfinite(p.y);
    }

    static constexpr std::size_t point_bytes = 2 * sizeof(double);
    static constexpr double far = std::numeric_limits<double>::infinity();
    std::span<const unsigned char> bytes_;
    std::vector<Polyline>* rings_;
    std::size_t at_ = 0;
    bool whole_ = true;
    int type_ = 0;
    ShapeBox box_{far, -far, far, -far};
};

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

void GeoPackageBlobWriter::begin_header(unsigned flags) {
    bytes_.assign({'G', 'P', 0, static_cast<unsigned char>(flags)});
    append(static_cast<std::uint32_t>(srs_id_));
}

void GeoPackageBlobWriter::write_box(const ShapeBox& box) {
    for (const double side : {box.min_x, box.max_x, box.min_y, box.max_y}) {
        append(std::bit_cast<std::uint64_t>(side));
    }
}

void GeoPackageBlobWriter::write_header(const OGRGeometry& shape,
                                        const std::optional<ShapeBox>& box) {
    const unsigned flags = flags_of(shape, box.has_value());
    begin_header(flags);
    if ((flags & (box_of_xy | box_of_xyz)) != 0) {
        write_box(*box);
    }
    if ((flags & box_of_xyz) != 0) {
        OGREnvelope3D heights;
        shape.getEnvelope(&heights);
        append(std::bit_cast<std::uint64_t>(heights.MinZ));
        append(std::bit_cast<std::uint64_t>(heights.MaxZ));
    }
}

std::optional<CopiedShape> GeoPackageBlobWriter::copy(std::span<const unsigned char> blob,
                                                      std::vector<Polyline>* rings) {
    const std::size_t header = header_of_plain(blob);
    if (header == 0) {
        return std::nullopt;
    }
    const std::span<const unsigned char> wkb = blob.subspan(header);
    PlainWkb shape(wkb, rings);
    if (!shape.walk()) {
        return std::nullopt;
    }
    const bool is_point = shape.type() == wkbPoint;
    begin_header(is_point ? little_endian : little_endian | box_of_xy);
    if (!is_point) {
        write_box(shape.box());
    }
    bytes_.insert(bytes_.end(), wkb.begin(), wkb.end());
    return CopiedShape{{bytes_, shape.box()}, shape.type()};
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
