#include "analyzer/app/pipes_to_water.h"

#include <algorithm>
#include <utility>

#include "analyzer/app/write_results.h"
#include "analyzer/geometry/line_on_ground.h"
#include "analyzer/geometry/point_index.h"
#include "analyzer/planning/shore_owners.h"
#include "io/second_pass.h"
#include "routing/roads_near_water.h"

namespace farwater::app {
namespace {

// Less of a pipe than this on a parcel is how badly outlines and roads fit.
constexpr double least_on_ground = 0.5;  // metres
constexpr double no_pipe_below = 1.0;    // where a road runs along the shore

// Every ring as a shape: inside is what lies in an odd number of them.
MultiPolygon shape_of(std::span<const Polyline> rings) {
    MultiPolygon shape;
    for (const Polyline& ring : rings) {
        shape.push_back({ring, {}});
    }
    return shape;
}

bool crosses(const RoadNearWater& pipe, const MultiPolygon& ground) {
    return in_metres(pipe.apart) < no_pipe_below
               ? contains(ground, pipe.on_shore)
               : metres_on_ground(ground, pipe.on_road, pipe.on_shore) > least_on_ground;
}

// The pipes by their middles, so that a parcel finds those that may cross it.
class PipesOnGround {
public:
    PipesOnGround(std::vector<RoadNearWater>& pipes, double longest)
        : pipes_(pipes), middles_(middles_of(pipes)), reach_(longest / 2.0 + 1.0) {}

    void add(ParcelIndex parcel, std::span<const Polyline> rings) {
        const MultiPolygon ground = shape_of(rings);
        Box box = box_of(ground);
        if (box.empty()) {
            return;
        }
        box.low = {box.low.x - reach_, box.low.y - reach_};
        box.high = {box.high.x + reach_, box.high.y + reach_};
        for (const std::uint32_t pipe : middles_.inside(box)) {
            if (pipes_[pipe].road.valid() && crosses(pipes_[pipe], ground)) {
                pipes_[pipe].ground.push_back(parcel);
            }
        }
    }

private:
    static std::vector<Point> middles_of(const std::vector<RoadNearWater>& pipes) {
        std::vector<Point> middles;
        for (const RoadNearWater& pipe : pipes) {
            middles.push_back({(pipe.on_road.x + pipe.on_shore.x) / 2.0,
                               (pipe.on_road.y + pipe.on_shore.y) / 2.0});
        }
        return middles;
    }

    std::vector<RoadNearWater>& pipes_;
    PointIndex middles_;
    double reach_;
};

// Not valid: the record was set aside.
ParcelIndex parcel_of(const District& district, std::size_t record) {
    const auto found = std::ranges::lower_bound(district.parcels, record, {}, &Parcel::row);
    return found != district.parcels.end() && found->row == record
               ? ParcelIndex(static_cast<std::size_t>(found - district.parcels.begin()))
               : ParcelIndex();
}

}  // namespace

std::vector<RoadNearWater> pipes_to_water(const District& district,
                                          std::span<const Profile> profiles,
                                          const io::DistrictFile& file, const io::ReadResult& read,
                                          const Work& work) {
    const Length longest = district.assumptions.new_pipe_reach;
    std::vector<RoadNearWater> pipes = routing::roads_near_water(district, profiles, longest, work);
    if (work.stopped() ||
        std::ranges::none_of(pipes, [](const RoadNearWater& pipe) { return pipe.road.valid(); })) {
        return pipes;
    }
    PipesOnGround on_ground(pipes, in_metres(longest));
    io::PassThroughTable parcels;
    parcels.results.name = "ground of pipes";
    parcels.keeps = [&](std::size_t record) { return parcel_of(district, record).valid(); };
    parcels.sees = [&](std::size_t record, std::span<const Polyline> rings) {
        on_ground.add(parcel_of(district, record), rings);
    };
    if (!io::see_second_pass(read.crs, read.fingerprints, parcels,
                             input_of(file.layers.at("parcels"), read), work)) {
        return {};
    }
    return planning::shortest_by_owner(district, std::move(pipes), [&](ParcelIndex parcel) {
        return read.owners[parcel.position()];
    });
}

}  // namespace farwater::app
