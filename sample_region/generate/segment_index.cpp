#include "sample_region/generate/segment_index.h"

#include <algorithm>

namespace farwater::sample {

SegmentIndex::SegmentIndex(const Box& box, double cell)
    : low_(box.low),
      cell_(cell),
      columns_(std::max(1, static_cast<int>((box.high.x - box.low.x) / cell) + 1)),
      rows_(std::max(1, static_cast<int>((box.high.y - box.low.y) / cell) + 1)),
      cells_(static_cast<std::size_t>(columns_) * static_cast<std::size_t>(rows_)) {}

int SegmentIndex::column_of(double x) const {
    return std::clamp(static_cast<int>((x - low_.x) / cell_), 0, columns_ - 1);
}

int SegmentIndex::row_of(double y) const {
    return std::clamp(static_cast<int>((y - low_.y) / cell_), 0, rows_ - 1);
}

void SegmentIndex::add(const Polyline& line, std::int32_t number) {
    for (std::size_t i = 1; i < line.size(); ++i) {
        const Segment segment{line[i - 1], line[i], number};
        const auto index = static_cast<std::uint32_t>(segments_.size());
        segments_.push_back(segment);
        Box box;
        box.include(segment.a);
        box.include(segment.b);
        each_cell(box.low, box.high, [&](std::size_t cell) { cells_[cell].push_back(index); });
    }
}

double SegmentIndex::metres_to_nearest(Point p, double reach) const {
    double best = reach;
    each_near(p, reach, [&](const Segment& segment) {
        best = std::min(best, metres_to_segment(p, segment.a, segment.b));
    });
    return best;
}

}  // namespace farwater::sample
