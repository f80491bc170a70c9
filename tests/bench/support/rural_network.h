// An invented district with its network, costs and graphs for the loaded tanker.
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "routing/costs.h"
#include "routing/network.h"
#include "routing/search/spot_times.h"
#include "tests/bench/support/rural_district.h"

namespace farwater::bench {

struct RuralNetwork {
    explicit RuralNetwork(const RuralSize& size);

    routing::DrivenRoads away() const { return {network, costs, graph, routing::Heading::away}; }
    // Spots on roads that the tanker may use, in random order.
    std::vector<routing::RoadSpot> random_spots(std::size_t count, std::uint64_t seed) const;

    District district;
    std::vector<Profile> profiles;
    routing::Network network;
    routing::EdgeCosts costs;
    routing::SearchGraph graph;
};

inline constexpr std::int32_t twenty_minutes = 12'000;  // tenths of a second

}  // namespace farwater::bench
