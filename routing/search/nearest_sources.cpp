#include "routing/search/nearest_sources.h"

#include <algorithm>
#include <iterator>
#include <tuple>

#include "routing/search/search.h"
#include "routing/search/spot_ends.h"

namespace farwater::routing {
namespace {

// The nearest sources of each junction, best first.
class Nearest {
public:
    Nearest(std::size_t nodes, std::size_t most) : most_(most), lists_(nodes * most) {}

    std::span<const NearSource> of(std::size_t node) const {
        return std::span(lists_).subspan(node * most_, most_);
    }

    // False where enough others are nearer.
    bool takes(std::size_t node, NearSource one) {
        const auto list = std::span(lists_).subspan(node * most_, most_);
        if (list.back() < one) {
            return false;
        }
        auto place = std::prev(list.end());
        for (; place != list.begin() && one < *std::prev(place); --place) {
            *place = *std::prev(place);
        }
        *place = one;
        return true;
    }

private:
    std::size_t most_;
    std::vector<NearSource> lists_;
};

Nearest nearest_of_nodes(const DrivenRoads& roads, std::span<const RoadSpot> sources,
                         std::size_t most, std::int32_t limit, const Work& work) {
    Nearest nearest(roads.network.nodes.size(), most);
    Search search(roads.network.nodes.size());
    for (std::uint32_t s = 0; s < sources.size() && !work.stopped(); ++s) {
        if (!sources[s].valid()) {
            continue;
        }
        const Edge& edge = at(roads.network.edges, sources[s].edge);
        const EndCosts starts = end_costs(roads.network, roads.costs, sources[s], roads.heading);
        search.start(static_cast<std::uint32_t>(edge.from.position()), starts.from_end);
        search.start(static_cast<std::uint32_t>(edge.to.position()), starts.to_end);
        search.run_while(roads.graph, limit,
                         [&](Label label) { return nearest.takes(label.node, {label.cost, s}); });
        search.clear();
    }
    return nearest;
}

// Each source once, at its least cost, the nearest first.
void sort_and_cut(std::vector<NearSource>& found, std::size_t most) {
    std::ranges::sort(found, {}, [](NearSource one) { return std::tuple(one.source, one.cost); });
    const auto repeated = std::ranges::unique(found, {}, &NearSource::source);
    found.erase(repeated.begin(), repeated.end());
    std::ranges::sort(found);
    found.resize(std::min(found.size(), most));
}

class PlaceLists {
public:
    PlaceLists(const DrivenRoads& roads, std::span<const RoadSpot> sources, const Nearest& nearest,
               std::int32_t limit)
        : roads_(roads),
          sources_(sources),
          nearest_(nearest),
          limit_(limit),
          ends_(spot_ends(roads.network, sources, roads.costs, roads.costs)) {}

    std::vector<NearSource> of(RoadSpot place, std::size_t most) const {
        std::vector<NearSource> found;
        if (!place.valid()) {
            return found;
        }
        const Edge& edge = at(roads_.network.edges, place.edge);
        const bool away = roads_.heading == Heading::away;
        const EndCosts costs =
            end_costs(roads_.network, roads_.costs, place, away ? Heading::towards : Heading::away);
        add_beyond(edge.from, costs.from_end, found);
        add_beyond(edge.to, costs.to_end, found);
        for (const SpotEnd& end : ends_.around(edge.from)) {
            const RoadSpot source = sources_[end.spot];
            if (source.edge == place.edge) {
                add({cost_along(roads_.network, roads_.costs, away ? source : place,
                                away ? place : source),
                     end.spot},
                    found);
            }
        }
        sort_and_cut(found, most);
        return found;
    }

private:
    void add(NearSource one, std::vector<NearSource>& found) const {
        if (one.cost <= limit_) {
            found.push_back(one);
        }
    }
    void add_beyond(NodeIndex node, std::int32_t cost, std::vector<NearSource>& found) const {
        for (const NearSource& one : nearest_.of(node.position())) {
            add({plus(one.cost, cost), one.source}, found);
        }
    }

    const DrivenRoads& roads_;
    std::span<const RoadSpot> sources_;
    const Nearest& nearest_;
    std::int32_t limit_;
    SpotEnds ends_;
};

}  // namespace

Lists<NearSource> nearest_sources(const DrivenRoads& roads, std::span<const RoadSpot> sources,
                                  std::span<const RoadSpot> places, std::size_t most,
                                  std::int32_t limit, const Work& work) {
    const std::int32_t reach = std::min(limit, most_cost);  // below no_way, which is no cost
    const Nearest nearest = nearest_of_nodes(roads, sources, most, reach, work);
    const PlaceLists lists_of(roads, sources, nearest, reach);
    Lists<NearSource> lists;
    lists.begin.reserve(places.size() + 1);
    for (const RoadSpot place : places) {
        const std::vector<NearSource> list = lists_of.of(place, most);
        lists.items.insert(lists.items.end(), list.begin(), list.end());
        lists.close_row();
    }
    return lists;
}

}  // namespace farwater::routing
