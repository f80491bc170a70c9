#include "routing/access.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <utility>

#include "routing/driving/road_use.h"
#include "routing/structures/hilbert.h"
#include "routing/structures/nearest_road.h"

namespace farwater::routing {
namespace {

constexpr std::size_t points_a_chunk = 4096;

class AccessFinder {
public:
    AccessFinder(const District& district, const Network& network,
                 std::span<const Profile> profiles)
        : district_(district),
          network_(network),
          use_(loaded_use_in_some_season(district, profiles)),
          haulers_(haulers(profiles)),
          anyone_(anyone(profiles)),
          reach_(in_metres(district.assumptions.access_reach)),
          slack_(in_metres(district.assumptions.frontage_slack)),
          finder_(district.roads, [&network](std::uint32_t road) {
              return network.first_edge[road] != network.first_edge[road + 1];
          }) {}

    ProfileBits hauler_bits() const { return haulers_; }
    ProfileBits anyone_bits() const { return anyone_; }

    // Of a house: the nearest, or one that is little farther and that tankers may use.
    std::optional<NearestPlace> nearest(Point p) const {
        const auto any = [](std::uint32_t) { return true; };
        const auto nearest = finder_.nearest(
            p, reach_, any, [&](std::uint32_t road) { return rank(road, haulers_); });
        if (!nearest || usable(nearest->segment.road, haulers_)) {
            return nearest;
        }
        const auto better = nearest_used_by(
            p, haulers_, std::min(reach_, std::sqrt(nearest->apart_squared) + slack_));
        return better ? better : nearest;
    }

    std::optional<NearestPlace> nearest_used_by(Point p, ProfileBits who) const {
        return nearest_used_by(p, who, reach_);
    }

    std::optional<NearestPlace> nearest_used_by(Point p, ProfileBits who, double reach) const {
        return finder_.nearest(
            p, reach, [&](std::uint32_t road) { return usable(road, who); },
            [&](std::uint32_t road) { return rank(road, who); });
    }

    bool hauler_near(Point p) const {
        return finder_.any_within(p, reach_,
                                  [&](std::uint32_t road) { return usable(road, haulers_); });
    }

    bool usable(std::uint32_t road, ProfileBits who) const { return (use_[road] & who) != 0; }

    RoadSpot spot(const NearestPlace& place) const {
        return spot_on(network_, RoadIndex(place.segment.road),
                       metres_along(district_.roads, place));
    }

    AccessPoint point(const NearestPlace& place) const {
        const Length off_road = metres(std::sqrt(place.apart_squared));
        return {RoadIndex(place.segment.road), rounded_to_mm(place.place), off_road,
                off_road > district_.assumptions.off_road_hose ||
                    !usable(place.segment.road, haulers_)};
    }

private:
    // Of roads equally near: one that may be used, then one open both ways, then the better class.
    int rank(std::uint32_t road, ProfileBits who) const {
        const Road& there = district_.roads[road];
        return (usable(road, who) ? 0 : 100) + (there.one_way == OneWay::both ? 0 : 10) +
               static_cast<int>(there.kind);
    }

