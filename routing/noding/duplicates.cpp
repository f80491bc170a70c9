#include "routing/noding/duplicates.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <tuple>

namespace farwater::routing {
namespace {

class LineMatcher {
public:
    LineMatcher(const std::vector<Road>& roads, const JoinReach& reach)
        : roads_(roads), apart_squared_(reach.inside * reach.inside) {}

    // Whether the second is drawn from the first one's end; none where they are two roads.
    std::optional<bool> reversed(std::uint32_t a, std::uint32_t b) const {
        const Road& one = roads_[a];
        const Road& other = roads_[b];
        if (one.line.size() != other.line.size() || one.level != other.level) {
            return std::nullopt;
        }
        if (may_be_one(one, other, false) && same_way(one.line, other.line)) {
            return false;
        }
        return may_be_one(one, other, true) && same_way_back(one.line, other.line)
                   ? std::optional(true)
                   : std::nullopt;
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

// The middle between a line's ends, which is the same from either end.
struct Middle {
    Point place;
    std::uint32_t road = 0;
};

std::vector<Middle> middles_by_x(const std::vector<Road>& roads) {
    std::vector<Middle> middles;
    middles.reserve(roads.size());
    for (std::uint32_t r = 0; r < roads.size(); ++r) {
        const Polyline& line = roads[r].line;
        if (has_length(line)) {
            const Point a = line.front();
            const Point b = line.back();
            middles.push_back({{(a.x + b.x) / 2.0, (a.y + b.y) / 2.0}, r});
        }
    }
    std::ranges::sort(middles, [](const Middle& a, const Middle& b) {
        return std::tuple(a.place.x, a.road) < std::tuple(b.place.x, b.road);
    });
    return middles;
}

}  // namespace

std::vector<Duplicate> drawn_alike(const std::vector<Road>& roads, const JoinReach& reach) {
    const LineMatcher matcher(roads, reach);
    const std::vector<Middle> middles = middles_by_x(roads);
    const double apart = reach.inside + 1e-6;  // and what rounding does to a middle
    std::vector<Duplicate> alike;
    for (auto one = middles.begin(); one != middles.end(); ++one) {
        for (auto other = one + 1; other != middles.end() && other->place.x - one->place.x <= apart;
             ++other) {
            if (std::abs(other->place.y - one->place.y) > apart) {
                continue;
            }
            const auto [of, road] = std::minmax(one->road, other->road);
            if (const std::optional<bool> reversed = matcher.reversed(of, road)) {
                alike.push_back({road, of, *reversed});
            }
        }
    }
    std::ranges::sort(alike);
    return alike;
}

std::vector<Duplicate> first_of_each(const std::vector<Duplicate>& alike) {
    std::vector<Duplicate> duplicates;
    for (const Duplicate& pair : alike) {
        const bool done = !duplicates.empty() && duplicates.back().road == pair.road;
        const bool kept = !std::ranges::binary_search(duplicates, pair.of, {}, &Duplicate::road);
        if (!done && kept) {
            duplicates.push_back(pair);
        }
    }
    return duplicates;
}

}  // namespace farwater::routing
