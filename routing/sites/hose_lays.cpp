#include "routing/sites/hose_lays.h"

#include <algorithm>
#include <cmath>
#include <memory>
#include <tuple>
#include <utility>

#include "routing/costs.h"
#include "routing/dump_sites.h"
#include "routing/search/search.h"
#include "routing/search/spot_ends.h"
#include "routing/sites/own_places.h"
#include "routing/structures/hilbert.h"
#include "routing/structures/pool.h"

namespace farwater::routing {
namespace {

constexpr std::size_t houses_a_chunk = 4096;

std::vector<RoadSpot> spots_of(std::span<const SitePlace> sites) {
    std::vector<RoadSpot> spots;
    spots.reserve(sites.size());
    for (const SitePlace& site : sites) {
        spots.push_back(site.spot);
    }
    return spots;
}

EdgeCosts lengths_of_all(const Network& network) {
    return lengths_of(network, std::vector<std::uint8_t>(network.edges.size(), 1));
}

class HoseLayer {
public:
    HoseLayer(const District& district, const Network& network, const Access& access,
              const SiteRules& rules, const DriveThrough& drive_through,
              std::span<const SitePlace> sites)
        : district_(district),
          network_(network),
          access_(access),
          rules_(rules),
          drive_through_(drive_through),
          sites_(sites),
          lengths_(lengths_of_all(network)),
          graph_(search_graph(network, lengths_, Heading::away)),
          ends_(spot_ends(network, spots_of(sites), lengths_, lengths_)),
          own_places_(district, network, lengths_, rules, drive_through),
          near_(millimetres(district.assumptions.dump_site_spacing / 2.0)) {}

    // Adds the lays of one parcel or target, in order. `paths` are clear before and after.
    void append_lays_of(std::uint32_t number, HosePaths& paths, Lays& lays) const {
        const std::optional<Length> setback = setback_of(district_, access_, number);
        const Length reach = district_.assumptions.hose_reach;
        if (!setback || *setback > reach) {
            return;
        }
        const auto left = static_cast<std::int32_t>(
            std::min(std::floor(in_metres(reach - *setback) * 1e3 + 1e-6), double{most_cost}));
        const HouseOnRoad house{number, access_.spots[number], house_of(district_, number), left};
        paths.begin(house.spot, house.reach);
        std::vector<LayKind> known;
        bool all_year = false;
        for (Lay& lay : lays_from_sites(house, paths)) {
            const SitePlace& site = sites_[lay.site];
            const std::vector<EdgeIndex> closed = paths.edges_to(site.spot);
            if (lay.along <= near_) {
                known.push_back({paths.side_of(site.spot), drive_through_.at_site(site, closed)});
            }
            all_year = all_year || rules_.driven_all_year(site.spot.edge);
            lay.closed = add_row(lays.closed, closed);
            lays.from_sites.push_back(lay);
        }
        std::vector<OwnPlace> own = own_places_.of(house, paths, known);
        all_year = all_year || std::ranges::any_of(own, [&](const OwnPlace& place) {
                       return rules_.driven_all_year(place.spot.edge);
                   });
        if (const auto place = all_year ? std::nullopt : own_places_.all_year_of(house, paths)) {
            own.push_back(*place);
        }
        for (const OwnPlace& place : own) {
            lays.own.push_back({number, place.along, place.spot,
                                add_row(lays.closed, paths.edges_to(place.spot))});
        }
        paths.clear();
    }

    HosePaths paths() const { return {network_, lengths_, graph_}; }

private:
    static std::uint32_t add_row(Lists<EdgeIndex>& rows, std::span<const EdgeIndex> row) {
        rows.items.insert(rows.items.end(), row.begin(), row.end());
        rows.close_row();
        return static_cast<std::uint32_t>(rows.size() - 1);
    }

    // Millimetres off the road to an officer's place; other sites are on the road.
    std::int32_t off_road(const SitePlace& site) const {
        return site.officers_place
                   ? millimetres(distance(site.place, place_of(district_, network_, site.spot)))
                   : 0;
    }

    // The ways to sites around reached junctions and along the parcel's own edge; a site may come
    // more than once.
    std::vector<Lay> ways_to_sites(const HouseOnRoad& house, const Search& search) const {
        std::vector<Lay> ways;
        for (const std::uint32_t node : search.reached()) {
            for (const SpotEnd& end : ends_.around(NodeIndex(node))) {
                if (plus(search.cost(node), end.from_spot) <= house.reach) {
                    ways.push_back({house.served, end.spot, search.cost(node) + end.from_spot});
                }
            }
        }
        const Edge& edge = at(network_.edges, house.spot.edge);
        for (const SpotEnd& end : ends_.around(edge.from)) {
            if (sites_[end.spot].spot.edge == house.spot.edge) {
                ways.push_back({house.served, end.spot,
                                cost_along(network_, lengths_, sites_[end.spot].spot, house.spot)});
            }
        }
        return ways;
    }

    // The nearest such lay stays, even where many are nearer: those in front of it from `place` on
    // move back.
    template <class Is>
    static void keep_one(std::vector<Lay>& ways, std::size_t place, const Is& is) {
        const auto there = ways.begin() + static_cast<std::ptrdiff_t>(place);
        const auto first = std::ranges::find_if(ways, is);
        if (first != ways.end() && first > there) {
            std::rotate(there, first, std::next(first));
        }
    }

