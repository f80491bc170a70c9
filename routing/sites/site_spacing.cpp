#include "routing/sites/site_spacing.h"

#include <algorithm>
#include <cmath>
#include <tuple>
#include <utility>

#include "routing/costs.h"
#include "routing/search/search.h"

namespace farwater::routing {
namespace {

class Spacing {
public:
    Spacing(const Network& network, const SiteRules& rules, std::vector<RoadSpot> taken,
            Length spacing, Length level_reach)
        : network_(network),
          rules_(rules),
          taken_(std::move(taken)),
          spacing_(in_metres(spacing)),
          level_reach_(in_metres(level_reach)),
          lengths_(lengths_of(network, rules.driven())),
          graph_(search_graph(network, lengths_, Heading::away)),
          nearest_(network.nodes.size()) {
        std::ranges::sort(taken_, before);
        for (const RoadSpot& spot : taken_) {
            take(spot);
        }
    }

    // Measures the way from a site to all junctions nearer to it than to any earlier site.
    void take(RoadSpot spot) {
        const Edge& edge = at(network_.edges, spot.edge);
        const EndCosts ends = end_costs(network_, lengths_, spot, Heading::away);
        nearest_.start(number(edge.from), ends.from_end);
        nearest_.start(number(edge.to), ends.to_end);
        nearest_.run(graph_, millimetres(metres(spacing_)));
    }

    void add_junctions() {
        for (std::size_t n = 0; n < network_.nodes.size(); ++n) {
            const NodeIndex node(n);
            if (driven_around(node) < 3 || way_to_site(node) < spacing_ || !rules_.has_site(node)) {
                continue;
            }
            const RoadSpot spot = rules_.spot_at(node);
            if (rules_.clear_of_rail(spot)) {
                sites_.push_back(spot);
                take(spot);
            }
        }
    }

    // Each edge once, from its lower node.
    void add_along_edges() {
        for (std::size_t n = 0; n < network_.nodes.size(); ++n) {
            for (const Incidence& incidence : network_.around(NodeIndex(n))) {
                const bool first_seen = NodeIndex(n) < incidence.other ||
                                        (NodeIndex(n) == incidence.other && incidence.forward);
                if (first_seen && rules_.has_sites(incidence.edge)) {
                    add_along(incidence.edge);
                }
            }
        }
    }

    std::vector<RoadSpot> take_sites() { return std::move(sites_); }

private:
    static bool before(const RoadSpot& a, const RoadSpot& b) {
        return std::tie(a.edge, a.along) < std::tie(b.edge, b.along);
    }
    static std::uint32_t number(NodeIndex node) {
        return static_cast<std::uint32_t>(node.position());
    }

    // Metres to the nearest site; the spacing where that is farther.
    double way_to_site(NodeIndex node) const {
        const std::int32_t way = nearest_.cost(number(node));
        return way == no_way ? spacing_ : std::min(way / 1e3, spacing_);
    }

    std::size_t driven_around(NodeIndex node) const {
        const std::span<const Incidence> around = network_.around(node);
        return static_cast<std::size_t>(std::ranges::count_if(
            around,
            [&](const Incidence& incidence) { return at(rules_.driven(), incidence.edge) != 0; }));
    }

    // As many as fit between the sites beyond both ends, evenly; a single one in the middle.
    void add_along(EdgeIndex index) {
        const Edge& edge = at(network_.edges, index);
        const double length = in_metres(edge.length());
        const double first = spacing_ - way_to_site(edge.from);
        const double last = length - (spacing_ - way_to_site(edge.to));
        if (last < first) {
            return;
        }
        const auto steps = static_cast<int>((last - first) / spacing_);
        for (int i = 0; i <= steps; ++i) {
            const double along =
                steps == 0 ? (first + last) / 2 : first + (last - first) * i / steps;
            if (const auto level = rules_.level().nearest(spot_on(network_, index, along),
                                                          std::max(first, along - level_reach_),
                                                          std::min(last, along + level_reach_))) {
                add_at(*level);
            }
        }
    }

    void add_at(RoadSpot spot) {
        const Edge& edge = at(network_.edges, spot.edge);
        const bool inside = spot.along > 0.0 && spot.along < in_metres(edge.length());
        const NodeIndex end = spot.along > 0.0 ? edge.to : edge.from;
        if ((inside || rules_.has_site(end)) && !near_taken_on_edge(spot) &&
            rules_.clear_of_rail(spot)) {
            sites_.push_back(spot);
            take(spot);
        }
    }

    // The way to junctions says nothing of a site that was taken in the middle of this edge.
    bool near_taken_on_edge(RoadSpot spot) const {
        const auto next = std::ranges::lower_bound(taken_, spot, before);
        const auto near = [&](const RoadSpot& taken) {
            return taken.edge == spot.edge && std::abs(taken.along - spot.along) < spacing_;
        };
        return (next != taken_.end() && near(*next)) ||
               (next != taken_.begin() && near(*std::prev(next)));
    }

    const Network& network_;
    const SiteRules& rules_;
    std::vector<RoadSpot> taken_;   // by edge, then along it
    double spacing_, level_reach_;  // metres
    EdgeCosts lengths_;
    SearchGraph graph_;
    Search nearest_;
    std::vector<RoadSpot> sites_;
};

}  // namespace

std::vector<RoadSpot> spaced_sites(const Network& network, const SiteRules& rules,
                                   std::span<const RoadSpot> taken, Length spacing,
                                   Length level_reach) {
    Spacing sites(network, rules, {taken.begin(), taken.end()}, spacing, level_reach);
    sites.add_junctions();
    sites.add_along_edges();
    return sites.take_sites();
}

}  // namespace farwater::routing
