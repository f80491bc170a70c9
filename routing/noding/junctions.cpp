#include "routing/noding/junctions.h"

#include <algorithm>
#include <utility>

#include "analyzer/district/disjoint_sets.h"
#include "routing/noding/join.h"
#include "routing/structures/hilbert.h"

namespace farwater::routing {
namespace {

// Takes duplicates out of all that follows.
void leave_out(const std::vector<Duplicate>& duplicates, Vertices& vertices, PairLists& pairs) {
    if (duplicates.empty()) {
        return;
    }
    for (const Duplicate& duplicate : duplicates) {
        vertices.leave_out(duplicate.road);
    }
    for (std::vector<VertexPair>& some : pairs) {
        std::erase_if(some, [&](const VertexPair& pair) {
            return !vertices.takes_part(pair.first) || !vertices.takes_part(pair.second);
        });
    }
}

// Vertices, then cuts, numbered through: what may become one node with what.
class Places {
public:
    Places(const Vertices& vertices, const PairLists& pairs, std::vector<LinePlace> cuts)
        : vertices_(vertices),
          cuts_(std::move(cuts)),
          marks_(vertices.points.size() + cuts_.size(), false),
          together_(marks_.size()) {
        for (std::uint32_t v = 0; v < vertices.points.size(); ++v) {
            marks_[v] = vertices.takes_part(v) && vertices.is_end(v);
        }
        for (const std::vector<VertexPair>& some : pairs) {
            for (const auto& [a, b] : some) {
                join(a, b);
            }
        }
    }

    void join(std::uint32_t a, std::uint32_t b) {
        marks_[a] = true;
        marks_[b] = true;
        together_.join(a, b);
    }

    // The number of the cut that stands for the place, or of the vertex.
    std::uint32_t number_of(const LinePlace& place) const {
        if (place.beyond == 0.0) {
            return place.vertex;
        }
        const auto after = std::ranges::upper_bound(cuts_, place);
        return static_cast<std::uint32_t>(vertices_.points.size() +
                                          static_cast<std::size_t>(after - cuts_.begin()) - 1);
    }

    std::uint32_t least(std::uint32_t place) { return together_.least(place); }
    bool is_junction(std::uint32_t place) const { return marks_[place]; }
    std::size_t size() const { return marks_.size(); }
    const std::vector<LinePlace>& cuts() const { return cuts_; }

    Point point(std::uint32_t place) const {
        return place < vertices_.points.size() ? vertices_.points[place]
                                               : cut_point(cuts_[place - vertices_.points.size()]);
    }

private:
    Point cut_point(const LinePlace& cut) const {
        const Point a = vertices_.points[cut.vertex];
        const Point b = vertices_.points[cut.vertex + 1];
        const double share = cut.beyond / in_metres(distance(a, b));
        return {a.x + share * (b.x - a.x), a.y + share * (b.y - a.y)};
    }

