#include "routing/drive_times.h"

#include <algorithm>
#include <utility>

#include "routing/costs.h"
#include "routing/driving/road_pace.h"
#include "routing/driving/road_use.h"
#include "routing/driving/travel_rule.h"
#include "routing/profiles.h"
#include "routing/search/arrivals.h"
#include "routing/sites/hose_lays.h"

namespace farwater::routing {
namespace {

// Every departure as a start: its offset and the drive to the gate.
std::vector<Start> starts_of(const RoadSystem& roads, std::span<const Departure> departures,
                             const Season& season) {
    const TravelRule rule(roads.district.travel_time);
    std::vector<Start> starts;
    for (const Departure& departure : departures) {
        const DriveTime leaves =
            departure.offset + gate_drive(at(roads.district.stations, departure.station), season);
        starts.push_back({at(roads.access.stations, departure.station), rule.cost_of(leaves)});
    }
    return starts;
}

// The trip limit after the last start.
std::int32_t limit_after(const std::vector<Start>& starts, const District& district) {
    std::int32_t last = 0;
    for (const Start& start : starts) {
        last = start.cost == no_way ? last : std::max(last, start.cost);
    }
    const std::int32_t drive =
        TravelRule(district.travel_time).most_of_response(trip_limit_of(district.assumptions));
    return std::min(last + drive, most_cost);
}

// The gate of a parcel or target on a road that may not be driven, if hose reaches from there.
std::optional<Gates::Gate> gate_in_reach(const RoadSystem& roads, const Gates& gates,
                                         std::size_t served) {
    const std::optional<Length> setback = setback_of(roads.district, roads.access, served);
    const std::optional<Gates::Gate> gate = gates.gate_of(roads.access.spots[served]);
    if (!setback || !gate ||
        metres(gate->along / 1e3) + *setback > roads.district.assumptions.hose_reach) {
        return std::nullopt;
    }
    return gate;
}

Gates gates_of(const RoadSystem& roads, const Arrivals& arrivals) {
    return {arrivals, millimetres(roads.district.assumptions.hose_reach)};
}

std::int32_t arrival_at(const RoadSystem& roads, const Arrivals& arrivals, const Gates& gates,
                        std::size_t served) {
    const RoadSpot spot = roads.access.spots[served];
    if (!spot.valid()) {
        return no_way;
    }
    const std::int32_t there = arrivals.at_spot(spot);
    const auto gate = there == no_way ? gate_in_reach(roads, gates, served) : std::nullopt;
    return gate ? arrivals.at_node(gate->node) : there;
}

std::optional<float> miles_to(const RoadSystem& roads, const Arrivals& metres_there,
                              const Gates& gates, std::size_t served) {
    const RoadSpot spot = roads.access.spots[served];
    if (!spot.valid()) {
        return std::nullopt;
    }
    std::int32_t there = metres_there.at_spot(spot);
    const auto gate = there == no_way ? gate_in_reach(roads, gates, served) : std::nullopt;
    if (gate) {
        there = plus(metres_there.at_node(gate->node), gate->along);
    }
    if (there == no_way) {
        return std::nullopt;
    }
    return static_cast<float>(in_miles(metres(there / 1e3)));
}

std::vector<Start> own_stations(const RoadSystem& roads) {
    std::vector<Start> starts;
    for (std::size_t s = 0; s < roads.district.stations.size(); ++s) {
        const Station& station = roads.district.stations[s];
        if (station.aid == Aid::own && !station.to_gate) {
            starts.push_back({roads.access.stations[s], 0});
        }
    }
    return starts;
}

// The ends of a road; none where it has no edge.
std::optional<std::pair<NodeIndex, NodeIndex>> ends_of(const Network& network, RoadIndex road) {
    const std::span<const Edge> edges = network.edges_of(road);
    if (edges.empty()) {
        return std::nullopt;
    }
    return std::pair(edges.front().from, edges.back().to);
}

bool any_passable(const Network& network, const EdgeCosts& costs, RoadIndex road) {
    for (std::size_t e = network.first_edge[road.position()];
         e < network.first_edge[road.position() + 1]; ++e) {
        if (costs.passable(EdgeIndex(e))) {
            return true;
        }
    }
    return false;
}

// Per road that may be driven: the cost of the nearer or the farther of the arrivals at its two
// ends; else no_way.
template <class Choose>
std::vector<std::int32_t> costs_at_ends(const RoadSystem& roads, const Arrivals& arrivals,
                                        Choose choose) {
    std::vector<std::int32_t> costs(roads.district.roads.size(), no_way);
    for (std::size_t r = 0; r < costs.size(); ++r) {
        const auto ends = ends_of(roads.network, RoadIndex(r));
        if (ends && any_passable(roads.network, arrivals.costs(), RoadIndex(r))) {
            costs[r] = choose(arrivals.at_node(ends->first), arrivals.at_node(ends->second));
        }
    }
    return costs;
}

std::vector<DriveTime> responses(const RoadSystem& roads, std::span<const std::int32_t> costs) {
    const TravelRule rule(roads.district.travel_time);
    std::vector<DriveTime> times;
    times.reserve(costs.size());
    for (const std::int32_t cost : costs) {
        times.push_back(rule.response(cost));
    }
    return times;
}

std::vector<DriveTime> legs(const RoadSystem& roads, std::span<const std::int32_t> costs) {
    const TravelRule rule(roads.district.travel_time);
    std::vector<DriveTime> times;
    times.reserve(costs.size());
    for (const std::int32_t cost : costs) {
        times.push_back(rule.leg(cost));
    }
    return times;
}

std::vector<DriveTime> from_stations(const RoadSystem& roads, ProfileIndex engine,
                                     std::span<const Departure> departures, const Season& season) {
    const EdgeCosts costs = drive_costs(roads.district, roads.network, at(roads.profiles, engine),
                                        season, Load::loaded);
    const std::vector<Start> starts = starts_of(roads, departures, season);
    const Arrivals arrivals(roads.network, costs, starts, limit_after(starts, roads.district));
    return responses(roads, costs_at_ends(roads, arrivals, [](std::int32_t a, std::int32_t b) {
                         return std::max(a, b);
                     }));
}

std::vector<DriveTime> from_fill_sites(const RoadSystem& roads, const Profile& tanker,
                                       std::span<const FillSitePlace> fill_sites,
                                       const Season& season) {
    const EdgeCosts costs =
        drive_costs(roads.district, roads.network, tanker, season, Load::loaded);
    std::vector<Start> starts;
    for (const FillSitePlace& fill_site : fill_sites) {
        if (fill_site.is_for_all()) {
            starts.push_back({at(roads.access.sources, fill_site.source), 0});
        }
    }
    const Arrivals arrivals(roads.network, costs, starts,
                            TravelRule(roads.district.travel_time)
                                .most_of_leg(trip_limit_of(roads.district.assumptions)));
    return legs(roads, costs_at_ends(roads, arrivals, [](std::int32_t a, std::int32_t b) {
                    return std::min(a, b);
                }));
}

// The tanker profile with the most members, else the first profile, else a vehicle of no weight.
Profile main_tanker(std::span<const Profile> profiles) {
    const std::vector<ProfileIndex> tankers = tanker_profiles(profiles);
    if (!tankers.empty()) {
        return at(profiles, tankers.front());
    }
    return profiles.empty() ? Profile{} : profiles.front();
}

}  // namespace

std::vector<DriveTime> first_arrivals(const RoadSystem& roads, ProfileIndex profile,
                                      std::span<const Departure> departures, SeasonIndex season) {
    const EdgeCosts costs = drive_costs(roads.district, roads.network, at(roads.profiles, profile),
                                        at(roads.district.seasons, season), Load::loaded);
    const std::vector<Start> starts =
        starts_of(roads, departures, at(roads.district.seasons, season));
    const Arrivals arrivals(roads.network, costs, starts, limit_after(starts, roads.district));
    const Gates gates = gates_of(roads, arrivals);
    std::vector<std::int32_t> there(roads.access.spots.size());
    for (std::size_t i = 0; i < there.size(); ++i) {
        there[i] = arrival_at(roads, arrivals, gates, i);
    }
    return responses(roads, there);
}

std::vector<std::optional<float>> station_miles(const RoadSystem& roads, ProfileIndex profile,
                                                SeasonIndex season) {
    const EdgeCosts times = drive_costs(roads.district, roads.network, at(roads.profiles, profile),
                                        at(roads.district.seasons, season), Load::loaded);
    const EdgeCosts lengths = lengths_where(roads.network, times);
    const Arrivals arrivals(roads.network, lengths, own_stations(roads), most_cost);
    const Gates gates = gates_of(roads, arrivals);
    std::vector<std::optional<float>> miles(roads.access.spots.size());
    for (std::size_t i = 0; i < miles.size(); ++i) {
        miles[i] = miles_to(roads, arrivals, gates, i);
    }
    return miles;
}

RoadTimes road_times(const RoadSystem& roads, std::span<const ProfileDepartures> engines,
                     std::span<const FillSitePlace> fill_sites, SeasonIndex season) {
    const Season& now = at(roads.district.seasons, season);
    const Profile tanker = main_tanker(roads.profiles);
    const std::vector<ProfileBits> use = loaded_use(roads.district, roads.profiles, now);
    const ProfileBits who = haulers(roads.profiles);
    RoadTimes result;
    result.from_station.assign(roads.district.roads.size(), no_time);
    for (const ProfileDepartures& engine : engines) {
        const std::vector<DriveTime> times =
            from_stations(roads, engine.profile, engine.departures, now);
        std::ranges::transform(times, result.from_station, result.from_station.begin(),
                               [](DriveTime a, DriveTime b) { return std::min(a, b); });
    }
    result.from_fill = from_fill_sites(roads, tanker, fill_sites, now);
    for (std::size_t r = 0; r < roads.district.roads.size(); ++r) {
        const RoadPace pace = road_pace(roads.district, roads.network, RoadIndex(r), tanker, now);
        const auto ends = ends_of(roads.network, RoadIndex(r));
        result.speed.push_back(pace.average);
        result.speed_posted.push_back(pace.posted);
        result.grade_pct.push_back(pace.grade_pct);
        result.tanker_may_use.push_back((use[r] & who) != 0);
        result.component.push_back(ends ? at(roads.network.component, ends->first) : -1);
    }
    return result;
}

}  // namespace farwater::routing
