// Which of many points lie in a box: a k-d tree in one array.
#pragma once

#include <cstdint>
#include <vector>

#include "analyzer/district/plane.h"

namespace farwater {

class PointIndex {
public:
    PointIndex() = default;
    explicit PointIndex(const std::vector<Point>& points);  // O(n log n)

    std::size_t size() const { return nodes_.size(); }

    // Positions in the constructor's list of the points in the box, borders included, ascending.
    // O(sqrt(n) + found).
    std::vector<std::uint32_t> inside(const Box& box) const;

private:
    struct Node {
        Point place;
        std::uint32_t position = 0;
    };
    std::vector<Node> nodes_;
};

}  // namespace farwater
