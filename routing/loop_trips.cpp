#include "routing/loop_trips.h"

#include <algorithm>
#include <memory>
#include <numeric>
#include <optional>
#include <tuple>

#include "analyzer/district/disjoint_sets.h"
#include "routing/costs.h"
#include "routing/driving/travel_rule.h"
#include "routing/sites/blocks.h"
#include "routing/structures/pool.h"
#include "routing/trips/disjoint_pair.h"

namespace farwater::routing {
namespace {

// Junctions that two ways without a common edge connect, and the edges between them.
class LoopedParts {
public:
    LoopedParts(const Network& network, const EdgeCosts& either)
        : network_(network), blocks_(blocks_of(network, passable(network, either))) {
        DisjointSets sets(network.nodes.size());
        for (std::size_t e = 0; e < network.edges.size(); ++e) {
            if (blocks_.of_edge[e] != Blocks::no_loop) {
                sets.join(static_cast<std::uint32_t>(network.edges[e].from.position()),
                          static_cast<std::uint32_t>(network.edges[e].to.position()));
            }
        }
        for (std::uint32_t node = 0; node < network.nodes.size(); ++node) {
            part_.push_back(sets.least(node));
        }
    }

    // None on an edge that is on no loop.
    std::optional<std::uint32_t> part_of(RoadSpot spot) const {
        const Edge& edge = at(network_.edges, spot.edge);
        const bool inside = spot.along > 0.0 && spot.along < in_metres(edge.length());
        if (inside && blocks_.of(spot.edge) == Blocks::no_loop) {
            return std::nullopt;
        }
        return at(part_, spot.along > 0.0 ? edge.to : edge.from);
    }

    // Whether two edges of loops at least leave the spot that are not closed.
    bool two_ways_open(RoadSpot spot, std::span<const EdgeIndex> closed) const {
        const Edge& edge = at(network_.edges, spot.edge);
        const auto shut = [&](EdgeIndex one) {
            return std::ranges::find(closed, one) != closed.end();
        };
        if (spot.along > 0.0 && spot.along < in_metres(edge.length())) {
            return !shut(spot.edge);
        }
        return std::ranges::count_if(network_.around(spot.along > 0.0 ? edge.to : edge.from),
                                     [&](const Incidence& incidence) {
                                         return blocks_.of(incidence.edge) != Blocks::no_loop &&
                                                !shut(incidence.edge);
                                     }) >= 2;
    }

private:
    static std::vector<std::uint8_t> passable(const Network& network, const EdgeCosts& either) {
        std::vector<std::uint8_t> marks(network.edges.size(), 0);
        for (std::size_t e = 0; e < marks.size(); ++e) {
            marks[e] = either.passable(EdgeIndex(e)) ? 1 : 0;
        }
        return marks;
    }

    const Network& network_;
    Blocks blocks_;
    std::vector<std::uint32_t> part_;  // per junction
};

auto same_roads(const WantedLoop& wanted) { return std::tuple(wanted.season, wanted.profile); }
auto same_loop_search(const WantedLoop& wanted) {
    return std::tuple(wanted.season, wanted.profile, wanted.source);
}
auto same_trip(const WantedLoop& wanted) {
    return std::tuple(wanted.season, wanted.profile, wanted.source, wanted.dump_site);
}

// The roads of one season and profile.
struct LoopRoads {
    LoopRoads(const RoadSystem& roads, const WantedLoop& wanted)
        : out(drive_costs(roads.district, roads.network, at(roads.profiles, wanted.profile),
                          at(roads.district.seasons, wanted.season), Load::empty)),
          back(drive_costs(roads.district, roads.network, at(roads.profiles, wanted.profile),
                           at(roads.district.seasons, wanted.season), Load::loaded)),
          costs(pair_costs(roads.network, out, back)),
          graph(search_graph(roads.network, costs.either, Heading::towards)),
          parts(roads.network, costs.either) {}

    EdgeCosts out, back;
    PairCosts costs;
    SearchGraph graph;
    LoopedParts parts;
};

class LoopFinder {
public:
    LoopFinder(const RoadSystem& roads, const DumpSites& dump_sites,
               std::span<const WantedLoop> wanted, std::vector<LoopTrip>& found)
        : roads_(roads),
          dump_sites_(dump_sites),
          wanted_(wanted),
          found_(found),
          rule_(roads.district.travel_time),
          pairs_([&network = roads.network] { return std::make_unique<DisjointPairs>(network); }) {}

    // Those of one season and profile, ordered by source.
    void find(std::span<const std::uint32_t> loops, const Work& work) {
        const LoopRoads roads(roads_, wanted_[loops.front()]);
        std::vector<std::size_t> begins;
        for (std::size_t i = 0; i < loops.size(); ++i) {
            if (i == 0 ||
                same_loop_search(wanted_[loops[i]]) != same_loop_search(wanted_[loops[i - 1]])) {
                begins.push_back(i);
            }
        }
        begins.push_back(loops.size());
        for_each_chunk(work, "loops", begins.size() - 1, searches_a_chunk,
                       [&](std::size_t begin, std::size_t end) {
                           const Pool<DisjointPairs>::Borrowed pairs(pairs_);
                           for (std::size_t s = begin; s < end && !work.stopped(); ++s) {
                               search(roads, *pairs,
                                      loops.subspan(begins[s], begins[s + 1] - begins[s]));
                           }
                       });
    }

private:
    static constexpr std::size_t searches_a_chunk = 8;

