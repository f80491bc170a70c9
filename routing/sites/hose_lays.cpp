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
#include "routing/structures/hilbert.h"
#include "routing/structures/pool.h"

namespace farwater::routing {
namespace {

constexpr std::size_t houses_a_chunk = 4096;
constexpr double steps_per_spacing = 4.0;  // of places that stand in where no site serves a parcel

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

// One parcel or target while its lays are sought.
struct Served {
    std::uint32_t number = 0;
    RoadSpot spot;
    Point house;
    std::int32_t reach = 0;  // millimetres of hose that are left after the setback
};

// The best place so far for a parcel that no site serves.
struct Best {
    RoadSpot spot;
    Point place;
    std::int32_t along = no_way;
};

class HoseLayer {
public:
    HoseLayer(const District& district, const Network& network, const Access& access,
              const SiteRules& rules, std::span<const SitePlace> sites)
        : district_(district),
          network_(network),
          access_(access),
          rules_(rules),
          sites_(sites),
          lengths_(lengths_of_all(network)),
          graph_(search_graph(network, lengths_, Heading::away)),
          ends_(spot_ends(network, spots_of(sites), lengths_, lengths_)) {}

    // Adds the lays of one parcel or target, in order. `paths` are clear before and after.
    void append_lays_of(std::uint32_t number, HosePaths& paths, Lays& lays) const {
        const std::optional<Length> setback = setback_of(district_, access_, number);
        const Length reach = district_.assumptions.hose_reach;
        if (!setback || *setback > reach) {
            return;
        }
        const auto left = static_cast<std::int32_t>(
            std::min(std::floor(in_metres(reach - *setback) * 1e3 + 1e-6), double{most_cost}));
        const Served served{number, access_.spots[number], house_of(number), left};
        paths.begin(served.spot, served.reach);
        std::vector<HouseSide> sides;  // that have a lay
        for (Lay& lay : lays_from_sites(served, paths)) {
            lay.closed = close_roads(paths, sites_[lay.site].spot, lays);
            lays.from_sites.push_back(lay);
            sides.push_back(lay.side);
        }
        add_own_places(served, paths, std::move(sides), lays);
        paths.clear();
    }

    HosePaths paths() const { return {network_, lengths_, graph_}; }

private:
    Point house_of(std::uint32_t number) const {
        const std::size_t parcels = district_.parcels.size();
        return number < parcels ? district_.parcels[number].house
                                : district_.targets[number - parcels].place;
    }

    // A new row of lays.closed.
    static std::uint32_t close_roads(const HosePaths& paths, RoadSpot site, Lays& lays) {
        const std::vector<EdgeIndex> closed = paths.edges_to(site);
        lays.closed.items.insert(lays.closed.items.end(), closed.begin(), closed.end());
        lays.closed.close_row();
        return static_cast<std::uint32_t>(lays.closed.size() - 1);
    }

    bool stands_off(const Served& served, Point site) const {
        return distance(site, served.house) >= district_.assumptions.standoff;
    }

    // Millimetres off the road to an officer's place; other sites are on the road.
    std::int32_t off_road(const SitePlace& site) const {
        return site.officers_place
                   ? millimetres(distance(site.place, place_of(district_, network_, site.spot)))
                   : 0;
    }

    // The ways to sites around reached junctions and along the parcel's own edge; a site may come
    // more than once.
    std::vector<Lay> ways_to_sites(const Served& served, const Search& search) const {
        std::vector<Lay> ways;
        for (const std::uint32_t node : search.reached()) {
            for (const SpotEnd& end : ends_.around(NodeIndex(node))) {
                if (plus(search.cost(node), end.from_spot) <= served.reach) {
                    ways.push_back({served.number, end.spot, search.cost(node) + end.from_spot});
                }
            }
        }
        const Edge& edge = at(network_.edges, served.spot.edge);
        for (const SpotEnd& end : ends_.around(edge.from)) {
            if (sites_[end.spot].spot.edge == served.spot.edge) {
                ways.push_back(
                    {served.number, end.spot,
                     cost_along(network_, lengths_, sites_[end.spot].spot, served.spot)});
            }
        }
        return ways;
    }

    std::vector<Lay> lays_from_sites(const Served& served, const HosePaths& paths) const {
        std::vector<Lay> ways = ways_to_sites(served, paths.search());
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
            return lay.along > served.reach || !stands_off(served, sites_[lay.site].place);
        });
        std::ranges::sort(ways, [&](const Lay& a, const Lay& b) {
            return std::tuple(!sites_[a.site].officers_place, a.along, a.site) <
                   std::tuple(!sites_[b.site].officers_place, b.along, b.site);
        });
        for (Lay& lay : ways) {
            lay.side = paths.side_of(sites_[lay.site].spot);
        }
        if (ways.size() > most_hose_lays) {
            // The first from the other side stays, even where many are nearer.
            const auto other = std::ranges::find_if(ways, [&](const Lay& lay) {
                return lay.side.from_end != ways.front().side.from_end;
            });
            if (other - ways.begin() >= std::ptrdiff_t{most_hose_lays} && other != ways.end()) {
                ways[most_hose_lays - 1] = *other;
            }
            ways.resize(most_hose_lays);
        }
        return ways;
    }

