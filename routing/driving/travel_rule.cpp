#include "routing/driving/travel_rule.h"

#include <algorithm>
#include <cmath>

#include "routing/costs.h"

namespace farwater::routing {
namespace {

constexpr double standing_minutes = 0.65;
constexpr double minutes_a_mile = 1.7;

constexpr std::int32_t standing_tenths = 390;  // of a second: 0.65 minutes
constexpr double millimetres_a_tenth = metres_per_mile * 1e3 / (minutes_a_mile * 600.0);
constexpr double hair = 1e-3;  // tenths

DriveTime linear_time(std::int32_t cost, std::int32_t standing) {
    if (cost == no_way) {
        return no_time;
    }
    const double moving = std::ceil(cost / millimetres_a_tenth - hair);
    return tenths_of_second(standing + static_cast<std::int32_t>(std::max(moving, 0.0)));
}

std::int32_t linear_most(std::int32_t tenths, std::int32_t standing) {
    const double moving = std::floor((tenths - standing + hair) * millimetres_a_tenth);
    return static_cast<std::int32_t>(std::clamp(moving, 0.0, double{most_cost}));
}

}  // namespace

Duration linear_travel_time(Length way) {
    return minutes(standing_minutes + minutes_a_mile * in_miles(way));
}

std::int32_t TravelRule::standing_tenths_of_leg() const {
    return model_ == TravelTime::linear_per_round_trip ? standing_tenths / 2 : standing_tenths;
}

DriveTime TravelRule::leg(std::int32_t cost) const {
    return linear() ? linear_time(cost, standing_tenths_of_leg()) : time_of(cost);
}

DriveTime TravelRule::response(std::int32_t cost) const {
    return linear() ? linear_time(cost, standing_tenths) : time_of(cost);
}

std::int32_t TravelRule::most_of_leg(std::int32_t tenths) const {
    return linear() ? linear_most(tenths, standing_tenths_of_leg()) : tenths;
}

std::int32_t TravelRule::most_of_response(std::int32_t tenths) const {
    return linear() ? linear_most(tenths, standing_tenths) : tenths;
}

std::int32_t TravelRule::cost_of(DriveTime delay) const {
    if (!linear() || !reachable(delay)) {
        return reachable(delay) ? in_tenths(delay) : no_way;
    }
    const double cost = std::round(in_tenths(delay) * millimetres_a_tenth);
    return cost <= most_cost ? static_cast<std::int32_t>(cost) : no_way;
}

}  // namespace farwater::routing
