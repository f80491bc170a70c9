#include "routing/trips/trip_search.h"

#include <algorithm>

namespace farwater::routing {

Driving::Driving(const RoadSystem& roads, const Profile& profile, const Season& season, Load load)
    : network_(roads.network),
      season_(season),
      heading_(load == Load::loaded ? Heading::away : Heading::towards),
      costs_(drive_costs(roads.district, roads.network, profile, season, load)),
      graph_(search_graph(roads.network, costs_, heading_)) {}

std::unique_ptr<Pool<Desk>> desks_for(const Network& network, std::size_t spots) {
    const std::vector<std::uint8_t> all(network.edges.size(), 1);
    const auto cuts = std::make_shared<const Cuts>(network, all);
    return std::make_unique<Pool<Desk>>(
        [&network, spots, cuts] { return std::make_unique<Desk>(network, spots, *cuts); });
}

Shuttle::Shuttle(const RoadSystem& roads, std::span<const RoadSpot> dump_sites,
                 const Profile& profile, const Season& season)
    : loaded(roads, profile, season, Load::loaded),
      empty(roads, profile, season, Load::empty),
      sites(dump_sites),
      ends(spot_ends(roads.network, dump_sites, loaded.costs(), empty.costs())) {}

TripsOf::TripsOf(const RoadSystem& roads, const Shuttle& shuttle, RoadSpot fill_site, Desk& desk)
    : shuttle_(shuttle),
      spot_(fill_site),
      rule_(roads.district.travel_time),
      limit_(trip_limit_of(roads.district.assumptions)),
      away_(shuttle.loaded.roads()),
      towards_(shuttle.empty.roads()),
      desk_(desk) {}

void TripsOf::offer(TripTaker& taker, const Approaches* approaches) {
    if (!spot_.valid()) {
        return;
    }
    const std::int32_t limit = rule_.most_of_leg(limit_);
    desk_.loaded.measure(away_, spot_, shuttle_.sites, shuttle_.ends, limit, desk_.search);
    desk_.empty.measure(towards_, spot_, shuttle_.sites, shuttle_.ends, limit, desk_.towards);
    if (approaches != nullptr) {
        desk_.tree.grow(away_, spot_, desk_.search);
        desk_.tree_towards.grow(towards_, spot_, desk_.towards);
    }
    for (const std::uint32_t site : desk_.loaded.reached()) {
        if (desk_.empty.cost(site) != no_way) {
            const LegTimes legs{rule_.leg(desk_.empty.cost(site)),
                                rule_.leg(desk_.loaded.cost(site))};
            taker.offer(site, legs);
            if (approaches != nullptr) {
                offer_closed(site, legs, *approaches, taker);
            }
        }
    }
    desk_.loaded.clear();
    desk_.empty.clear();
    desk_.search.clear();
    desk_.towards.clear();
}

// With the legs where no road is closed, which are the least that there can be.
void TripsOf::offer_closed(std::uint32_t site, const LegTimes& least, const Approaches& approaches,
                           TripTaker& taker) {
    const Approaches::Range rows = approaches.of(site);
    for (std::uint32_t row = rows.begin; row < rows.end; ++row) {
        const DriveTime most = taker.most_kept(row);
        if (whole_trip(least) > most) {
            continue;
        }
        const HoseOnRoads hose = approaches.hose(row);
        LegTimes legs;
        legs.loaded = closed_leg({away_, spot_, desk_.search, &desk_.tree, &desk_.cuts}, hose, most,
                                 least.empty);
        if (reachable(legs.loaded)) {
            legs.empty =
                closed_leg({towards_, spot_, desk_.towards, &desk_.tree_towards, &desk_.cuts}, hose,
                           most, legs.loaded);
        }
        if (reachable(legs.empty)) {
            taker.offer(row, legs);
        }
    }
}

// No longer than what `most` leaves beside the other leg.
DriveTime TripsOf::closed_leg(const Searched& from, const HoseOnRoads& hose, DriveTime most,
                              DriveTime other) const {
    const std::int32_t left =
        reachable(most) ? std::min(limit_, in_tenths(most) - in_tenths(other)) : limit_;
    const std::int32_t cost = desk_.closed.cost(from, hose, rule_.most_of_leg(left));
    return cost == no_way ? no_time : rule_.leg(cost);
}

}  // namespace farwater::routing