    // A house gets a place of its own on each side of its road that no site is on; where that gives
    // none and all hose comes by one arm of a junction, also a place elsewhere. So there is a place
    // on this side of the fire, from wherever tankers come.
    void add_own_places(const Served& served, const HosePaths& paths, std::vector<HouseSide> sides,
                        Lays& lays) const {
        const auto add = [&](const auto& keep) {
            const Best best = best_own_place(served, paths, keep);
            if (best.along != no_way) {
                sides.push_back(paths.side_of(best.spot));
                lays.own.push_back({served.number, best.along, best.spot,
                                    close_roads(paths, best.spot, lays), sides.back()});
            }
        };
        for (const bool from_end : {false, true}) {
            if (std::ranges::find(sides, from_end, &HouseSide::from_end) == sides.end()) {
                add([&](const HouseSide& side) { return side.from_end == from_end; });
            }
        }
        const bool one_arm = !sides.empty() && sides.front().arm.valid() &&
                             std::ranges::all_of(sides, [&](const HouseSide& side) {
                                 return side == sides.front();
                             });
        if (one_arm) {
            const HouseSide known = sides.front();
            add([&](const HouseSide& side) { return side != known; });
        }
    }

    template <class Keep>
    Best best_own_place(const Served& served, const HosePaths& paths, const Keep& keep) const {
        const Search& search = paths.search();
        const auto kept = [&](RoadSpot spot) { return keep(paths.side_of(spot)); };
        Best best;
        if (rules_.has_sites(served.spot.edge)) {
            best = best_along(served, served.spot, 0, best, kept);
        }
        for (const std::uint32_t number : search.reached()) {
            for (const Incidence& incidence : network_.around(NodeIndex(number))) {
                if (rules_.has_sites(incidence.edge)) {
                    const double length = in_metres(at(network_.edges, incidence.edge).length());
                    const RoadSpot end{incidence.edge, incidence.forward ? 0.0 : length};
                    best = best_along(served, end, search.cost(number), best, kept);
                }
            }
        }
        return best;
    }

    // The best of `best` and the places in steps along an edge, which is entered after `way`; a
    // place that is too steep gives way to the nearest level one of its step.
    template <class Kept>
    Best best_along(const Served& served, RoadSpot entered, std::int32_t way, Best best,
                    const Kept& kept) const {
        const double length = in_metres(at(network_.edges, entered.edge).length());
        const double step = in_metres(district_.assumptions.dump_site_spacing) / steps_per_spacing;
        const int steps = std::max(1, static_cast<int>(std::ceil(length / step)));
        for (int i = 0; i <= steps; ++i) {
            const double here = i == steps ? length : length * i / steps;
            const auto spot =
                rules_.level().nearest({entered.edge, here}, std::max(0.0, here - step / 2.0),
                                       std::min(length, here + step / 2.0));
            const std::int32_t along =
                spot ? plus(way, cost_along(network_, lengths_, *spot, entered)) : no_way;
            if (along <= served.reach && along <= best.along && kept(*spot)) {
                best = better(served, best, {*spot, place_of(district_, network_, *spot), along});
            }
        }
        return best;
    }

    Best better(const Served& served, const Best& best, Best other) const {
        const Edge& edge = at(network_.edges, other.spot.edge);
        const bool inside = other.spot.along > 0.0 && other.spot.along < in_metres(edge.length());
        const NodeIndex end = other.spot.along > 0.0 ? edge.to : edge.from;
        if (std::tie(best.along, best.place) <= std::tie(other.along, other.place) ||
            !stands_off(served, other.place) || !(inside || rules_.has_site(end)) ||
            !rules_.clear_of_rail(other.spot)) {
            return best;
        }
        other.spot = inside ? other.spot : rules_.spot_at(end);
        return other;
    }

    const District& district_;
    const Network& network_;
    const Access& access_;
    const SiteRules& rules_;
    std::span<const SitePlace> sites_;
    EdgeCosts lengths_;
    SearchGraph graph_;
    SpotEnds ends_;
};

// Those that a road reaches, so that near ones come one after the other.
std::vector<std::uint32_t> reached_in_spatial_order(const Access& access) {
    std::vector<Point> places;
    places.reserve(access.points.size());
    for (const AccessPoint& point : access.points) {
        places.push_back(point.place);
    }
    std::vector<std::uint32_t> order = spatial_order(places);
    std::erase_if(order, [&](std::uint32_t served) { return !access.spots[served].valid(); });
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
                    const SiteRules& rules, std::span<const SitePlace> sites, const Work& work) {
    const HoseLayer layer(district, network, access, rules, sites);
    const std::vector<std::uint32_t> order = reached_in_spatial_order(access);
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
