#include "routing/dump_sites.h"

#include <algorithm>
#include <compare>
#include <map>
#include <numeric>
#include <tuple>
#include <utility>

#include "routing/blocked_ways.h"
#include "routing/sites/drive_through.h"
#include "routing/sites/hose_lays.h"
#include "routing/sites/single_file.h"
#include "routing/sites/site_rules.h"
#include "routing/sites/site_spacing.h"
#include "routing/structures/hilbert.h"
#include "routing/structures/keyed.h"

namespace farwater::routing {
namespace {

std::vector<SitePlace> officers_sites(const District& district, const Access& access) {
    std::vector<SitePlace> sites;
    for (std::uint32_t i = 0; i < district.dump_site_places.size(); ++i) {
        if (access.dump_site_places[i].valid()) {
            sites.push_back({access.dump_site_places[i], district.dump_site_places[i].place, i});
        }
    }
    return sites;
}

SitePlace site_on_road(const District& district, const Network& network, RoadSpot spot) {
    return {spot, rounded_to_mm(place_of(district, network, spot)), std::nullopt};
}

// The officer's places first, then the others in spatial order.
std::vector<std::uint32_t> site_order(std::span<const SitePlace> sites) {
    std::vector<Point> places;
    places.reserve(sites.size());
    for (const SitePlace& site : sites) {
        places.push_back(site.place);
    }
    std::vector<std::uint32_t> order = spatial_order(places);
    const auto others = std::ranges::stable_partition(
        order, [&](std::uint32_t site) { return sites[site].officers_place.has_value(); });
    std::ranges::sort(order.begin(), others.begin(), {},
                      [&](std::uint32_t site) { return sites[site].officers_place; });
    return order;
}

std::vector<SitePlace> candidate_sites(const District& district, const Network& network,
                                       const Access& access, const SiteRules& rules) {
    std::vector<SitePlace> sites = officers_sites(district, access);
    std::vector<RoadSpot> taken;
    taken.reserve(sites.size());
    for (const SitePlace& site : sites) {
        taken.push_back(site.spot);
    }
    for (const RoadSpot& spot :
         spaced_sites(network, rules, taken, district.assumptions.dump_site_spacing,
                      district.assumptions.level_reach)) {
        sites.push_back(site_on_road(district, network, spot));
    }
    std::vector<SitePlace> sorted;
    sorted.reserve(sites.size());
    for (const std::uint32_t site : site_order(sites)) {
        sorted.push_back(sites[site]);
    }
    return sorted;
}

// Sites with the lays from them, as one numbering.
struct SitesAndLays {
    std::vector<SitePlace> sites;
    std::vector<Lay> lays;
    Lists<EdgeIndex> closed;  // as in Lays
};

// Where a spot is: a junction, whichever of its edges tells it, or inside an edge.
struct Whereabouts {
    bool inside = false;
    std::size_t number = 0;  // of the edge or the junction
    double along = 0.0;
    friend auto operator<=>(const Whereabouts&, const Whereabouts&) = default;
};

Whereabouts whereabouts(const Network& network, RoadSpot spot) {
    const Edge& edge = at(network.edges, spot.edge);
    if (spot.along > 0.0 && spot.along < in_metres(edge.length())) {
        return {true, spot.edge.position(), spot.along};
    }
    return {false, (spot.along > 0.0 ? edge.to : edge.from).position(), 0.0};
}

// The places that parcels got of their own become sites behind the others, each once, but where one
// stands already. The officer's places are no such: they may lie off the road.
SitesAndLays with_own_places(const District& district, const Network& network,
                             std::vector<SitePlace> sites, Lays lays) {
    std::map<Whereabouts, std::uint32_t> site_at;
    for (std::uint32_t site = 0; site < sites.size(); ++site) {
        if (!sites[site].officers_place) {
            site_at.emplace(whereabouts(network, sites[site].spot), site);
        }
    }
    for (const OwnLay& own : lays.own) {
        const auto [here, is_new] = site_at.emplace(whereabouts(network, own.spot),
                                                    static_cast<std::uint32_t>(sites.size()));
        if (is_new) {
            sites.push_back(site_on_road(district, network, own.spot));
        }
        lays.from_sites.push_back({own.served, here->second, own.along, own.closed});
    }
    return {std::move(sites), std::move(lays.from_sites), std::move(lays.closed)};
}

// Leaves out what serves nobody and is not the officer's, and numbers the rest anew.
SitesAndLays only_useful(SitesAndLays all) {
    std::vector<bool> useful(all.sites.size(), false);
    for (const Lay& lay : all.lays) {
        useful[lay.site] = true;
    }
    SitesAndLays kept{{}, std::move(all.lays), std::move(all.closed)};
    std::vector<std::uint32_t> number(all.sites.size(), 0);
    for (const std::uint32_t site : site_order(all.sites)) {
        if (useful[site] || all.sites[site].officers_place) {
            number[site] = static_cast<std::uint32_t>(kept.sites.size());
            kept.sites.push_back(all.sites[site]);
        }
    }
    for (Lay& lay : kept.lays) {
        lay.site = number[lay.site];
    }
    return kept;
}

// By parcel, in the order of find_dump_sites. A lay from a site that is found as an own place too
// stands once.
std::vector<Lay> sorted_lays(const SitesAndLays& all) {
    std::vector<Keyed> keyed;
    keyed.reserve(all.lays.size());
    for (std::uint32_t i = 0; i < all.lays.size(); ++i) {
        keyed.push_back({all.lays[i].served, i});
    }
    std::vector<Lay> lays;
    lays.reserve(all.lays.size());
    for (const Keyed& one : sorted_by_key(std::move(keyed))) {
        lays.push_back(all.lays[one.position]);
    }
    const auto before = [&](const Lay& a, const Lay& b) {
        return std::tuple(!all.sites[a.site].officers_place, a.along, a.site) <
               std::tuple(!all.sites[b.site].officers_place, b.along, b.site);
    };
    for (auto first = lays.begin(); first != lays.end();) {
        const auto last = std::find_if(first, lays.end(),
                                       [&](const Lay& lay) { return lay.served != first->served; });
        std::sort(first, last, before);
        first = last;
    }
    const auto rest = std::ranges::unique(
        lays, [](const Lay& a, const Lay& b) { return a.served == b.served && a.site == b.site; });
    lays.erase(rest.begin(), rest.end());
    return lays;
}

Lists<HoseLay> lay_lists(const District& district, const Access& access,
                         const std::vector<Lay>& lays) {
    Lists<HoseLay> lists;
    lists.begin.reserve(access.points.size() + 1);
    lists.items.reserve(lays.size());
    auto lay = lays.begin();
    for (std::size_t served = 0; served < access.points.size(); ++served) {
        if (lay != lays.end() && lay->served == served) {
            const Length setback = setback_of(district, access, served).value_or(Length{});
            for (; lay != lays.end() && lay->served == served; ++lay) {
                lists.items.push_back({.dump_site = DumpSiteIndex(lay->site),
                                       .approach = {},
                                       .lane = LaneClass::dead_end,
                                       .length = metres(lay->along / 1e3) + setback});
            }
        }
        lists.close_row();
    }
    return lists;
}

// The lays are those of `all`, in the order of the result.
LaneCases lane_cases(const Network& network, const Access& access, const SitesAndLays& all,
                     const std::vector<Lay>& lays) {
    const Lists<EdgeIndex>& closed = all.closed;
    std::vector<HoseSides> sides;
    sides.reserve(lays.size());
    for (const Lay& lay : lays) {
        sides.push_back(hose_sides(network, all.sites[lay.site].spot, access.spots[lay.served],
                                   closed[lay.closed]));
    }
    std::vector<std::uint32_t> order(lays.size());
    std::iota(order.begin(), order.end(), 0U);
    const auto compare = [&](std::uint32_t a, std::uint32_t b) {
        if (lays[a].site != lays[b].site) {
            return lays[a].site <=> lays[b].site;
        }
        if (sides[a] != sides[b]) {
            return sides[a] <=> sides[b];
        }
        const std::span<const EdgeIndex> of_a = closed[lays[a].closed];
        const std::span<const EdgeIndex> of_b = closed[lays[b].closed];
        return std::lexicographical_compare_three_way(of_a.begin(), of_a.end(), of_b.begin(),
                                                      of_b.end());
    };
    std::ranges::sort(order, [&](std::uint32_t a, std::uint32_t b) { return compare(a, b) < 0; });
    LaneCases cases;
    cases.of_lay.resize(lays.size());
    for (std::size_t i = 0; i < order.size(); ++i) {
        if (i == 0 || compare(order[i - 1], order[i]) != 0) {
            const std::span<const EdgeIndex> edges = closed[lays[order[i]].closed];
            cases.site.push_back(lays[order[i]].site);
            cases.sides.push_back(sides[order[i]]);
            cases.closed.items.insert(cases.closed.items.end(), edges.begin(), edges.end());
            cases.closed.close_row();
        }
        cases.of_lay[order[i]] = static_cast<std::uint32_t>(cases.site.size() - 1);
    }
    return cases;
}

}  // namespace

DumpSites find_dump_sites(const District& district, const Network& network, const Access& access,
                          std::span<const Profile> profiles, const std::vector<bool>& asked,
                          const Work& work) {
    const SiteRules rules(district, network, profiles);
    std::vector<SitePlace> sites = candidate_sites(district, network, access, rules);
    const DriveThrough drive_through(district, network, access, profiles);
    Lays lays = find_hose_lays(district, network, access, rules, drive_through, sites, asked, work);
    const SitesAndLays kept =
        only_useful(with_own_places(district, network, std::move(sites), std::move(lays)));
    DumpSites result;
    result.candidates.reserve(kept.sites.size());
    result.spots.reserve(kept.sites.size());
    for (const SitePlace& site : kept.sites) {
        const RoadIndex road = at(network.edges, site.spot.edge).road;
        result.candidates.push_back(
            {site.place, road, LaneClass::dead_end,
             single_file(at(district.roads, road), district.assumptions), site.officers_place,
             rules.level().grade_pct_beside(district, site.spot, site.place),
             rules.level().straight_beside(district, site.spot, site.place)});
        result.spots.push_back(site.spot);
    }
    const std::vector<Lay> sorted = sorted_lays(kept);
    result.hose_lays = lay_lists(district, access, sorted);
    result.lane_cases = lane_cases(network, access, kept, sorted);
    return result;
}

}  // namespace farwater::routing
