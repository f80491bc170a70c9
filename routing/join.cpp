#include "routing/join.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "routing/disjoint_sets.h"
#include "routing/grid.h"
#include "routing/hilbert.h"

namespace farwater::routing {
namespace {

constexpr double inside_tolerance =
    0.05;  // metres; vertices inside lines join no farther than this
constexpr std::size_t roads_a_chunk = 4096;

struct Vertex {
    std::uint32_t road = 0;
    std::uint32_t position = 0;  // within its line
};

using VertexPair = std::pair<std::uint32_t, std::uint32_t>;

class Joiner {
public:
    Joiner(const std::vector<Road>& roads, Length tolerance)
        : roads_(roads),
          tolerance_(in_metres(tolerance)),
          first_vertex_(numbered(roads)),
          grid_(std::max(4.0 * tolerance_, 2.0), first_vertex_.back() / 2,
                [this](const Grid<Vertex>& grid, auto put) { put_all(grid, put); }) {}

    std::uint32_t vertices() const { return first_vertex_.back(); }
    std::vector<std::uint32_t> take_numbers() { return std::move(first_vertex_); }

    // The pairs that join, from the vertices of some roads to all of a higher number.
    std::vector<VertexPair> pairs_of(std::size_t begin, std::size_t end) const {
        std::vector<VertexPair> pairs;
        for (std::size_t r = begin; r < end; ++r) {
            if (has_length(roads_[r].line)) {
                for (std::size_t i = 0; i < roads_[r].line.size(); ++i) {
                    add_pairs_of({static_cast<std::uint32_t>(r), static_cast<std::uint32_t>(i)},
                                 pairs);
                }
            }
        }
        return pairs;
    }

    static bool has_length(const Polyline& line) {
        return std::any_of(line.begin(), line.end(),
                           [&](const Point& point) { return point != line.front(); });
    }

private:
    static std::vector<std::uint32_t> numbered(const std::vector<Road>& roads) {
        std::vector<std::uint32_t> first{0};
        first.reserve(roads.size() + 1);
        for (const Road& road : roads) {
            first.push_back(first.back() + static_cast<std::uint32_t>(road.line.size()));
        }
        return first;
    }

    template <class Put>
    void put_all(const Grid<Vertex>& grid, Put put) const {
        for (std::size_t r = 0; r < roads_.size(); ++r) {
            const Polyline& line = roads_[r].line;
            for (std::size_t i = 0; has_length(line) && i < line.size(); ++i) {
                put(grid.cell_of(line[i]),
                    Vertex{static_cast<std::uint32_t>(r), static_cast<std::uint32_t>(i)});
            }
        }
    }

    void add_pairs_of(Vertex vertex, std::vector<VertexPair>& pairs) const {
        const double reach = std::max(tolerance_, 1e-9);
        const CellRange range = grid_.around(point(vertex), reach);
        for (std::int64_t y = range.low.y; y <= range.high.y; ++y) {
            for (std::int64_t x = range.low.x; x <= range.high.x; ++x) {
                for (const Vertex other : grid_.in({x, y})) {
                    if (number(vertex) < number(other) && joins(vertex, other)) {
                        pairs.emplace_back(number(vertex), number(other));
                    }
                }
            }
        }
    }

    bool joins(Vertex a, Vertex b) const {
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
    bool comes_from_next_door(Vertex a, Vertex b) const {
        if (a.road != b.road) {
            return false;
        }
        const auto [first, last] = std::minmax(a.position, b.position);
        const Polyline& line = road(a).line;
        double along = 0.0;
        for (std::size_t i = first; i < last && along <= shortest_loop(metres(tolerance_)); ++i) {
            along += std::sqrt(distance_squared(line[i], line[i + 1]));
        }
        return along <= shortest_loop(metres(tolerance_));
    }

    // None of its neighbours on the line is nearer to the point, so a line joins once where it
    // passes.
    bool nearest_there(Vertex vertex, Point to) const {
        const Polyline& line = road(vertex).line;
        const std::size_t i = vertex.position;
        const double apart = distance_squared(line[i], to);
        return (i == 0 || apart <= distance_squared(line[i - 1], to)) &&
               (i + 1 == line.size() || apart <= distance_squared(line[i + 1], to));
    }

    const Road& road(Vertex vertex) const { return roads_[vertex.road]; }
    Point point(Vertex vertex) const { return road(vertex).line[vertex.position]; }
    bool is_end(Vertex vertex) const {
        return vertex.position == 0 || vertex.position + 1 == road(vertex).line.size();
    }
    std::uint32_t number(Vertex vertex) const {
        return first_vertex_[vertex.road] + vertex.position;
    }

    const std::vector<Road>& roads_;
    double tolerance_;
    std::vector<std::uint32_t> first_vertex_;
    Grid<Vertex> grid_;
};

using PairLists = std::vector<std::vector<VertexPair>>;  // by chunk of roads

// Complete unless stopped.
PairLists joining_pairs(const Joiner& joiner, std::size_t roads, const Work& work) {
    PairLists pairs(roads / roads_a_chunk + 1);
    for_each_chunk(work, "joining roads", roads, roads_a_chunk,
                   [&](std::size_t begin, std::size_t end) {
                       pairs[begin / roads_a_chunk] = joiner.pairs_of(begin, end);
                   });
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
        if (Joiner::has_length(roads[r].line)) {
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
    std::vector<std::uint32_t> first_vertex;
    PairLists pairs;
    {
        Joiner joiner(roads, tolerance);
        pairs = joining_pairs(joiner, roads.size(), work);
        first_vertex = joiner.take_numbers();
    }
    return work.stopped() ? Junctions{}
                          : in_spatial_order(numbered_nodes(roads, std::move(first_vertex), pairs));
}

}  // namespace farwater::routing
