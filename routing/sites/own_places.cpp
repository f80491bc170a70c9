#include "routing/sites/own_places.h"

#include <algorithm>
#include <cmath>
#include <tuple>
#include <utility>

namespace farwater::routing {
namespace {

constexpr double steps_per_spacing = 4.0;

}  // namespace

bool stands_off(const District& district, const HouseOnRoad& house, Point site) {
    return distance(site, house.house) >= district.assumptions.standoff;
}

OwnPlaces::OwnPlaces(const District& district, const Network& network, const EdgeCosts& lengths,
                     const SiteRules& rules, const DriveThrough& drive_through)
    : district_(district),
      network_(network),
      lengths_(lengths),
      rules_(rules),
      drive_through_(drive_through) {}

RoadSpot OwnPlaces::site_at(const HouseOnRoad& house, RoadSpot spot) const {
    const Edge& edge = at(network_.edges, spot.edge);
    const bool inside = spot.along > 0.0 && spot.along < in_metres(edge.length());
    const NodeIndex end = spot.along > 0.0 ? edge.to : edge.from;
    const bool may_be = (inside || rules_.has_site(end)) &&
                        stands_off(district_, house, place_of(district_, network_, spot)) &&
                        rules_.clear_of_rail(spot);
    return !may_be ? RoadSpot{} : inside ? spot : rules_.spot_at(end);
}

// Hose closes the road that a place inside an edge stands on; so only junctions come in question.
std::vector<OwnPlace> OwnPlaces::drive_through_of(const HouseOnRoad& house, const HosePaths& paths,
                                                  std::span<const LayKind> known) const {
    std::vector<OwnPlace> junctions;  // their sides are told of those that can be a site
    for (const std::uint32_t number : paths.search().reached()) {
        const RoadSpot spot = rules_.spot_at(NodeIndex(number));
        const std::int32_t along = paths.search().cost(number);
        if (along <= house.reach && spot.valid()) {
            junctions.push_back({spot, along, {}});
        }
    }
    std::ranges::sort(junctions, [](const OwnPlace& a, const OwnPlace& b) {
        return std::tie(a.along, a.spot.edge, a.spot.along) <
               std::tie(b.along, b.spot.edge, b.spot.along);
    });
    std::vector<OwnPlace> found;
    for (OwnPlace& place : junctions) {
        if (!site_at(house, place.spot).valid()) {
            continue;
        }
        place.side = paths.side_of(place.spot);
        const auto has_one = [&](const LayKind& kind) {
            return kind.through && kind.side == place.side;
        };
        if (std::ranges::none_of(known, has_one) &&
            std::ranges::find(found, place.side, &OwnPlace::side) == found.end() &&
            drive_through_.at_spot(place.spot, paths.edges_to(place.spot))) {
            found.push_back(place);
        }
    }
    return found;
}

// Calls `take` with places in steps along an edge, which is entered after `way`, and their ways; a
// place that is too steep gives way to the nearest level one of its step.
template <class Take>
void OwnPlaces::each_along(const HouseOnRoad& house, RoadSpot entered, std::int32_t way,
                           Take take) const {
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
        if (along <= house.reach) {
            take(*spot, along);
        }
    }
}

// All that are in reach, each by the ways to it from the junctions that were reached.
template <class Take>
void OwnPlaces::each_place(const HouseOnRoad& house, const HosePaths& paths, Take take) const {
    if (rules_.has_sites(house.spot.edge)) {
        each_along(house, house.spot, 0, take);
    }
    for (const std::uint32_t number : paths.search().reached()) {
        for (const Incidence& incidence : network_.around(NodeIndex(number))) {
            if (rules_.has_sites(incidence.edge)) {
                const double length = in_metres(at(network_.edges, incidence.edge).length());
                each_along(house, {incidence.edge, incidence.forward ? 0.0 : length},
                           paths.search().cost(number), take);
            }
        }
    }
}

bool OwnPlaces::nearer(const OwnPlace& a, const OwnPlace& b) const {
    return std::pair(a.along, place_of(district_, network_, a.spot)) <
           std::pair(b.along, place_of(district_, network_, b.spot));
}

// From each side and by each road there.
std::vector<OwnPlace> OwnPlaces::nearest_of(const HouseOnRoad& house,
                                            const HosePaths& paths) const {
    std::vector<OwnPlace> found;
    each_place(house, paths, [&](RoadSpot spot, std::int32_t along) {
        const OwnPlace place{spot, along, paths.side_of(spot)};
        const auto known = std::ranges::find(found, place.side, &OwnPlace::side);
        if (known != found.end() && !nearer(place, *known)) {
            return;
        }
        const RoadSpot site = site_at(house, spot);
        if (!site.valid()) {
            return;
        }
        if (known == found.end()) {
            found.push_back({site, along, place.side});
        } else {
            *known = {site, along, place.side};
        }
    });
    return found;
}

std::optional<OwnPlace> OwnPlaces::all_year_of(const HouseOnRoad& house,
                                               const HosePaths& paths) const {
    std::optional<OwnPlace> nearest;
    each_place(house, paths, [&](RoadSpot spot, std::int32_t along) {
        const RoadSpot site = site_at(house, spot);
        const OwnPlace place{site, along, paths.side_of(spot)};
        if (site.valid() && rules_.driven_all_year(site.edge) &&
            (!nearest || nearer(place, *nearest))) {
            nearest = place;
        }
    });
    return nearest;
}

std::vector<OwnPlace> OwnPlaces::of(const HouseOnRoad& house, const HosePaths& paths,
                                    std::span<const LayKind> known) const {
    std::vector<OwnPlace> found = drive_through_of(house, paths, known);
    const auto is_known = [&](HouseSide side) {
        return std::ranges::find(known, side, &LayKind::side) != known.end();
    };
    const bool near_start = is_known({.from_end = false, .arm = {}});
    const bool near_end = is_known({.from_end = true, .arm = {}});
    if (near_start && near_end) {
        return found;
    }
    const std::vector<OwnPlace> nearest = nearest_of(house, paths);
    const auto has_near = [&](bool from_end) {
        return (from_end ? near_end : near_start) ||
               std::ranges::find(nearest, HouseSide{.from_end = from_end, .arm = {}},
                                 &OwnPlace::side) != nearest.end();
    };
    for (const OwnPlace& place : nearest) {
        const bool near = !place.side.arm.valid();
        const bool wanted = !is_known(place.side) && (near || !has_near(place.side.from_end));
        const bool taken = std::ranges::any_of(found, [&](const OwnPlace& other) {
            return other.spot.edge == place.spot.edge && other.spot.along == place.spot.along;
        });
        if (wanted && !taken) {
            found.push_back(place);
        }
    }
    return found;
}

}  // namespace farwater::routing
