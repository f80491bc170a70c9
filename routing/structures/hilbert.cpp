#include "routing/structures/hilbert.h"

#include <algorithm>
#include <tuple>

#include "routing/structures/keyed.h"

namespace farwater::routing {
namespace {

std::uint16_t cell(double value, double low, double high) {
    const double share = high > low ? (value - low) / (high - low) : 0.0;
    return static_cast<std::uint16_t>(std::clamp(share, 0.0, 1.0) * 65535.0);
}

std::vector<Keyed> keyed_positions(std::span<const Point> points) {
    Box box;
    for (const Point& point : points) {
        box.include(point);
    }
    std::vector<Keyed> keyed(points.size());
    for (std::size_t i = 0; i < points.size(); ++i) {
        keyed[i] = {hilbert_key(cell(points[i].x, box.low.x, box.high.x),
                                cell(points[i].y, box.low.y, box.high.y)),
                    static_cast<std::uint32_t>(i)};
    }
    return keyed;
}

}  // namespace

// Without branches: on points in no order each would be guessed wrong half of the time.
std::uint32_t hilbert_key(std::uint16_t x, std::uint16_t y) {
    std::uint32_t key = 0;
    std::uint32_t swapped = 0;  // 1 where x and y have changed places
    std::uint32_t turned = 0;   // 1 where both run backwards
    for (int level = 15; level >= 0; --level) {
        const std::uint32_t east = (std::uint32_t{x} >> level) & 1U;
        const std::uint32_t north = (std::uint32_t{y} >> level) & 1U;
        const std::uint32_t exchange = (east ^ north) & swapped;
        const std::uint32_t right = east ^ exchange ^ turned;
        const std::uint32_t upper = north ^ exchange ^ turned;
        key = (key << 2U) | ((3U * right) ^ upper);
        const std::uint32_t lower = upper ^ 1U;  // its quadrants go on where the last one left
        turned ^= right & lower;
        swapped ^= lower;
    }
    return key;
}

std::vector<std::uint32_t> spatial_order(std::span<const Point> points) {
    std::vector<Keyed> keyed = sorted_by_key(keyed_positions(points));
    const auto by_place = [&](const Keyed& a, const Keyed& b) {
        return std::tie(points[a.position], a.position) < std::tie(points[b.position], b.position);
    };
    for (auto first = keyed.begin(); first != keyed.end();) {
        const auto last = std::find_if(first, keyed.end(),
                                       [&](const Keyed& one) { return one.key != first->key; });
        std::sort(first, last, by_place);
        first = last;
    }
    std::vector<std::uint32_t> order(points.size());
    std::ranges::transform(keyed, order.begin(), [](const Keyed& one) { return one.position; });
    return order;
}

}  // namespace farwater::routing
