#include "tests/bench/support/rural_network.h"

#include "routing/profiles.h"
#include "tests/routing/random_district.h"

namespace farwater::bench {

using namespace farwater::routing;

RuralNetwork::RuralNetwork(const RuralSize& size)
    : district(rural_district(size)),
      profiles(vehicle_profiles(district)),
      network(build_network(district, Work{}).network),
      costs(drive_costs(district, network, at(profiles, tanker_profiles(profiles).front()),
                        district.seasons.front(), Load::loaded)),
      graph(search_graph(network, costs, Heading::away)) {}

std::vector<RoadSpot> RuralNetwork::random_spots(std::size_t count, std::uint64_t seed) const {
    test::Dice dice(seed);
    std::vector<RoadSpot> spots;
    while (spots.size() < count) {
        const EdgeIndex edge(dice.below(network.edges.size()));
        if (costs.passable(edge)) {
            spots.push_back(spot_on(network, edge,
                                    dice.between(0, in_metres(at(network.edges, edge).length()))));
        }
    }
    return spots;
}

}  // namespace farwater::bench