    std::vector<Lay> lays_from_sites(const HouseOnRoad& house, const HosePaths& paths) const {
        std::vector<Lay> ways = ways_to_sites(house, paths.search());
        std::ranges::sort(ways, [](const Lay& a, const Lay& b) {
            return std::tie(a.site, a.along) < std::tie(b.site, b.along);
        });
        const auto rest =
            std::ranges::unique(ways, [](const Lay& a, const Lay& b) { return a.site == b.site; });
        ways.erase(rest.begin(), rest.end());
        for (Lay& lay : ways) {
            lay.along += off_road(sites_[lay.site]);
        }
        std::erase_if(ways, [&](const Lay& lay) {
            return lay.along > house.reach || !stands_off(district_, house, sites_[lay.site].place);
        });
        std::ranges::sort(ways, [&](const Lay& a, const Lay& b) {
            return std::tuple(!sites_[a.site].officers_place, a.along, a.site) <
                   std::tuple(!sites_[b.site].officers_place, b.along, b.site);
        });
        const auto all_year = [&](const Lay& lay) {
            return rules_.driven_all_year(sites_[lay.site].spot.edge);
        };
        const auto from_other_side = [&](const Lay& lay) {
            return paths.side_of(sites_[lay.site].spot).from_end !=
                   paths.side_of(sites_[ways.front().site].spot).from_end;
        };
        if (ways.size() > most_hose_lays) {
            keep_one(ways, most_hose_lays - 2, all_year);
            keep_one(ways, most_hose_lays - 1, from_other_side);
            ways.resize(most_hose_lays);
        }
        return ways;
    }

    const District& district_;
    const Network& network_;
    const Access& access_;
    const SiteRules& rules_;
    const DriveThrough& drive_through_;
    std::span<const SitePlace> sites_;
    EdgeCosts lengths_;
    SearchGraph graph_;
    SpotEnds ends_;
    OwnPlaces own_places_;
    std::int32_t near_;  // as far from a site to the access point, its side needs no own place
};

// Those that are asked for and that a road reaches, so that near ones come one after the other.
std::vector<std::uint32_t> reached_in_spatial_order(const Access& access,
                                                    const std::vector<bool>& asked) {
    std::vector<Point> places;
    places.reserve(access.points.size());
    for (const AccessPoint& point : access.points) {
        places.push_back(point.place);
    }
    std::vector<std::uint32_t> order = spatial_order(places);
    std::erase_if(order, [&](std::uint32_t served) {
        return !asked[served] || !access.spots[served].valid();
    });
    return order;
}

void append_part(Lays& all, const Lays& part) {
    const auto rows_before = static_cast<std::uint32_t>(all.closed.size());
    for (Lay lay : part.from_sites) {
        lay.closed += rows_before;
        all.from_sites.push_back(lay);
    }
    for (OwnLay lay : part.own) {
        lay.closed += rows_before;
        all.own.push_back(lay);
    }
    for (std::size_t row = 0; row < part.closed.size(); ++row) {
        const std::span<const EdgeIndex> closed = part.closed[row];
        all.closed.items.insert(all.closed.items.end(), closed.begin(), closed.end());
        all.closed.close_row();
    }
}

Lays gathered(std::vector<Lays> parts) {
    std::size_t count = 0;
    for (const Lays& part : parts) {
        count += part.from_sites.size();
    }
    Lays all;
    all.from_sites.reserve(count);
    for (Lays& part : parts) {
        append_part(all, part);
        part = {};
    }
    return all;
}

}  // namespace

std::optional<Length> setback_of(const District& district, const Access& access,
                                 std::size_t served) {
    const Assumptions& assumptions = district.assumptions;
    if (!access.spots[served].valid()) {
        return std::nullopt;
    }
    const bool drive = at(district.roads, access.points[served].road).kind == RoadClass::drive;
    if (!drive && served < district.parcels.size() && district.parcels[served].setback) {
        return district.parcels[served].setback;
    }
    const Length straight = access.points[served].off_road;
    if (straight > assumptions.off_road_hose) {
        return std::nullopt;
    }
    return straight * assumptions.setback_factor + assumptions.setback_extra;
}

Lays find_hose_lays(const District& district, const Network& network, const Access& access,
                    const SiteRules& rules, const DriveThrough& drive_through,
                    std::span<const SitePlace> sites, const std::vector<bool>& asked,
                    const Work& work) {
    const HoseLayer layer(district, network, access, rules, drive_through, sites);
    const std::vector<std::uint32_t> order = reached_in_spatial_order(access, asked);
    Pool<HosePaths> all_paths([&] { return std::make_unique<HosePaths>(layer.paths()); });
    std::vector<Lays> of_chunk(order.size() / houses_a_chunk + 1);
    const auto lay_some = [&](std::size_t begin, std::size_t end) {
        const Pool<HosePaths>::Borrowed paths(all_paths);
        for (std::size_t k = begin; k < end; ++k) {
            layer.append_lays_of(order[k], *paths, of_chunk[begin / houses_a_chunk]);
        }
    };
    for_each_chunk(work, "hose lays", order.size(), houses_a_chunk, lay_some);
    return gathered(std::move(of_chunk));
}

}  // namespace farwater::routing
