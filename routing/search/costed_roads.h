// The roads as one question about ways sees them: profile, season, load and heading.
#pragma once

#include <memory>

#include "routing/costs.h"
#include "routing/drive_times.h"
#include "routing/fastest_ways.h"
#include "routing/search/spot_times.h"
#include "routing/speeds.h"
#include "routing/structures/pool.h"

namespace farwater::routing {

// Costs and graph, made once for many searches. What `roads` refers to must outlive it. O(edges).
class CostedRoads {
public:
    CostedRoads(const RoadSystem& roads, ProfileIndex profile, SeasonIndex season, Load load,
                Heading heading)
        : district_(roads.district),
          network_(roads.network),
          profile_(at(roads.profiles, profile)),
          season_(at(roads.district.seasons, season)),
          load_(load),
          heading_(heading),
          costs_(drive_costs(district_, network_, profile_, season_, load)),
          graph_(search_graph(network_, costs_, heading)) {}

    const District& district() const { return district_; }
    const Network& network() const { return network_; }
    const Profile& profile() const { return profile_; }
    const Season& season() const { return season_; }
    Load load() const { return load_; }
    const EdgeCosts& costs() const { return costs_; }
    DrivenRoads roads() const { return {network_, costs_, graph_, heading_}; }

private:
    const District& district_;
    const Network& network_;
    const Profile& profile_;
    const Season& season_;
    Load load_;
    Heading heading_;
    EdgeCosts costs_;
    SearchGraph graph_;
};

// Working memory, one for each thread. The network must outlive it.
inline Pool<FastestWays> searches_for(const Network& network) {
    return Pool<FastestWays>([&network] { return std::make_unique<FastestWays>(network); });
}

}  // namespace farwater::routing