    std::span<const EdgeIndex> closed(const WantedLoop& wanted) const {
        return wanted.lane_case == WantedLoop::nothing_closed
                   ? std::span<const EdgeIndex>()
                   : dump_sites_.lane_cases.closed[wanted.lane_case];
    }

    bool can_be(const LoopRoads& roads, const WantedLoop& wanted) const {
        const RoadSpot place = at(dump_sites_.spots, wanted.dump_site);
        const RoadSpot target = at(roads_.access.sources, wanted.source);
        if (!target.valid()) {
            return false;
        }
        const auto part = roads.parts.part_of(place);
        return part && part == roads.parts.part_of(target) &&
               roads.parts.two_ways_open(place, closed(wanted)) &&
               roads.parts.two_ways_open(target, closed(wanted));
    }

    // What a leg of half this round trip costs, and back.
    std::int64_t cost_of(DriveTime round_trip) const {
        return 2 * std::int64_t{rule_.most_of_leg(in_tenths(round_trip) / 2 + 1)};
    }
    DriveTime plain_of(const WantedLoop& wanted) const {
        return reachable(wanted.plain)
                   ? wanted.plain
                   : tenths_of_second(2 * trip_limit_of(roads_.district.assumptions));
    }
    // Of `either`, the pair in both directions; and what the shorter of its ways has at least.
    std::int64_t most_of(const WantedLoop& wanted) const {
        return 2 * cost_of(longest_loop(plain_of(wanted)));
    }
    std::int64_t least_of(const WantedLoop& wanted) const {
        return reachable(wanted.plain) ? std::max<std::int64_t>(cost_of(wanted.plain) - 4, 0) : 0;
    }

    void search(const LoopRoads& roads, DisjointPairs& pairs,
                std::span<const std::uint32_t> loops) const {
        std::int64_t farthest = 0;
        for (const std::uint32_t loop : loops) {
            farthest = std::max(farthest, most_of(wanted_[loop]) - least_of(wanted_[loop]));
        }
        bool aimed = false;
        std::optional<Unclosed> last;
        for (const std::uint32_t loop : loops) {
            const WantedLoop& wanted = wanted_[loop];
            if (!can_be(roads, wanted)) {
                continue;
            }
            if (!aimed) {
                pairs.aim(roads.costs, roads.graph, at(roads_.access.sources, wanted.source),
                          static_cast<std::int32_t>(std::min<std::int64_t>(farthest, most_cost)));
                aimed = true;
            }
            const RoadSpot place = at(dump_sites_.spots, wanted.dump_site);
            if (!last || last->dump_site != wanted.dump_site) {
                last = Unclosed{wanted.dump_site, pairs.from(place, {}, most_of(wanted)), false};
                last->stopped_by_one_ways = pairs.stopped_by_one_ways();
            }
            if (const auto pair = pair_of(*last, pairs, wanted)) {
                found_[loop] = {true, rule_.leg(static_cast<std::int32_t>(pair->out)),
                                rule_.leg(static_cast<std::int32_t>(pair->back)), pair->length};
            }
        }
    }

    // With nothing closed; what closing takes away from it is sought again, for all else it stands.
    struct Unclosed {
        DumpSiteIndex dump_site;
        std::optional<WayPair> pair;
        bool stopped_by_one_ways = false;
    };
    std::optional<WayPair> pair_of(const Unclosed& unclosed, DisjointPairs& pairs,
                                   const WantedLoop& wanted) const {
        const std::span<const EdgeIndex> shut = closed(wanted);
        const auto is_shut = [&](EdgeIndex edge) {
            return std::ranges::find(shut, edge) != shut.end();
        };
        const bool stands = unclosed.pair ? std::ranges::none_of(unclosed.pair->edges, is_shut)
                                          : !unclosed.stopped_by_one_ways;
        return stands ? unclosed.pair
                      : pairs.from(at(dump_sites_.spots, wanted.dump_site), shut, most_of(wanted));
    }

    const RoadSystem& roads_;
    const DumpSites& dump_sites_;
    std::span<const WantedLoop> wanted_;
    std::vector<LoopTrip>& found_;  // each search writes its own
    TravelRule rule_;
    Pool<DisjointPairs> pairs_;
};

}  // namespace

std::vector<LoopTrip> loop_trips(const RoadSystem& roads, const DumpSites& dump_sites,
                                 std::span<const WantedLoop> wanted, const Work& work) {
    std::vector<LoopTrip> found(wanted.size());
    std::vector<std::uint32_t> order(wanted.size());
    std::iota(order.begin(), order.end(), 0U);
    std::ranges::stable_sort(order, {}, [&](std::uint32_t i) { return same_trip(wanted[i]); });
    LoopFinder finder(roads, dump_sites, wanted, found);
    for (std::size_t begin = 0; begin < order.size() && !work.stopped();) {
        std::size_t end = begin;
        while (end < order.size() &&
               same_roads(wanted[order[end]]) == same_roads(wanted[order[begin]])) {
            ++end;
        }
        finder.find(std::span(order).subspan(begin, end - begin), work);
        begin = end;
    }
    return found;
}

}  // namespace farwater::routing
