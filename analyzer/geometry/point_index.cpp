#include "analyzer/geometry/point_index.h"

#include <algorithm>
#include <span>

namespace farwater {

// The tree is the array: the middle of a range is its root, left half below it, right half above
// it, by x on even levels and by y on odd ones. Short ranges are looked through.
namespace {

constexpr std::size_t short_range = 8;

double coordinate(Point p, bool by_x) { return by_x ? p.x : p.y; }

template <class Node>
void arrange(std::span<Node> nodes, bool by_x) {
    if (nodes.size() <= short_range) {
        return;
    }
    const std::size_t middle = nodes.size() / 2;
    std::nth_element(nodes.begin(), nodes.begin() + static_cast<std::ptrdiff_t>(middle),
                     nodes.end(), [by_x](const Node& a, const Node& b) {
                         return coordinate(a.place, by_x) < coordinate(b.place, by_x);
                     });
    arrange(nodes.first(middle), !by_x);
    arrange(nodes.subspan(middle + 1), !by_x);
}

bool in_box(Point p, const Box& box) {
    return p.x >= box.low.x && p.x <= box.high.x && p.y >= box.low.y && p.y <= box.high.y;
}

template <class Node, class Found>
void search(std::span<const Node> nodes, bool by_x, const Box& box, const Found& found) {
    if (nodes.size() <= short_range) {
        for (const Node& node : nodes) {
            found(node);
        }
        return;
    }
    const std::size_t middle = nodes.size() / 2;
    const double split = coordinate(nodes[middle].place, by_x);
    found(nodes[middle]);
    if (coordinate(box.low, by_x) <= split) {
        search(nodes.first(middle), !by_x, box, found);
    }
    if (coordinate(box.high, by_x) >= split) {
        search(nodes.subspan(middle + 1), !by_x, box, found);
    }
}

}  // namespace

PointIndex::PointIndex(const std::vector<Point>& points) {
    nodes_.reserve(points.size());
    for (std::size_t i = 0; i < points.size(); ++i) {
        nodes_.push_back({points[i], static_cast<std::uint32_t>(i)});
    }
    arrange(std::span<Node>(nodes_), true);
}

std::vector<std::uint32_t> PointIndex::inside(const Box& box) const {
    std::vector<std::uint32_t> positions;
    search(std::span<const Node>(nodes_), true, box, [&](const Node& node) {
        if (in_box(node.place, box)) {
            positions.push_back(node.position);
        }
    });
    std::sort(positions.begin(), positions.end());
    return positions;
}

}  // namespace farwater
