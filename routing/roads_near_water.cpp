#include "routing/roads_near_water.h"

#include <algorithm>
#include <cmath>
#include <iterator>

#include "analyzer/geometry/point_index.h"
#include "analyzer/geometry/polygon.h"
#include "routing/driving/road_use.h"
#include "routing/structures/nearest_road.h"

namespace farwater::routing {
namespace {

constexpr double shore_step = 5.0;  // metres
constexpr Length beside_shore = feet(200);
constexpr std::size_t waters_per_chunk = 16;

// The corners of the shore and points between them, no more than a step apart; of a point itself.
Polyline points_of_shore(const MappedWater& water) {
    Polyline points;
    for (const Polyline& ring : water.shore) {
        for (std::size_t i = 0; i + 1 < ring.size(); ++i) {
            const Point a = ring[i];
            const Point b = ring[i + 1];
            const int pieces = std::max(
                1, static_cast<int>(std::ceil(std::sqrt(distance_squared(a, b)) / shore_step)));
            for (int piece = 0; piece < pieces; ++piece) {
                const double on = static_cast<double>(piece) / pieces;
                points.push_back({a.x + on * (b.x - a.x), a.y + on * (b.y - a.y)});
            }
        }
    }
    if (points.empty()) {
        points.push_back(water.place);
    }
    return points;
}

MultiPolygon shape_of(const MappedWater& water) {
    MultiPolygon shape;
    for (const Polyline& ring : water.shore) {
        shape.push_back({ring, {}});
    }
    return shape;
}

std::vector<Point> places_of(const std::vector<WaterSource>& sources) {
    std::vector<Point> places;
    for (const WaterSource& source : sources) {
        places.push_back(source.place);
    }
    return places;
}

class Banks {
public:
    Banks(const District& district, std::span<const Profile> profiles, Length limit)
        : district_(district),
          limit_(in_metres(limit)),
          use_(loaded_use_in_some_season(district, profiles)),
          haulers_(haulers(profiles)),
          roads_(district.roads, [this](std::uint32_t road) { return usable(road); }),
          sources_(places_of(district.sources)) {}

    // Of equals the one that comes first along the shore.
    std::vector<RoadNearWater> near(std::uint32_t index) const {
        const MappedWater& water = district_.mapped_water[index];
        const Polyline shore = points_of_shore(water);
        RoadNearWater of_water;
        of_water.water = index;
        of_water.source_there = source_at(water, shore);
        std::vector<RoadNearWater> found;
        for (const Point p : shore) {
            const auto place = roads_.nearest(
                p, limit_, [this](std::uint32_t road) { return usable(road); },
                [](std::uint32_t) { return 0; });
            if (place) {
                found.push_back(pipe_to(*place, p, of_water));
            }
        }
        if (found.empty()) {
            return {of_water};
        }
        const std::optional<Length> height = lowest(shore, water.place);
        for (RoadNearWater& pipe : found) {
            pipe.water_height = height;
        }
        std::ranges::stable_sort(found, {}, &RoadNearWater::apart);
        return found;
    }

private:
    bool usable(std::uint32_t road) const {
        const Road& r = district_.roads[road];
        return (use_[road] & haulers_) != 0 && !r.bridge && !r.tunnel;
    }

    RoadNearWater pipe_to(const NearestPlace& place, Point shore,
                          const RoadNearWater& of_water) const {
        RoadNearWater pipe = of_water;
        pipe.road = RoadIndex(place.segment.road);
        pipe.on_road = rounded_to_mm(place.place);
        pipe.on_shore = shore;
        pipe.apart = metres(std::sqrt(place.apart_squared));
        pipe.road_height = district_.elevation.at(pipe.on_road);
        return pipe;
    }

    std::optional<Length> lowest(const Polyline& shore, Point inside) const {
        std::optional<Length> least = district_.elevation.at(inside);
        for (const Point p : shore) {
            const std::optional<Length> height = district_.elevation.at(p);
            if (height && (!least || *height < *least)) {
                least = height;
            }
        }
        return least;
    }

    SourceIndex source_at(const MappedWater& water, const Polyline& shore) const {
        Box around;
        for (const Point p : shore) {
            around.include(p);
        }
        const double reach = in_metres(beside_shore);
        around.low = {around.low.x - reach, around.low.y - reach};
        around.high = {around.high.x + reach, around.high.y + reach};
        const MultiPolygon shape = shape_of(water);
        for (const std::uint32_t source : sources_.inside(around)) {
            const Point place = district_.sources[source].place;
            const bool beside = std::ranges::any_of(
                shore, [&](Point p) { return distance_squared(p, place) <= reach * reach; });
            if (beside || contains(shape, place)) {
                return SourceIndex(source);
            }
        }
        return {};
    }

    const District& district_;
    double limit_;
    std::vector<ProfileBits> use_;
    ProfileBits haulers_;
    RoadFinder roads_;
    PointIndex sources_;
};

}  // namespace

std::vector<RoadNearWater> roads_near_water(const District& district,
                                            std::span<const Profile> profiles, Length limit,
                                            const Work& work) {
    std::vector<std::vector<RoadNearWater>> found(district.mapped_water.size());
    const Banks banks(district, profiles, limit);
    for_each_chunk(work, "roads near water", found.size(), waters_per_chunk,
                   [&](std::size_t begin, std::size_t end) {
                       for (std::size_t i = begin; i < end; ++i) {
                           found[i] = banks.near(static_cast<std::uint32_t>(i));
                       }
                   });
    std::vector<RoadNearWater> all;
    for (std::vector<RoadNearWater>& of_water : found) {
        std::ranges::move(of_water, std::back_inserter(all));
    }
    return all;
}

}  // namespace farwater::routing
