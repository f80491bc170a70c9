#include "routing/noding/join.h"

#include <algorithm>
#include <span>

#include "routing/structures/grid.h"
#include "routing/structures/keyed.h"

namespace farwater::routing {
namespace {

constexpr std::size_t entries_a_chunk = 16384;

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
        if (!vertices.takes_part(v)) {
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

// The rules of joining vertices.
class Joiner {
public:
    Joiner(const std::vector<Road>& roads, const Vertices& vertices, const JoinReach& reach)
        : roads_(roads), vertices_(vertices), reach_(reach) {}

    // The pairs that join among the entries of one cell; by x, so that a crowd costs little.
    void append_pairs(std::vector<Keyed> cell, std::vector<VertexPair>& pairs) const {
        std::ranges::sort(cell, [&](const Keyed& a, const Keyed& b) {
            return std::pair(point(a.position).x, a.position) <
                   std::pair(point(b.position).x, b.position);
        });
        for (auto one = cell.begin(); one != cell.end(); ++one) {
            for (auto other = one + 1;
                 other != cell.end() &&
                 point(other->position).x - point(one->position).x <= reach_.end;
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
        if (apart > reach_.end * reach_.end || comes_from_next_door(a, b)) {
            return false;
        }
        if (is_end(a) && is_end(b)) {
            return true;
        }
        if (is_end(a) || is_end(b)) {
            return is_end(a) ? nearest_there(b, point(a)) : nearest_there(a, point(b));
        }
        return apart <= reach_.inside * reach_.inside && road(a).level == road(b).level &&
               nearest_there(a, point(b)) && nearest_there(b, point(a));
    }

    // On one line, and no farther apart along it than the tolerance explains.
    bool comes_from_next_door(std::uint32_t a, std::uint32_t b) const {
        if (vertices_.roads[a] != vertices_.roads[b]) {
            return false;
        }
        const auto [first, last] = std::minmax(a, b);
        const double loop = reach_.shortest_loop();
        return metres_between(vertices_, first, last, loop) <= loop;
    }

    // None of its neighbours on the line is nearer to the point, so a line joins once where it
    // passes.
    bool nearest_there(std::uint32_t v, Point to) const {
        const double apart = distance_squared(point(v), to);
        return (vertices_.is_first(v) || apart <= distance_squared(point(v - 1), to)) &&
               (vertices_.is_last(v) || apart <= distance_squared(point(v + 1), to));
    }

    const Road& road(std::uint32_t v) const { return roads_[vertices_.roads[v]]; }
    Point point(std::uint32_t v) const { return vertices_.points[v]; }
    bool is_end(std::uint32_t v) const { return vertices_.is_end(v); }

    const std::vector<Road>& roads_;
    const Vertices& vertices_;
    JoinReach reach_;
};

}  // namespace

PairLists joining_pairs(const std::vector<Road>& roads, const Vertices& vertices,
                        const JoinReach& reach, const Work& work) {
    const std::vector<Keyed> entries = by_cell(vertices, reach.end);
    const Joiner joiner(roads, vertices, reach);
    PairLists pairs(entries.size() / entries_a_chunk + 1);
    const auto join_some = [&](std::size_t begin, std::size_t end) {
        visit_keys(entries, begin, end, [&](std::span<const Keyed> cell) {
            joiner.append_pairs({cell.begin(), cell.end()}, pairs[begin / entries_a_chunk]);
        });
    };
    for_each_chunk(work, "joining roads", entries.size(), entries_a_chunk, join_some);
    return pairs;
}

}  // namespace farwater::routing