    const District& district_;
    const Network& network_;
    std::vector<ProfileBits> use_;
    ProfileBits haulers_;
    ProfileBits anyone_;
    double reach_;
    double slack_;
    RoadFinder finder_;
};

enum class Finding : std::uint8_t { fine, no_road, no_usable_road };

// Where parcels and targets are served from.
struct ServedPlaces {
    std::vector<AccessPoint> points;
    std::vector<RoadSpot> spots;
    std::vector<Finding> findings;
};

std::vector<Point> served_points(const District& district) {
    std::vector<Point> points;
    points.reserve(district.parcels.size() + district.targets.size());
    for (const Parcel& parcel : district.parcels) {
        points.push_back(parcel.house);
    }
    for (const Target& target : district.targets) {
        points.push_back(target.place);
    }
    return points;
}

Finding finding_of(const AccessFinder& finder, Point place, const NearestPlace& nearest) {
    const bool usable =
        finder.usable(nearest.segment.road, finder.hauler_bits()) || finder.hauler_near(place);
    return usable ? Finding::fine : Finding::no_usable_road;
}

// Fetched together, for each fetch waits on memory and many can wait at once.
std::vector<Point> in_order(const std::vector<Point>& points,
                            std::span<const std::uint32_t> order) {
    std::vector<Point> places(order.size());
    std::ranges::transform(order, places.begin(), [&](std::uint32_t i) { return points[i]; });
    return places;
}

// In spatial order, so that neighbours look at the same roads while they are near in memory.
ServedPlaces find_served_places(const District& district, const AccessFinder& finder,
                                const Work& work) {
    const std::vector<Point> points = served_points(district);
    const std::vector<std::uint32_t> order = spatial_order(points);
    ServedPlaces found{std::vector<AccessPoint>(points.size()),
                       std::vector<RoadSpot>(points.size()),
                       std::vector<Finding>(points.size(), Finding::no_road)};
    const auto find_some = [&](std::size_t begin, std::size_t end) {
        const std::vector<Point> places =
            in_order(points, std::span(order).subspan(begin, end - begin));
        for (std::size_t k = begin; k < end; ++k) {
            const std::uint32_t i = order[k];
            const Point place = places[k - begin];
            if (const auto nearest = finder.nearest(place)) {
                found.points[i] = finder.point(*nearest);
                found.spots[i] = finder.spot(*nearest);
                found.findings[i] = finding_of(finder, place, *nearest);
            }
        }
    };
    for_each_chunk(work, "access points", points.size(), points_a_chunk, find_some);
    return found;
}

std::string reach_of(const District& district) {
    return std::to_string(std::lround(in_feet(district.assumptions.access_reach))) + " ft";
}

std::vector<Problem> problems_of(const District& district, const std::vector<Finding>& findings) {
    std::vector<Problem> problems;
    const std::size_t parcels = district.parcels.size();
    for (std::size_t i = 0; i < findings.size(); ++i) {
        if (findings[i] != Finding::fine) {
            problems.push_back({findings[i] == Finding::no_road ? ProblemId::parcel_no_road_in_reach
                                                                : ProblemId::parcel_no_usable_road,
                                i < parcels ? "parcels" : "targets",
                                {},
                                id_of(district, i),
                                {},
                                reach_of(district)});
        }
    }
    return problems;
}

// The spots of things that vehicles drive to, and a problem for each that has none.
struct DrivenTo {
    std::vector<RoadSpot> spots;
    std::vector<Problem> problems;
};

// A source that is only mapped is never driven to, and is reported as such elsewhere.
bool counts(const WaterSource& source) { return source.standing != Standing::mapped; }
bool counts(const Station&) { return true; }
bool counts(const DumpSitePlace&) { return true; }

RoadSpot driven_to(const AccessFinder& finder, Point place, ProfileBits who) {
    const auto nearest = finder.nearest_used_by(place, who);
    return nearest ? finder.spot(*nearest) : RoadSpot{};
}

template <class Thing>
DrivenTo find_driven_to(const District& district, const AccessFinder& finder,
                        const std::vector<Thing>& things, ProfileBits who, ProblemId lacking,
                        const std::string& layer) {
    DrivenTo found;
    for (const Thing& thing : things) {
        found.spots.push_back(driven_to(finder, thing.place, who));
        if (!found.spots.back().valid() && counts(thing)) {
            found.problems.push_back({lacking, layer, {}, thing.id, {}, reach_of(district)});
        }
    }
    return found;
}

// A point farther away is hardly beside that road (common practice, no source).
constexpr Length turnaround_distance = feet(200);

DrivenTo find_turnarounds(const District& district, const Network& network,
                          const AccessFinder& finder) {
    DrivenTo found;
    for (const Turnaround& turnaround : district.turnarounds) {
        const auto nearest = finder.nearest_used_by(turnaround.place, finder.hauler_bits());
        const RoadSpot spot = nearest ? finder.spot(*nearest) : RoadSpot{};
        const bool near = spot.valid() && distance(place_of(district, network, spot),
                                                   turnaround.place) <= turnaround_distance;
        found.spots.push_back(near ? spot : RoadSpot{});
        if (!near) {
            found.problems.push_back(
                {ProblemId::turnaround_off_road, "turnarounds", {}, turnaround.id, {}, {}});
        }
    }
    return found;
}

void append(std::vector<Problem>& problems, const std::vector<Problem>& more) {
    problems.insert(problems.end(), more.begin(), more.end());
}

}  // namespace

AccessResult find_access(const District& district, const Network& network,
                         std::span<const Profile> profiles, const Work& work) {
    const AccessFinder finder(district, network, profiles);
    ServedPlaces served = find_served_places(district, finder, work);
    DrivenTo sources = find_driven_to(district, finder, district.sources, finder.hauler_bits(),
                                      ProblemId::source_no_road_in_reach, "water_sources");
    DrivenTo stations = find_driven_to(district, finder, district.stations, finder.anyone_bits(),
                                       ProblemId::station_no_road_in_reach, "stations");
    DrivenTo places =
        find_driven_to(district, finder, district.dump_site_places, finder.hauler_bits(),
                       ProblemId::place_no_road_in_reach, "dump_site_places");
    DrivenTo turnarounds = find_turnarounds(district, network, finder);
    AccessResult result{
        {std::move(served.points), std::move(served.spots), std::move(sources.spots),
         std::move(stations.spots), std::move(places.spots), std::move(turnarounds.spots)},
        problems_of(district, served.findings)};
    append(result.problems, sources.problems);
    append(result.problems, stations.problems);
    append(result.problems, places.problems);
    append(result.problems, turnarounds.problems);
    return result;
}

std::vector<RoadSpot> source_spots(const District& district, const Network& network,
                                   std::span<const Profile> profiles,
                                   std::span<const WaterSource> sources) {
    const AccessFinder finder(district, network, profiles);
    std::vector<RoadSpot> spots;
    for (const WaterSource& source : sources) {
        spots.push_back(driven_to(finder, source.place, finder.hauler_bits()));
    }
    return spots;
}

}  // namespace farwater::routing
