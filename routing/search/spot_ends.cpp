#include "routing/search/spot_ends.h"

#include <numeric>

namespace farwater::routing {
namespace {

std::vector<std::uint32_t> first_ends(const Network& network, std::span<const RoadSpot> spots) {
    std::vector<std::uint32_t> first(network.nodes.size() + 1, 0);
    for (const RoadSpot& spot : spots) {
        if (spot.valid()) {
            const Edge& edge = at(network.edges, spot.edge);
            ++first[edge.from.position() + 1];
            ++first[edge.to.position() + 1];
        }
    }
    std::partial_sum(first.begin(), first.end(), first.begin());
    return first;
}

}  // namespace

SpotEnds spot_ends(const Network& network, std::span<const RoadSpot> spots,
                   const EdgeCosts& to_spot, const EdgeCosts& from_spot) {
    SpotEnds result{first_ends(network, spots), {}};
    result.ends.resize(result.first[network.nodes.size()]);
    std::vector<std::uint32_t> next(result.first.begin(), result.first.end() - 1);
    for (std::uint32_t s = 0; s < spots.size(); ++s) {
        if (!spots[s].valid()) {
            continue;
        }
        const Edge& edge = at(network.edges, spots[s].edge);
        const EndCosts to = end_costs(network, to_spot, spots[s], Heading::towards);
        const EndCosts from = end_costs(network, from_spot, spots[s], Heading::away);
        result.ends[next[edge.from.position()]++] = {s, to.from_end, from.from_end};
        result.ends[next[edge.to.position()]++] = {s, to.to_end, from.to_end};
    }
    return result;
}

}  // namespace farwater::routing
