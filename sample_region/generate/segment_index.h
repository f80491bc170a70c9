// Line segments by place, for "what is near here" over a township.
#pragma once

#include <cstdint>
#include <vector>

#include "sample_region/generate/shapes.h"

namespace farwater::sample {

struct Segment {
    Point a, b;
    std::int32_t line = 0;  // the caller's number
};

class SegmentIndex {
public:
    SegmentIndex(const Box& box, double cell);

    void add(const Polyline& line, std::int32_t number);

    // Calls visit(segment) for every segment that may lie within `reach` of p; some twice.
    // Cost: cells within reach.
    template <class Visit>
    void each_near(Point p, double reach, Visit visit) const {
        each_cell({p.x - reach, p.y - reach}, {p.x + reach, p.y + reach}, [&](std::size_t cell) {
            for (const std::uint32_t number : cells_[cell]) {
                visit(segments_[number]);
            }
        });
    }

    // Distance to the nearest segment, at most `reach`; `reach` if there is none nearer.
    double metres_to_nearest(Point p, double reach) const;

private:
    template <class Visit>
    void each_cell(Point low, Point high, Visit visit) const {
        for (int row = row_of(low.y); row <= row_of(high.y); ++row) {
            for (int column = column_of(low.x); column <= column_of(high.x); ++column) {
                visit(static_cast<std::size_t>(row) * static_cast<std::size_t>(columns_) +
                      static_cast<std::size_t>(column));
            }
        }
    }
    int column_of(double x) const;
    int row_of(double y) const;

    Point low_;
    double cell_;
    int columns_;
    int rows_;
    std::vector<Segment> segments_;
    std::vector<std::vector<std::uint32_t>> cells_;
};

}  // namespace farwater::sample
