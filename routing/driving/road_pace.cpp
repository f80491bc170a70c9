#include "routing/driving/road_pace.h"

#include <algorithm>

#include "routing/speeds.h"

namespace farwater::routing {
namespace {

std::optional<float> steepest(const Network& network, RoadIndex road) {
    int most = -1;
    for (std::size_t e = network.first_edge[road.position()];
         e < network.first_edge[road.position() + 1]; ++e) {
        for (const Grade step : network.grades.of(e)) {
            most = step == no_grade ? most : std::max(most, std::abs(int{step}));
        }
    }
    return most < 0 ? std::nullopt : std::optional(static_cast<float>(most) / 100.0F);
}

Speed average(const Network& network, RoadIndex road, Speed level, WeightPerPower vehicle,
              OneWay one_way) {
    const Climb climb(level, vehicle);
    Length length;
    Duration as_drawn;
    Duration against;
    for (std::size_t e = network.first_edge[road.position()];
         e < network.first_edge[road.position() + 1]; ++e) {
        const Length edge = network.edges[e].length();
        length += edge;
        as_drawn += climb.delay(network.grades.of(e), edge, true);
        against += climb.delay(network.grades.of(e), edge, false);
    }
    const Duration delay = one_way == OneWay::forward    ? as_drawn
                           : one_way == OneWay::backward ? against
                                                         : std::max(as_drawn, against);
    return delay > Duration() ? level * ((length / level) / (length / level + delay)) : level;
}

}  // namespace

RoadPace road_pace(const District& district, const Network& network, RoadIndex road,
                   const Profile& profile, const Season& season) {
    RoadPace pace;
    pace.grade_pct = steepest(network, road);
    if (district.travel_time == TravelTime::road_speeds) {
        const Road& there = at(district.roads, road);
        const PlanningSpeed level =
            planning_speed(there, profile, season, Load::loaded, district.assumptions);
        pace.posted = level.posted;
        pace.average = average(network, road, level.speed, profile.loaded_per_power, there.one_way);
    }
    return pace;
}

}  // namespace farwater::routing
