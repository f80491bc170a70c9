#include "routing/network_problems.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <string>
#include <utility>

#include "analyzer/district/words.h"
#include "routing/disjoint_sets.h"
#include "routing/road_problem.h"

namespace farwater::routing {
namespace {

// So many joined crossings are named one by one, so that they do not drown the rest.
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

// What the duplicate says otherwise than the record that is used.
std::string differences(const Road& used, const Road& duplicate) {
    std::string list;
    const auto add = [&](bool differs, const char* what) {
        list += differs ? (list.empty() ? "" : ", ") + std::string(what) : "";
    };
    add(used.kind != duplicate.kind, "class");
    add(used.access != duplicate.access, "access");
    add(used.one_way != duplicate.one_way, "one_way");
    add(used.bridge != duplicate.bridge, "bridge");
    add(used.tunnel != duplicate.tunnel, "tunnel");
    add(!(used.maintained == duplicate.maintained), "maintained months");
    add(used.posted_speed != duplicate.posted_speed, "posted speed");
    add(used.width != duplicate.width, "width");
    add(used.weight_limit != duplicate.weight_limit, "weight limit");
    add(used.height_limit != duplicate.height_limit, "height limit");
    return list.empty() ? "" : "; they differ in " + list;
}

void append_duplicates(const std::vector<Road>& roads, const Junctions& junctions,
                       std::vector<Problem>& problems) {
    for (const Duplicate& duplicate : junctions.duplicates) {
        const Road& road = roads[duplicate.road];
        const Road& used = roads[duplicate.of];
        problems.push_back(road_problem(ProblemId::road_duplicate, road,
                                        (road.name.empty() ? "" : road.name + ", ") + "drawn as " +
                                            named(used) + differences(used, road)));
    }
}

// Crossings that bring parts together which vertices alone leave apart stand first.
struct RankedCrossings {
    std::vector<Crossing> connecting, others;
    std::size_t parts_before = 0;
    std::size_t parts_after = 0;
};

RankedCrossings ranked(const Junctions& junctions, const Network& network) {
    RankedCrossings ranked;
    DisjointSets together(junctions.apart.size());
    for (std::uint32_t r = 0; r < junctions.apart.size(); ++r) {
        together.join(r, junctions.apart[r]);
        ranked.parts_before += has_edges(network, r) && junctions.apart[r] == r ? 1U : 0U;
    }
    ranked.parts_after = ranked.parts_before;
    for (const Crossing& crossing : junctions.crossings) {
        const bool apart = together.least(crossing.first) != together.least(crossing.second);
        together.join(crossing.first, crossing.second);
        ranked.parts_after -= apart ? 1U : 0U;
        (apart ? ranked.connecting : ranked.others).push_back(crossing);
    }
    return ranked;
}

Length way_to(const Network& network, std::uint32_t road, std::uint32_t node) {
    for (const Edge& edge : network.edges_of(RoadIndex(road))) {
        if (edge.from == NodeIndex(node)) {
            return metres(edge.begin);
        }
    }
    return metres(network.edges_of(RoadIndex(road)).back().end);
}

Problem crossing_problem(const std::vector<Road>& roads, const Network& network,
                         const Crossing& crossing) {
    const Road& road = roads[crossing.first];
    const Road& other = roads[crossing.second];
    const char* verb = crossing.kind == MeetingKind::crosses   ? "crosses "
                       : crossing.kind == MeetingKind::ends_on ? "ends on "
                                                               : "touches ";
    const std::string what = crossing.first == crossing.second ? "itself" : named(other);
    return road_problem(ProblemId::road_crossing_joined, road,
                        (road.name.empty() ? "" : road.name + " ") + verb + what + " " +
                            whole_feet(way_to(network, crossing.first, crossing.node)) +
                            " from its start");
}

// One row for all that are not named.
Problem further_crossings(const RankedCrossings& crossings, std::size_t named_ones) {
    const std::size_t all = crossings.connecting.size() + crossings.others.size();
    return {.id = ProblemId::road_crossing_joined,
            .layer = "roads",
            .detail = std::to_string(all - named_ones) + " more places, " + std::to_string(all) +
                      " in all; shared vertices alone leave the roads in " +
                      counted(crossings.parts_before, "part", "parts") + ", with these places " +
                      counted(crossings.parts_after, "part", "parts")};
}

void append_crossings(const std::vector<Road>& roads, const Junctions& junctions,
                      const Network& network, std::vector<Problem>& problems) {
    const RankedCrossings crossings = ranked(junctions, network);
    std::vector<Crossing> shown = crossings.connecting;
    shown.insert(shown.end(), crossings.others.begin(), crossings.others.end());
    shown.resize(std::min(shown.size(), most_named_crossings));
    std::ranges::sort(shown);
    for (const Crossing& crossing : shown) {
        problems.push_back(crossing_problem(roads, network, crossing));
    }
    if (shown.size() < junctions.crossings.size()) {
        problems.push_back(further_crossings(crossings, shown.size()));
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
                                        (road.name.empty() ? "" : road.name + ", ") + "on " +
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
    append_duplicates(roads, junctions, problems);
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
