#include "routing/source_lays.h"

#include <algorithm>
#include <cstdint>
#include <memory>
#include <tuple>
#include <vector>

#include "routing/costs.h"
#include "routing/search/search.h"
#include "routing/search/spot_ends.h"
#include "routing/sites/hose_lays.h"
#include "routing/structures/pool.h"

namespace farwater::routing {
namespace {

constexpr std::size_t fill_sites_a_chunk = 8;

// A way from a fill site to a parcel or target; millimetres without the setback.
struct HoseWay {
    std::uint32_t served = 0;
    std::uint8_t strength_class = 0;
    std::int32_t along = 0;
    std::uint32_t fill_site = 0;
    friend auto operator<=>(const HoseWay&, const HoseWay&) = default;
};

// The nearest of each class of a parcel; of equals the first fill site. By parcel, then length.
void keep_nearest(std::vector<HoseWay>& ways) {
    std::ranges::sort(ways);
    const auto rest = std::ranges::unique(ways, [](const HoseWay& a, const HoseWay& b) {
        return a.served == b.served && a.strength_class == b.strength_class;
    });
    ways.erase(rest.begin(), rest.end());
    std::ranges::sort(ways, [](const HoseWay& a, const HoseWay& b) {
        return std::tie(a.served, a.along, a.fill_site) < std::tie(b.served, b.along, b.fill_site);
    });
}

Lists<SourceLay> lists_of(const HoseFromPlaces& hose, std::size_t served_places,
                          const std::vector<HoseWay>& ways) {
    Lists<SourceLay> lists;
    auto way = ways.begin();
    for (std::uint32_t served = 0; served < served_places; ++served) {
        for (; way != ways.end() && way->served == served; ++way) {
            if (const auto length = hose.whole({served, way->along})) {
                lists.items.push_back({FillSiteIndex(way->fill_site), *length});
            }
        }
        lists.close_row();
    }
    return lists;
}

}  // namespace

HoseFromPlaces::HoseFromPlaces(const RoadSystem& roads)
    : roads_(roads),
      lengths_(lengths_of(roads.network, std::vector<std::uint8_t>(roads.network.edges.size(), 1))),
      graph_(search_graph(roads.network, lengths_, Heading::away)),
      ends_(spot_ends(roads.network, roads.access.spots, lengths_, lengths_)),
      reach_(millimetres(roads.district.assumptions.relay_reach)) {}

std::vector<HoseTo> HoseFromPlaces::from(Point place, RoadSpot spot, Search& search) const {
    std::vector<HoseTo> ways;
    if (!spot.valid()) {
        return ways;
    }
    const std::int32_t off_road =
        millimetres(distance(place, place_of(roads_.district, roads_.network, spot)));
    const auto add = [&](std::uint32_t served, std::int32_t along) {
        if (plus(along, off_road) <= reach_) {
            ways.push_back({served, along + off_road});
        }
    };
    const Edge& edge = at(roads_.network.edges, spot.edge);
    const EndCosts from = end_costs(roads_.network, lengths_, spot, Heading::away);
    search.start(static_cast<std::uint32_t>(edge.from.position()), from.from_end);
    search.start(static_cast<std::uint32_t>(edge.to.position()), from.to_end);
    search.run(graph_, reach_);
    for (const std::uint32_t node : search.reached()) {
        for (const SpotEnd& end : ends_.around(NodeIndex(node))) {
            add(end.spot, plus(search.cost(node), end.to_spot));
        }
    }
    for (const SpotEnd& end : ends_.around(edge.from)) {
        const RoadSpot house = roads_.access.spots[end.spot];
        if (house.edge == spot.edge) {
            add(end.spot, cost_along(roads_.network, lengths_, spot, house));
        }
    }
    search.clear();
    return ways;
}

std::optional<Length> HoseFromPlaces::whole(HoseTo hose) const {
    const std::optional<Length> setback = setback_of(roads_.district, roads_.access, hose.served);
    if (!setback) {
        return std::nullopt;
    }
    const Length length = metres(hose.along / 1e3) + *setback;
    return length <= roads_.district.assumptions.relay_reach ? std::optional(length) : std::nullopt;
}

Lists<SourceLay> find_source_lays(const RoadSystem& roads,
                                  std::span<const FillSitePlace> fill_sites, const Work& work) {
    const HoseFromPlaces hose(roads);
    Pool<Search> searches([&] { return std::make_unique<Search>(roads.network.nodes.size()); });
    std::vector<std::vector<HoseWay>> of_chunk(fill_sites.size() / fill_sites_a_chunk + 1);
    const auto lay_some = [&](std::size_t begin, std::size_t end) {
        const Pool<Search>::Borrowed search(searches);
        std::vector<HoseWay>& ways = of_chunk[begin / fill_sites_a_chunk];
        for (std::size_t i = begin; i < end && !work.stopped(); ++i) {
            const FillSitePlace& place = fill_sites[i];
            for (const HoseTo& to :
                 hose.from(place.place, at(roads.access.sources, place.source), *search)) {
                ways.push_back(
                    {to.served, place.strength_class, to.along, static_cast<std::uint32_t>(i)});
            }
        }
        keep_nearest(ways);
    };
    for_each_chunk(work, "hose from sources", fill_sites.size(), fill_sites_a_chunk, lay_some);
    std::vector<HoseWay> ways;
    for (const std::vector<HoseWay>& some : of_chunk) {
        ways.insert(ways.end(), some.begin(), some.end());
    }
    keep_nearest(ways);
    return lists_of(hose, roads.access.points.size(), ways);
}

}  // namespace farwater::routing
