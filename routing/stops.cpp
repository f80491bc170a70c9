#include "routing/stops.h"

#include "routing/speeds.h"
#include "routing/structures/hilbert.h"
#include "routing/structures/nearest_road.h"

namespace farwater::routing {

std::vector<RoadSpot> stops_near(const District& district, const Network& network,
                                 std::span<const Point> places, const Profile& profile,
                                 const Season& season, const Work& work) {
    constexpr std::size_t places_a_chunk = 4096;
    const auto usable = [&](std::uint32_t road) {
        return network.first_edge[road] != network.first_edge[road + 1] &&
               may_use(district.roads[road], profile, season, Load::loaded, district.assumptions);
    };
    const auto rank = [&](std::uint32_t road) {
        return (district.roads[road].one_way == OneWay::both ? 0 : 10) +
               static_cast<int>(district.roads[road].kind);
    };
    const RoadFinder finder(district.roads, usable);
    const double reach = in_metres(district.assumptions.access_reach);
    const std::vector<std::uint32_t> order = spatial_order(places);
    std::vector<RoadSpot> spots(places.size());
    for_each_chunk(work, "stops", places.size(), places_a_chunk,
                   [&](std::size_t begin, std::size_t end) {
                       for (std::size_t k = begin; k < end; ++k) {
                           const auto nearest = finder.nearest(
                               places[order[k]], reach, [](std::uint32_t) { return true; }, rank);
                           if (nearest) {
                               spots[order[k]] = spot_on(network, RoadIndex(nearest->segment.road),
                                                         metres_along(district.roads, *nearest));
                           }
                       }
                   });
    return spots;
}

}  // namespace farwater::routing
