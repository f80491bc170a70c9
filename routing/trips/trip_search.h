// One fill site's round trips, and drives from stations: the searches that round trips are made of.
#pragma once

#include <cstdint>
#include <memory>
#include <span>

#include "routing/costs.h"
#include "routing/drive_times.h"
#include "routing/driving/travel_rule.h"
#include "routing/search/search.h"
#include "routing/search/search_tree.h"
#include "routing/search/spot_ends.h"
#include "routing/search/spot_times.h"
#include "routing/structures/pool.h"
#include "routing/trips/approaches.h"
#include "routing/trips/closed_ways.h"

namespace farwater::routing {

// The roads for one profile in one season, which must outlive it: loaded away from a place, or
// empty towards one.
class Driving {
public:
    Driving(const RoadSystem& roads, const Profile& profile, const Season& season, Load load);

    DrivenRoads roads() const { return {network_, costs_, graph_, heading_}; }
    const EdgeCosts& costs() const { return costs_; }
    const Season& season() const { return season_; }

private:
    const Network& network_;
    const Season& season_;
    Heading heading_;
    EdgeCosts costs_;
    SearchGraph graph_;
};

// Working memory of one thread.
struct Desk {
    Desk(const Network& network, std::size_t spots, const Cuts& all_cuts)
        : search(network.nodes.size()),
          towards(network.nodes.size()),
          tree(network.nodes.size()),
          tree_towards(network.nodes.size()),
          loaded(spots),
          empty(spots),
          closed(network),
          cuts(all_cuts) {}
    Search search, towards;
    SearchTree tree, tree_towards;
    SpotTimes loaded, empty;
    ClosedWays closed;
    const Cuts& cuts;  // of all edges
};
std::unique_ptr<Pool<Desk>> desks_for(const Network& network, std::size_t spots);

// Both legs of a profile's round trips, and how they end at dump sites, which must outlive it.
struct Shuttle {
    Shuttle(const RoadSystem& roads, std::span<const RoadSpot> dump_sites, const Profile& profile,
            const Season& season);

    Driving loaded, empty;
    std::span<const RoadSpot> sites;
    SpotEnds ends;  // of the dump sites
};

// Who is offered round trips, by row: of a dump site or an approach (approaches.h).
class TripTaker {
public:
    virtual ~TripTaker() = default;
    // No longer round trip is of use there now.
    virtual DriveTime most_kept(std::uint32_t row) const = 0;
    virtual void offer(std::uint32_t row, LegTimes legs) = 0;
};

// The round trips of one fill site that keep to the limit. All that is given must outlive it.
class TripsOf {
public:
    TripsOf(const RoadSystem& roads, const Shuttle& shuttle, RoadSpot fill_site, Desk& desk);

    // Each of the dump sites with no road closed.
    void offer_open(TripTaker& taker) { offer(taker, nullptr); }
    // And after it those of its approaches that are of use. They are those of the same dump sites.
    void offer_all(const Approaches& approaches, TripTaker& taker) { offer(taker, &approaches); }

private:
    void offer(TripTaker& taker, const Approaches* approaches);
    void offer_closed(std::uint32_t site, const LegTimes& least, const Approaches& approaches,
                      TripTaker& taker);
    DriveTime closed_leg(const Searched& from, const HoseOnRoads& hose, DriveTime most,
                         DriveTime other) const;

    const Shuttle& shuttle_;
    RoadSpot spot_;
    TravelRule rule_;
    std::int32_t limit_;  // tenths of a second
    DrivenRoads away_, towards_;
    Desk& desk_;
};

}  // namespace farwater::routing
