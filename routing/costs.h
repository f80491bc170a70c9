// What it costs to go along edges, as whole numbers: tenths of a second or millimetres, so that
// sums are exact. One array a direction for each question (profile, load, season; or plain length).
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/district/round_trips.h"
#include "analyzer/district/units.h"
#include "routing/network.h"
#include "routing/speeds.h"

namespace farwater::routing {

inline constexpr std::int32_t no_way = INT32_MAX;
inline constexpr std::int32_t most_cost = 1'000'000'000;  // two of them still add without overflow

struct EdgeCosts {
    std::vector<std::int32_t> forward,
        backward;  // per edge, as drawn and against; no_way = not allowed

    // Who drives how fast on the level, per road, where a part of an edge costs what its own hills
    // take. Empty: a part costs its share of the length.
    std::vector<Speed> level;
    WeightPerPower vehicle;

    std::int32_t of(EdgeIndex edge, bool as_drawn) const {
        return as_drawn ? forward[edge.position()] : backward[edge.position()];
    }
    bool passable(EdgeIndex edge) const {
        return of(edge, true) != no_way || of(edge, false) != no_way;
    }
};

// What it costs a profile to drive; one-way roads have one direction. Tenths of a second at the
// planning speed and up the grades; under a linear travel-time rule millimetres, at least 1, which
// TravelRule (travel_rule.h) makes time.
EdgeCosts drive_costs(const District& district, const Network& network, const Profile& profile,
                      const Season& season, Load load);

// Millimetres where `times` has a way, no_way where it has none.
EdgeCosts lengths_where(const Network& network, const EdgeCosts& times);

// Millimetres, both ways, on edges that have their mark.
EdgeCosts lengths_of(const Network& network, std::span<const std::uint8_t> marked_edges);
std::int32_t millimetres(Length length);  // at most most_cost

struct Arc {
    static constexpr std::uint32_t most_node = UINT32_MAX >> 1U;

    std::uint32_t to : 31 = 0;
    std::uint32_t ends : 1 = 0;  // from there arcs lead back to where this one begins, or nowhere
    std::int32_t cost = 0;
};

// The arcs that have a way, node by node.
struct SearchGraph {
    std::vector<std::uint32_t> first;  // per node, and one more
    std::vector<Arc> arcs;

    std::span<const Arc> from(std::uint32_t node) const {
        return {arcs.data() + first[node], arcs.data() + first[node + 1]};
    }
};

// `away`: arcs as they are driven, for searches from a place. `towards`: turned round, for searches
// of all that lead to a place.
enum class Heading : std::uint8_t { away, towards };
SearchGraph search_graph(const Network& network, const EdgeCosts& costs, Heading heading);

// From a spot to the two ends of its edge, or from the ends to the spot (Heading::towards). Nothing
// is not hindered by anything: at an end the way to that end costs 0, whatever the road allows.
struct EndCosts {
    std::int32_t from_end = no_way;
    std::int32_t to_end = no_way;
};
EndCosts end_costs(const Network& network, const EdgeCosts& costs, RoadSpot spot, Heading heading);

// Straight along the edge from one spot to another on it; no_way when that is not allowed.
// Precondition: both on the same edge.
std::int32_t cost_along(const Network& network, const EdgeCosts& costs, RoadSpot from, RoadSpot to);

// The share of a whole for a part of its length, rounded up. Never more than the whole.
std::int32_t part_of(std::int32_t whole, double part, double length);

// What the stretch of an edge from `begin` to `end` costs (metres from its start, begin <= end):
// its share of the level time and the climbs on it, rounded up. no_way where the edge may not be
// driven that way; 0 for no stretch. O(steps of the edge's grades).
std::int32_t stretch_cost(const Network& network, const EdgeCosts& costs, EdgeIndex edge,
                          bool as_drawn, double begin, double end);

// The trip limit in whole tenths, rounded down, and the drive to a station's gate point, rounded up
// (0 for a station of the district's own): as long as somebody said it takes, and longer in a
// season that slows the roads.
std::int32_t trip_limit_of(const Assumptions& assumptions);
DriveTime gate_drive(const Station& station, const Season& season);

constexpr DriveTime time_of(std::int32_t cost) {
    return cost == no_way ? no_time : DriveTime{cost};
}

// The cost of a way through `cost` and on; no_way plus anything is no_way.
constexpr std::int32_t plus(std::int32_t a, std::int32_t b) {
    return a == no_way || b == no_way ? no_way : a + b;
}

}  // namespace farwater::routing
