#include "routing/join.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "routing/disjoint_sets.h"
#include "routing/grid.h"
#include "routing/hilbert.h"
#include "routing/keyed.h"

namespace farwater::routing {
namespace {

constexpr double inside_tolerance =
    0.05;  // metres; vertices inside lines join no farther than this
constexpr std::size_t entries_a_chunk = 16384;

bool has_length(const Polyline& line) {
    return std::ranges::any_of(line, [&](const Point& point) { return point != line.front(); });
}

// The vertices of all roads in one list; roads of no length take no part.
struct Vertices {
    std::vector<std::uint32_t> first;  // per road, and one more
    std::vector<Point> points;
    std::vector<std::uint32_t> roads;  // per vertex; nowhere in a road of no length

    static constexpr std::uint32_t nowhere = UINT32_MAX;
};

Vertices vertices_of(const std::vector<Road>& roads) {
    Vertices vertices;
    vertices.first.reserve(roads.size() + 1);
    vertices.first.push_back(0);
    for (const Road& road : roads) {
        vertices.first.push_back(vertices.first.back() +
                                 static_cast<std::uint32_t>(road.line.size()));
    }
    vertices.points.reserve(vertices.first.back());
    vertices.roads.reserve(vertices.first.back());
    for (std::uint32_t r = 0; r < roads.size(); ++r) {
        const Polyline& line = roads[r].line;
        vertices.points.insert(vertices.points.end(), line.begin(), line.end());
        vertices.roads.insert(vertices.roads.end(), line.size(),
                              has_length(line) ? r : Vertices::nowhere);
    }
    return vertices;
}

// Every vertex under the cell that it lies in and, near a border, under those beyond it, so that
// vertices within the tolerance have a cell in common. Cells that differ may share a key.
std::vector<Keyed> by_cell(const Vertices& vertices, double tolerance) {
    const double size = std::max(16.0, 8.0 * tolerance);
    const auto cell = [size](double value) {
        return static_cast<std::uint32_t>(cell_coordinate(value, size));
    };
    std::vector<Keyed> entries;
    entries.reserve(vertices.points.size() + vertices.points.size() / 16);
    for (std::uint32_t v = 0; v < vertices.points.size(); ++v) {
        if (vertices.roads[v] == Vertices::nowhere) {
            continue;
        }
        const Point p = vertices.points[v];
        const std::uint32_t right = cell(p.x + tolerance);
        const std::uint32_t top = cell(p.y + tolerance);
        for (std::uint32_t y = cell(p.y - tolerance);; ++y) {
            for (std::uint32_t x = cell(p.x - tolerance);; ++x) {
                entries.push_back({((y & 0xffffU) << 16U) | (x & 0xffffU), v});
                if (x == right) {
                    break;
                }
            }
            if (y == top) {
                break;
            }
        }
    }
    return sorted_by_key(std::move(entries));
}

using VertexPair = std::pair<std::uint32_t, std::uint32_t>;

// The rules of joining.
class Joiner {
public:
    Joiner(const std::vector<Road>& roads, const Vertices& vertices, double tolerance)
        : roads_(roads), vertices_(vertices), tolerance_(tolerance) {}

    // The pairs that join among the entries of one cell; by x, so that a crowd costs little.
    void append_pairs(std::vector<Keyed> cell, std::vector<VertexPair>& pairs) const {
        std::ranges::sort(cell, [&](const Keyed& a, const Keyed& b) {
            return std::pair(point(a.position).x, a.position) <
                   std::pair(point(b.position).x, b.position);
        });
        for (auto one = cell.begin(); one != cell.end(); ++one) {
            for (auto other = one + 1;
                 other != cell.end() &&
                 point(other->position).x - point(one->position).x <= tolerance_;
                 ++other) {
                if (joins(one->position, other->position)) {
                    pairs.emplace_back(one->position, other->position);
                }
            }
        }
    }

private:
    bool joins(std::uint32_t a, std::uint32_t b) const {
        const double apart = distance_squared(point(a), point(b));
        if (apart > tolerance_ * tolerance_ || comes_from_next_door(a, b)) {
            return false;
        }
        if (is_end(a) && is_end(b)) {
            return true;
        }
        if (is_end(a) || is_end(b)) {
            return is_end(a) ? nearest_there(b, point(a)) : nearest_there(a, point(b));
        }
        const double inside = std::min(tolerance_, inside_tolerance);
        return apart <= inside * inside && road(a).level == road(b).level &&
               nearest_there(a, point(b)) && nearest_there(b, point(a));
    }

    // On one line, and no farther apart along it than the tolerance explains.
    bool comes_from_next_door(std::uint32_t a, std::uint32_t b) const {
        if (vertices_.roads[a] != vertices_.roads[b]) {
            return false;
        }
        const auto [first, last] = std::minmax(a, b);
        const double loop = shortest_loop(metres(tolerance_));
        double along = 0.0;
        for (std::uint32_t v = first; v < last && along <= loop; ++v) {
            along += in_metres(distance(point(v), point(v + 1)));
        }
        return along <= loop;
    }

