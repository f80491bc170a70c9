#include "routing/driving/grade.h"

#include <algorithm>
#include <limits>

namespace farwater::routing {
namespace {

constexpr double power_constant = 375.0 * 0.85;
constexpr double rolling = 0.012;
constexpr double grade_of_one = 1e4;  // in hundredths of a percent
constexpr Speed lowest_gear = mph(5);

double slowing_grade(Speed level, WeightPerPower vehicle) {
    const bool never = !(in_pounds_per_horsepower(vehicle) > 0.0) || level <= lowest_gear;
    if (never) {
        return std::numeric_limits<double>::infinity();
    }
    const double steepest = power_constant / (in_pounds_per_horsepower(vehicle) * in_mph(level));
    return std::max((steepest - rolling) * grade_of_one, 0.0);
}

}  // namespace

Speed crawl_speed(WeightPerPower vehicle, Grade grade) {
    const Speed crawl = mph(power_constant /
                            (in_pounds_per_horsepower(vehicle) * (grade / grade_of_one + rolling)));
    return std::max(crawl, lowest_gear);
}

Climb::Climb(Speed level, WeightPerPower vehicle)
    : level_(level), vehicle_(vehicle), slowing_(slowing_grade(level, vehicle)) {}

Duration Climb::delay(std::span<const Grade> steps, Length length, bool as_drawn) const {
    Duration delay;
    const Length part = length / static_cast<double>(std::max<std::size_t>(steps.size(), 1));
    for (const Grade step : steps) {
        delay += delay_on(step, part, as_drawn);
    }
    return delay;
}

Duration Climb::delay_between(std::span<const Grade> steps, Length length, bool as_drawn,
                              Length begin, Length end) const {
    Duration delay;
    const Length step = length / static_cast<double>(std::max<std::size_t>(steps.size(), 1));
    for (std::size_t i = 0; i < steps.size(); ++i) {
        const Length from = std::max(begin, step * static_cast<double>(i));
        const Length to = std::min(end, step * static_cast<double>(i + 1));
        if (from < to) {
            delay += delay_on(steps[i], to - from, as_drawn);
        }
    }
    return delay;
}

Duration Climb::delay_on(Grade step, Length part, bool as_drawn) const {
    const int uphill = as_drawn ? step : -step;
    if (!(uphill > slowing_) || step == no_grade) {
        return {};
    }
    const Speed slow = std::min(level_, crawl_speed(vehicle_, static_cast<Grade>(uphill)));
    return part / slow - part / level_;
}

}  // namespace farwater::routing
