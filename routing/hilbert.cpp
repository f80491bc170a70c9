#include "routing/hilbert.h"

#include <algorithm>
#include <tuple>
#include <utility>

namespace farwater::routing {
namespace {

std::uint16_t cell(double value, double low, double high) {
    const double share = high > low ? (value - low) / (high - low) : 0.0;
    return static_cast<std::uint16_t>(std::clamp(share, 0.0, 1.0) * 65535.0);
}

// Key above, position below: one number to sort by.
std::vector<std::uint64_t> keyed_positions(std::span<const Point> points) {
    Box box;
    for (const Point& point : points) {
        box.include(point);
    }
    std::vector<std::uint64_t> keyed(points.size());
    for (std::size_t i = 0; i < points.size(); ++i) {
        const std::uint32_t key = hilbert_key(cell(points[i].x, box.low.x, box.high.x),
                                              cell(points[i].y, box.low.y, box.high.y));
        keyed[i] = (std::uint64_t{key} << 32U) | i;
    }
    return keyed;
}

}  // namespace

std::uint32_t hilbert_key(std::uint16_t x, std::uint16_t y) {
    std::uint32_t column = x;
    std::uint32_t row = y;
    std::uint32_t key = 0;
    for (std::uint32_t half = 1U << 15U; half > 0; half >>= 1U) {
        const std::uint32_t right = (column & half) != 0 ? 1 : 0;
        const std::uint32_t upper = (row & half) != 0 ? 1 : 0;
        key += half * half * ((3 * right) ^ upper);
        if (upper == 0) {  // turn the quadrant so that the curve goes on where it left
            if (right == 1) {
                column = 65535U - column;
                row = 65535U - row;
            }
            std::swap(column, row);
        }
    }
    return key;
}

std::vector<std::uint32_t> spatial_order(std::span<const Point> points) {
    std::vector<std::uint64_t> keyed = keyed_positions(points);
    std::sort(keyed.begin(), keyed.end(), [&](std::uint64_t a, std::uint64_t b) {
        if ((a >> 32U) != (b >> 32U)) {
            return a < b;
        }
        const auto i = static_cast<std::uint32_t>(a);
        const auto j = static_cast<std::uint32_t>(b);
        return std::tie(points[i], i) < std::tie(points[j], j);
    });
    std::vector<std::uint32_t> order(points.size());
    std::transform(keyed.begin(), keyed.end(), order.begin(),
                   [](std::uint64_t value) { return static_cast<std::uint32_t>(value); });
    return order;
}

}  // namespace farwater::routing