    const Vertices& vertices_;
    std::vector<LinePlace> cuts_;
    std::vector<bool> marks_;
    DisjointSets together_;
};

// The places inside segments, without those that lie close behind another.
std::vector<LinePlace> cuts_of(const std::vector<Meeting>& meetings, double merged) {
    std::vector<LinePlace> all;
    for (const Meeting& meeting : meetings) {
        for (const LinePlace& place : {meeting.a, meeting.b}) {
            if (place.beyond > 0.0) {
                all.push_back(place);
            }
        }
    }
    std::ranges::sort(all);
    std::vector<LinePlace> cuts;
    for (const LinePlace& place : all) {
        if (cuts.empty() || cuts.back().vertex != place.vertex ||
            place.beyond - cuts.back().beyond > merged) {
            cuts.push_back(place);
        }
    }
    return cuts;
}

// Gives each set of joined places one number and its least point, in the order of the data.
void number_nodes(Places& places, Junctions& junctions) {
    std::vector<std::uint32_t> node_of(places.size(), Junctions::not_a_junction);
    for (std::uint32_t place = 0; place < places.size(); ++place) {
        if (!places.is_junction(place)) {
            continue;
        }
        const std::uint32_t least = places.least(place);  // met before its other members
        if (least == place) {
            node_of[place] = static_cast<std::uint32_t>(junctions.nodes.size());
            junctions.nodes.push_back(places.point(place));
        } else {
            const std::uint32_t node = node_of[least];
            node_of[place] = node;
            junctions.nodes[node] = std::min(junctions.nodes[node], places.point(place));
        }
    }
    const std::size_t vertices = places.size() - places.cuts().size();
    for (std::size_t i = 0; i < places.cuts().size(); ++i) {
        junctions.cuts.push_back({places.cuts()[i], node_of[vertices + i]});
    }
    node_of.resize(vertices);
    junctions.node_of = std::move(node_of);
}

void put_in_spatial_order(Junctions& junctions) {
    const std::vector<std::uint32_t> order = spatial_order(junctions.nodes);
    std::vector<std::uint32_t> number(order.size());
    std::vector<Point> sorted(order.size());
    for (std::size_t i = 0; i < order.size(); ++i) {
        number[order[i]] = static_cast<std::uint32_t>(i);
        sorted[i] = junctions.nodes[order[i]];
    }
    junctions.nodes = std::move(sorted);
    for (std::uint32_t& node : junctions.node_of) {
        node = node == Junctions::not_a_junction ? node : number[node];
    }
    for (Cut& cut : junctions.cuts) {
        cut.node = number[cut.node];
    }
}

// Per road a number that it shares with the roads it is connected to by vertices.
std::vector<std::uint32_t> connected_roads(const Vertices& vertices, const PairLists& pairs) {
    DisjointSets together(vertices.first.size() - 1);
    for (const std::vector<VertexPair>& some : pairs) {
        for (const auto& [a, b] : some) {
            together.join(vertices.roads[a], vertices.roads[b]);
        }
    }
    std::vector<std::uint32_t> apart(vertices.first.size() - 1);
    for (std::uint32_t r = 0; r < apart.size(); ++r) {
        apart[r] = together.least(r);
    }
    return apart;
}

// Precondition: the nodes have their last numbers.
std::vector<Crossing> crossings_of(const std::vector<Meeting>& meetings, const Vertices& vertices,
                                   const Places& places, const Junctions& junctions) {
    std::vector<Crossing> crossings;
    for (const Meeting& meeting : meetings) {
        const std::uint32_t place = places.number_of(meeting.a);
        const std::uint32_t node = place < junctions.node_of.size()
                                       ? junctions.node_of[place]
                                       : junctions.cuts[place - junctions.node_of.size()].node;
        const std::uint32_t a = vertices.roads[meeting.a.vertex];
        const std::uint32_t b = vertices.roads[meeting.b.vertex];
        const bool b_ends = meeting.kind != MeetingKind::crosses && meeting.a.beyond > 0.0;
        crossings.push_back({b_ends ? b : a, b_ends ? a : b, node, meeting.kind});
    }
    std::ranges::sort(crossings);
    const auto repeated = std::ranges::unique(crossings, [](const Crossing& a, const Crossing& b) {
        return a.node == b.node && a.first == b.first && a.second == b.second;
    });
    crossings.erase(repeated.begin(), repeated.end());
    return crossings;
}

}  // namespace

Junctions find_junctions(const std::vector<Road>& roads, const Assumptions& assumptions,
                         const Work& work) {
    const JoinReach reach = reach_of(assumptions.join_tolerance);
    Vertices vertices = vertices_of(roads);
    PairLists pairs = joining_pairs(roads, vertices, reach, work);
    if (work.stopped()) {
        return {};
    }
    Junctions junctions;
    junctions.duplicates = first_of_each(drawn_alike(roads, reach));
    leave_out(junctions.duplicates, vertices, pairs);
    std::vector<Meeting> meetings;
    if (assumptions.join_crossings) {
        meetings = find_crossings(roads, vertices, reach, work);
    }
    if (work.stopped()) {
        return {};
    }
    Places places(vertices, pairs, cuts_of(meetings, merged_within(reach)));
    for (const Meeting& meeting : meetings) {
        places.join(places.number_of(meeting.a), places.number_of(meeting.b));
    }
    number_nodes(places, junctions);
    put_in_spatial_order(junctions);
    junctions.crossings = crossings_of(meetings, vertices, places, junctions);
    junctions.apart =
        meetings.empty() ? std::vector<std::uint32_t>() : connected_roads(vertices, pairs);
    junctions.first_vertex = std::move(vertices.first);
    return junctions;
}

}  // namespace farwater::routing
