#include "routing/noding/duplicates.h"

#include <algorithm>

namespace farwater::routing {
namespace {

class LineMatcher {
public:
    LineMatcher(const std::vector<Road>& roads, const JoinReach& reach)
        : roads_(roads), apart_squared_(reach.inside * reach.inside) {}

    bool same(std::uint32_t a, std::uint32_t b) const {
        const Road& one = roads_[a];
        const Road& other = roads_[b];
        if (one.line.size() != other.line.size() || one.level != other.level) {
            return false;
        }
        return (same_way(one.line, other.line) && may_be_one(one, other, false)) ||
               (same_way_back(one.line, other.line) && may_be_one(one, other, true));
    }

private:
    bool near(Point p, Point q) const { return distance_squared(p, q) <= apart_squared_; }

    bool same_way(const Polyline& one, const Polyline& other) const {
        return std::ranges::equal(one, other, [&](Point p, Point q) { return near(p, q); });
    }
    bool same_way_back(const Polyline& one, const Polyline& other) const {
        return std::equal(one.begin(), one.end(), other.rbegin(),
                          [&](Point p, Point q) { return near(p, q); });
    }

    // Not when each is open only in the direction in which the other is closed.
    static bool may_be_one(const Road& one, const Road& other, bool reversed) {
        const bool any_both = one.one_way == OneWay::both || other.one_way == OneWay::both;
        return any_both || (one.one_way == other.one_way) != reversed;
    }

    const std::vector<Road>& roads_;
    double apart_squared_;
};

}  // namespace

std::vector<Duplicate> find_duplicates(const std::vector<Road>& roads, const Vertices& vertices,
                                       const JoinReach& reach, const PairLists& joined) {
    const LineMatcher matcher(roads, reach);
    std::vector<Duplicate> same;
    for (const std::vector<VertexPair>& some : joined) {
        for (const auto& [a, b] : some) {
            const auto [of, road] = std::minmax(vertices.roads[a], vertices.roads[b]);
            if (of != road && vertices.is_end(a) && vertices.is_end(b) && matcher.same(of, road)) {
                same.push_back({road, of});
            }
        }
    }
    std::ranges::sort(same);
    std::vector<Duplicate> duplicates;
    for (const Duplicate& pair : same) {
        const bool done = !duplicates.empty() && duplicates.back().road == pair.road;
        const bool kept = !std::ranges::binary_search(duplicates, pair.of, {}, &Duplicate::road);
        if (!done && kept) {
            duplicates.push_back(pair);
        }
    }
    return duplicates;
}

}  // namespace farwater::routing
