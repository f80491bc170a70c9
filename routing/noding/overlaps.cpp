#include <algorithm>
#include <array>

#include "routing/noding/network_problems.h"

namespace farwater::routing {
namespace {

constexpr double on_each_other = 0.1;  // metres

class EdgeComparer {
public:
    EdgeComparer(const std::vector<Road>& roads, const Network& network)
        : roads_(roads), network_(network) {}

    bool may_overlap(const Incidence& a, const Incidence& b) const {
        return a.edge != b.edge && level(a) == level(b);
    }
    double length(const Incidence& incidence) const {
        return in_metres(at(network_.edges, incidence.edge).length());
    }
    bool overlap(const Incidence& a, const Incidence& b) const {
        return std::ranges::all_of(quarters, [&](double share) {
            return distance_squared(place(a, share), place(b, share)) <=
                   on_each_other * on_each_other;
        });
    }

private:
    static constexpr std::array quarters{0.25, 0.5, 0.75};

    int level(const Incidence& incidence) const { return road(incidence).level; }
    const Road& road(const Incidence& incidence) const {
        return at(roads_, at(network_.edges, incidence.edge).road);
    }
    // So much of the way from the node to the other one.
    Point place(const Incidence& incidence, double share) const {
        const Edge& edge = at(network_.edges, incidence.edge);
        const double along = length(incidence) * (incidence.forward ? share : 1.0 - share);
        return point_along(road(incidence).line, edge.begin + along);
    }

    const std::vector<Road>& roads_;
    const Network& network_;
};

}  // namespace

std::vector<Overlap> find_overlaps(const std::vector<Road>& roads, const Network& network) {
    const EdgeComparer comparer(roads, network);
    std::vector<Overlap> overlaps;
    for (std::size_t n = 0; n < network.nodes.size(); ++n) {
        const std::span<const Incidence> around = network.around(NodeIndex(n));
        for (auto one = around.begin(); one != around.end(); ++one) {
            if (one->other < NodeIndex(n)) {
                continue;  // seen from the other node
            }
            for (auto next = one + 1;
                 next != around.end() && next->other == one->other &&
                 comparer.length(*next) - comparer.length(*one) <= 4 * on_each_other;
                 ++next) {
                if (comparer.may_overlap(*one, *next) && comparer.overlap(*one, *next)) {
                    const auto [first, second] = std::minmax(one->edge, next->edge);
                    overlaps.push_back({first, second});
                }
            }
        }
    }
    std::ranges::sort(overlaps);
    const auto repeated = std::ranges::unique(overlaps);
    overlaps.erase(repeated.begin(), repeated.end());
    return overlaps;
}

}  // namespace farwater::routing
