#include "analyzer/district/elevation_gaps.h"

#include <algorithm>
#include <cmath>

#include "analyzer/district/district.h"

namespace farwater {
namespace {

struct Metres {
    double all = 0.0;
    double without = 0.0;

    void add(double length, bool has_heights) {
        all += length;
        without += has_heights ? 0.0 : length;
    }
};

// A stretch has heights where both its ends have.
void add_line(const ElevationGrid& grid, const Polyline& line, Metres& sum) {
    const double longest = in_metres(feet(100));
    bool last = grid.at(line.front()).has_value();
    for (std::size_t i = 1; i < line.size(); ++i) {
        const Point a = line[i - 1];
        const Point b = line[i];
        const double length = in_metres(distance(a, b));
        const double stretches = std::max(1.0, std::ceil(length / longest));
        for (double stretch = 1.0; stretch <= stretches; stretch += 1.0) {
            const double share = stretch / stretches;
            const bool here =
                grid.at({a.x + (b.x - a.x) * share, a.y + (b.y - a.y) * share}).has_value();
            sum.add(length / stretches, last && here);
            last = here;
        }
    }
}

Metres metres_of_roads(const District& district) {
    const ElevationGrid& grid = district.elevation;
    Metres sum;
    for (const Road& road : district.roads) {
        if (road.bridge || road.tunnel) {
            sum.add(in_metres(length_of(road.line)),
                    grid.at(road.line.front()) && grid.at(road.line.back()));
        } else {
            add_line(grid, road.line, sum);
        }
    }
    return sum;
}

}  // namespace

ElevationGaps elevation_gaps(const District& district) {
    const ElevationGrid& grid = district.elevation;
    ElevationGaps gaps;
    if (grid.empty()) {
        return gaps;
    }
    const Metres roads = metres_of_roads(district);
    gaps.road_share = roads.all > 0.0 ? roads.without / roads.all : 0.0;
    gaps.parcels = static_cast<std::size_t>(std::ranges::count_if(
        district.parcels, [&](const Parcel& parcel) { return !grid.at(parcel.house); }));
    gaps.sources = static_cast<std::size_t>(std::ranges::count_if(
        district.sources, [&](const WaterSource& source) { return !grid.at(source.place); }));
    return gaps;
}

}  // namespace farwater
