#include "routing/noding/network_problems.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <span>
#include <string>
#include <utility>

#include "analyzer/district/disjoint_sets.h"
#include "analyzer/district/words.h"
#include "routing/noding/road_problem.h"

namespace farwater::routing {
namespace {

// So many pairs of roads with joined crossings are named, so that they do not drown the rest.
constexpr std::size_t most_named_crossings = 50;

bool has_edges(const Network& network, std::size_t road) {
    return network.first_edge[road] != network.first_edge[road + 1];
}

void append_zero_lengths(const std::vector<Road>& roads, const Junctions& junctions,
                         const Network& network, std::vector<Problem>& problems) {
    auto duplicate = junctions.duplicates.begin();
    for (std::size_t r = 0; r < roads.size(); ++r) {
        if (duplicate != junctions.duplicates.end() && duplicate->road == r) {
            ++duplicate;
        } else if (!has_edges(network, r)) {
            problems.push_back(road_problem(ProblemId::road_zero_length, roads[r], {}));
        }
    }
}

// The places where one pair of roads meets.
struct MeetingRoads {
    std::span<const Crossing> places;  // the same `first` and `second`
    bool connecting = false;           // brings parts together which vertices alone leave apart
};

// Pair by pair. Changes the parts that are together.
std::vector<MeetingRoads> meeting_roads(const std::vector<Crossing>& crossings,
                                        DisjointSets& together) {
    std::vector<MeetingRoads> pairs;
    for (auto begin = crossings.begin(); begin != crossings.end();) {
        const auto end = std::find_if(begin, crossings.end(), [&](const Crossing& crossing) {
            return crossing.first != begin->first || crossing.second != begin->second;
        });
        const bool apart = together.least(begin->first) != together.least(begin->second);
        together.join(begin->first, begin->second);
        pairs.push_back({std::span(begin, end), apart});
        begin = end;
    }
    return pairs;
}

DisjointSets parts_by_vertices(const Junctions& junctions) {
    DisjointSets together(junctions.apart.size());
    for (std::uint32_t r = 0; r < junctions.apart.size(); ++r) {
        together.join(r, junctions.apart[r]);
    }
    return together;
}

std::size_t count_parts(const Network& network, DisjointSets& together) {
    std::size_t parts = 0;
    for (std::uint32_t r = 0; r + 1 < network.first_edge.size(); ++r) {
        parts += has_edges(network, r) && together.least(r) == r ? 1U : 0U;
    }
    return parts;
}

Length way_to(const Network& network, const Crossing& crossing) {
    const std::span<const Edge> edges = network.edges_of(RoadIndex(crossing.first));
    const auto edge = std::ranges::find(edges, NodeIndex(crossing.node), &Edge::from);
    return metres(edge == edges.end() ? edges.back().end : edge->begin);
}

std::string meeting_text(const std::vector<Road>& roads, const Network& network,
                         std::span<const Crossing> places) {
    const Crossing& any = places.front();
    Length first = way_to(network, any);
    for (const Crossing& place : places) {
        first = std::min(first, way_to(network, place));
    }
    const std::string& name = roads[any.first].name;
    const char* verb = any.kind == MeetingKind::crosses   ? "crosses "
                       : any.kind == MeetingKind::ends_on ? "ends on "
                                                          : "touches ";
    return (name.empty() ? "" : name + " ") + verb +
           (any.first == any.second ? "itself" : named(roads[any.second])) +
           (places.size() > 1 ? " at " + std::to_string(places.size()) + " places, first " : " ") +
           whole_feet(first) + " from its start";
}

// One row for each pair of roads, or where they are many, for those that bring parts together
// first, and a last row for the rest.
void append_crossings(const std::vector<Road>& roads, const Junctions& junctions,
                      const Network& network, std::vector<Problem>& problems) {
    if (junctions.crossings.empty()) {
        return;
    }
    DisjointSets together = parts_by_vertices(junctions);
    const std::size_t parts_before = count_parts(network, together);
    const std::vector<MeetingRoads> pairs = meeting_roads(junctions.crossings, together);
    std::vector<std::size_t> told(pairs.size());
    std::iota(told.begin(), told.end(), std::size_t{0});
    std::ranges::stable_partition(told, [&](std::size_t i) { return pairs[i].connecting; });
    told.resize(std::min(told.size(), most_named_crossings));
    std::ranges::sort(told);
    for (const std::size_t i : told) {
        problems.push_back(road_problem(ProblemId::road_crossing_joined,
                                        roads[pairs[i].places.front().first],
                                        meeting_text(roads, network, pairs[i].places)));
    }
    if (told.size() < pairs.size()) {
        problems.push_back(
            {.id = ProblemId::road_crossing_joined,
             .layer = "roads",
             .detail = std::to_string(pairs.size() - told.size()) + " more pairs of roads; " +
                       std::to_string(junctions.crossings.size()) +
                       " places in all; shared vertices alone leave the roads in " +
                       counted(parts_before, "part", "parts") + ", with these places " +
                       counted(count_parts(network, together), "part", "parts")});
    }
}

void append_overlaps(const std::vector<Road>& roads, const Network& network,
                     std::vector<Problem>& problems) {
    std::map<std::pair<RoadIndex, RoadIndex>, Length> shared;  // later road, earlier road
    for (const Overlap& overlap : find_overlaps(roads, network)) {
        const Edge& one = at(network.edges, overlap.one);
        shared[{at(network.edges, overlap.other).road, one.road}] += one.length();
    }
    for (const auto& [pair, length] : shared) {
        const Road& road = at(roads, pair.first);
        const std::string other =
            pair.first == pair.second ? "itself" : named(at(roads, pair.second));
        problems.push_back(road_problem(ProblemId::road_overlap, road,
                                        (road.name.empty() ? "" : road.name.text() + ", ") + "on " +
                                            other + " over " + whole_feet(length)));
    }
}

// A state road does not end in a field: where it does, the data end.
bool ends_at_data(const std::vector<Road>& roads, const Network& network, const Edge& edge) {
    const auto alone = [&](NodeIndex node) { return network.around(node).size() == 1; };
    return at(roads, edge.road).kind == RoadClass::state && (alone(edge.from) || alone(edge.to));
}

}  // namespace

std::vector<Problem> network_problems(const std::vector<Road>& roads, const Junctions& junctions,
                                      const Network& network) {
    std::vector<Problem> problems;
    append_zero_lengths(roads, junctions, network, problems);
    append_crossings(roads, junctions, network, problems);
    append_overlaps(roads, network, problems);
    for (const Edge& edge : network.edges) {
        if (ends_at_data(roads, network, edge)) {
            problems.push_back(road_problem(ProblemId::road_edge_of_data, at(roads, edge.road),
                                            at(roads, edge.road).name));
        }
    }
    return problems;
}

}  // namespace farwater::routing