    // None of its neighbours on the line is nearer to the point, so a line joins once where it
    // passes.
    bool nearest_there(std::uint32_t v, Point to) const {
        const double apart = distance_squared(point(v), to);
        return (is_first(v) || apart <= distance_squared(point(v - 1), to)) &&
               (is_last(v) || apart <= distance_squared(point(v + 1), to));
    }

    const Road& road(std::uint32_t v) const { return roads_[vertices_.roads[v]]; }
    Point point(std::uint32_t v) const { return vertices_.points[v]; }
    bool is_first(std::uint32_t v) const { return v == vertices_.first[vertices_.roads[v]]; }
    bool is_last(std::uint32_t v) const { return v + 1 == vertices_.first[vertices_.roads[v] + 1]; }
    bool is_end(std::uint32_t v) const { return is_first(v) || is_last(v); }

    const std::vector<Road>& roads_;
    const Vertices& vertices_;
    double tolerance_;
};

using PairLists = std::vector<std::vector<VertexPair>>;  // by chunk of entries

// The end of the entries that share the key of the one at `begin`.
std::size_t end_of_cell(const std::vector<Keyed>& entries, std::size_t begin) {
    std::size_t end = begin + 1;
    while (end < entries.size() && entries[end].key == entries[begin].key) {
        ++end;
    }
    return end;
}

// Complete unless stopped. A pair near a border may come twice.
PairLists joining_pairs(const Joiner& joiner, const std::vector<Keyed>& entries, const Work& work) {
    PairLists pairs(entries.size() / entries_a_chunk + 1);
    const auto join_some = [&](std::size_t begin, std::size_t end) {
        while (begin > 0 && begin < end && entries[begin].key == entries[begin - 1].key) {
            ++begin;  // the cell began in the chunk before
        }
        while (begin < end) {
            const std::size_t after = end_of_cell(entries, begin);
            if (after - begin > 1) {
                joiner.append_pairs({entries.begin() + static_cast<std::ptrdiff_t>(begin),
                                     entries.begin() + static_cast<std::ptrdiff_t>(after)},
                                    pairs[(end - 1) / entries_a_chunk]);
            }
            begin = after;
        }
    };
    for_each_chunk(work, "joining roads", entries.size(), entries_a_chunk, join_some);
    return pairs;
}

// What is a junction: whatever joined, and the ends of lines.
std::vector<bool> junction_marks(const std::vector<Road>& roads,
                                 const std::vector<std::uint32_t>& first_vertex,
                                 const PairLists& pairs) {
    std::vector<bool> marks(first_vertex.back(), false);
    for (const std::vector<VertexPair>& some : pairs) {
        for (const auto& [a, b] : some) {
            marks[a] = true;
            marks[b] = true;
        }
    }
    for (std::size_t r = 0; r < roads.size(); ++r) {
        if (has_length(roads[r].line)) {
            marks[first_vertex[r]] = true;
            marks[first_vertex[r + 1] - 1] = true;
        }
    }
    return marks;
}

DisjointSets joined(std::size_t vertices, const PairLists& pairs) {
    DisjointSets together(vertices);
    for (const std::vector<VertexPair>& some : pairs) {
        for (const auto& [a, b] : some) {
            together.join(a, b);
        }
    }
    return together;
}

// Gives each set of joined vertices one number and its least point, in the order of the data.
Junctions numbered_nodes(const std::vector<Road>& roads, std::vector<std::uint32_t> first_vertex,
                         const PairLists& pairs) {
    const std::vector<bool> marks = junction_marks(roads, first_vertex, pairs);
    DisjointSets together = joined(marks.size(), pairs);
    Junctions junctions{std::move(first_vertex), {}, {}};
    junctions.node_of.assign(marks.size(), Junctions::not_a_junction);
    std::uint32_t vertex = 0;
    for (const Road& road : roads) {
        for (const Point& point : road.line) {
            const std::uint32_t least = together.least(vertex);  // met before its other members
            if (marks[vertex] && least == vertex) {
                junctions.node_of[vertex] = static_cast<std::uint32_t>(junctions.nodes.size());
                junctions.nodes.push_back(point);
            } else if (marks[vertex]) {
                const std::uint32_t node = junctions.node_of[least];
                junctions.node_of[vertex] = node;
                junctions.nodes[node] = std::min(junctions.nodes[node], point);
            }
            ++vertex;
        }
    }
    return junctions;
}

Junctions in_spatial_order(Junctions junctions) {
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
    return junctions;
}

}  // namespace

Junctions find_junctions(const std::vector<Road>& roads, Length tolerance, const Work& work) {
    PairLists pairs;
    Vertices vertices = vertices_of(roads);
    {
        const std::vector<Keyed> entries = by_cell(vertices, in_metres(tolerance));
        pairs = joining_pairs(Joiner(roads, vertices, in_metres(tolerance)), entries, work);
    }
    return work.stopped()
               ? Junctions{}
               : in_spatial_order(numbered_nodes(roads, std::move(vertices.first), pairs));
}

}  // namespace farwater::routing
