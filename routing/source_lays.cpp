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

void add_ways(std::span<const HoseTo> reached, const FillSitePlace& place, std::size_t fill_site,
              std::vector<HoseWay>& ways) {
    for (const HoseTo& to : reached) {
        ways.push_back(
            {to.served, place.strength_class, to.along, static_cast<std::uint32_t>(fill_site)});
    }
}

// A lay to the one parcel that a fill site is for.
struct LayToOwner {
    std::uint32_t served = 0;
    SourceLay lay;
};

bool is_shorter(const SourceLay& a, const SourceLay& b) {
    return std::tuple(a.length, a.fill_site) < std::tuple(b.length, b.fill_site);
}

// What the fill sites of a chunk reach.
struct Found {
    std::vector<HoseWay> ways;         // from those that are for every place
    std::vector<LayToOwner> to_owner;  // from the others, by fill site
};

// Straight over the owner's ground, counted as hose off the road is; none where that is too far.
std::optional<Length> over_own_ground(const District& district, const FillSitePlace& place) {
    const Assumptions& assumptions = district.assumptions;
    const Length straight = distance(place.place, at(district.parcels, place.only_for).house);
    return straight <= assumptions.off_road_hose
               ? std::optional(straight * assumptions.setback_factor + assumptions.setback_extra)
               : std::nullopt;
}

// The shorter of both ways.
void add_to_owner(const District& district, const FillSitePlace& place, FillSiteIndex fill_site,
                  std::optional<Length> by_road, std::vector<LayToOwner>& lays) {
    std::optional<Length> lay = over_own_ground(district, place);
    if (!lay || (by_road && *by_road < *lay)) {
        lay = by_road;
    }
    if (lay) {
        lays.push_back({static_cast<std::uint32_t>(place.only_for.position()), {fill_site, *lay}});
    }
}

// All together, those to owners by parcel.
Found joined(std::span<const Found> of_chunk) {
    Found all;
    for (const Found& some : of_chunk) {
        all.ways.insert(all.ways.end(), some.ways.begin(), some.ways.end());
        all.to_owner.insert(all.to_owner.end(), some.to_owner.begin(), some.to_owner.end());
    }
    keep_nearest(all.ways);
    std::ranges::stable_sort(all.to_owner, {}, &LayToOwner::served);
    return all;
}

Lists<SourceLay> lists_of(const HoseFromPlaces& hose, std::size_t served_places,
                          const Found& found) {
    Lists<SourceLay> lists;
    auto way = found.ways.begin();
    auto own = found.to_owner.begin();
    for (std::uint32_t served = 0; served < served_places; ++served) {
        for (; way != found.ways.end() && way->served == served; ++way) {
            if (const auto length = hose.whole({served, way->along})) {
                lists.items.push_back({FillSiteIndex(way->fill_site), *length});
            }
        }
        for (; own != found.to_owner.end() && own->served == served; ++own) {
            const auto row = lists.items.begin() + lists.begin.back();
            lists.items.insert(std::upper_bound(row, lists.items.end(), own->lay, is_shorter),
                               own->lay);
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

std::optional<Length> HoseFromPlaces::shortest(std::span<const HoseTo> reached,
                                               std::size_t served) const {
    std::optional<Length> least;
    for (const HoseTo& to : reached) {
        const std::optional<Length> length = to.served == served ? whole(to) : std::nullopt;
        least = length && (!least || *length < *least) ? length : least;
    }
    return least;
}

Lists<SourceLay> find_source_lays(const RoadSystem& roads,
                                  std::span<const FillSitePlace> fill_sites, const Work& work) {
    const HoseFromPlaces hose(roads);
    Pool<Search> searches([&] { return std::make_unique<Search>(roads.network.nodes.size()); });
    std::vector<Found> of_chunk(fill_sites.size() / fill_sites_a_chunk + 1);
    const auto lay_some = [&](std::size_t begin, std::size_t end) {
        const Pool<Search>::Borrowed search(searches);
        Found& found = of_chunk[begin / fill_sites_a_chunk];
        for (std::size_t i = begin; i < end && !work.stopped(); ++i) {
            const FillSitePlace& place = fill_sites[i];
            const std::vector<HoseTo> reached =
                hose.from(place.place, at(roads.access.sources, place.source), *search);
            if (place.is_for_all()) {
                add_ways(reached, place, i, found.ways);
            } else {
                add_to_owner(roads.district, place, FillSiteIndex(i),
                             hose.shortest(reached, place.only_for.position()), found.to_owner);
            }
        }
        keep_nearest(found.ways);
    };
    for_each_chunk(work, "hose from sources", fill_sites.size(), fill_sites_a_chunk, lay_some);
    return lists_of(hose, roads.access.points.size(), joined(of_chunk));
}

}  // namespace farwater::routing
