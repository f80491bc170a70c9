#include "routing/sites/level_stretches.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace farwater::routing {
namespace {

constexpr double step_hair = 1e-3;  // metres: a stretch that only touches a step does not lie on it

double length_of(const Network& network, RoadSpot spot) {
    return in_metres(at(network.edges, spot.edge).length());
}

// The steps that a stretch of an edge lies on.
std::span<const Grade> steps_between(std::span<const Grade> steps, double step, double begin,
                                     double end) {
    const auto count = static_cast<double>(steps.size());
    const double first = std::clamp(std::floor((begin + step_hair) / step), 0.0, count - 1.0);
    const double last = std::clamp(std::ceil((end - step_hair) / step), first + 1.0, count);
    return steps.subspan(static_cast<std::size_t>(first), static_cast<std::size_t>(last - first));
}

constexpr double pace = 3.0;                       // metres
constexpr double straight_within = 0.96592582628;  // cosine of 15 degrees

bool turned(Point ahead, Point step) {
    const double lengths = std::hypot(ahead.x, ahead.y) * std::hypot(step.x, step.y);
    return ahead.x * step.x + ahead.y * step.y < straight_within * lengths;
}

RoadSpot nearer(RoadSpot spot, const std::optional<RoadSpot>& best, double along) {
    return best && std::abs(best->along - spot.along) <= std::abs(along - spot.along)
               ? *best
               : RoadSpot{spot.edge, along};
}

}  // namespace

LevelStretches::LevelStretches(const Assumptions& assumptions, const Network& network)
    : network_(network),
      length_(in_metres(assumptions.dump_site_length)),
      line_(in_metres(assumptions.draft_engine_length +
                      assumptions.portable_tank_length * assumptions.most_portable_tanks)),
      most_(assumptions.steepest_dump_site_pct * 100.0) {}

bool LevelStretches::steep(Grade grade) const {
    return grade != no_grade && std::abs(grade) > most_;
}

std::optional<double> LevelStretches::grade_pct(RoadSpot spot) const {
    const std::span<const Grade> steps = network_.grades.of(spot.edge.position());
    if (steps.empty()) {
        return std::nullopt;
    }
    const double length = length_of(network_, spot);
    const double begin =
        std::clamp(spot.along - length_ / 2.0, 0.0, std::max(0.0, length - length_));
    const double end = std::min(begin + length_, length);
    std::optional<double> steepest;
    for (const Grade grade :
         steps_between(steps, length / static_cast<double>(steps.size()), begin, end)) {
        if (grade != no_grade) {
            steepest = std::max(steepest.value_or(0.0), std::abs(grade) / 100.0);
        }
    }
    return steepest;
}

bool LevelStretches::level(RoadSpot spot) const {
    return !steep_pct(grade_pct(spot).value_or(0.0));
}

std::optional<double> LevelStretches::grade_pct_beside(const District& district, RoadSpot spot,
                                                       Point place) const {
    return beside(district, spot, place) ? grade_pct(spot) : std::nullopt;
}

bool LevelStretches::beside(const District& district, RoadSpot spot, Point place) const {
    return in_metres(distance(place, place_of(district, network_, spot))) <= length_ / 2.0;
}

// Metres from the spot towards the start (-1) or the end (1) of its edge.
double LevelStretches::straight_to(const District& district, RoadSpot spot, double toward) const {
    const std::span<const Grade> steps = network_.grades.of(spot.edge.position());
    const double length = length_of(network_, spot);
    const auto there = [&](double along) {
        return place_of(district, network_, {spot.edge, std::clamp(along, 0.0, length)});
    };
    const Point before = there(spot.along - pace / 2.0);
    const Point after = there(spot.along + pace / 2.0);
    const Point ahead{(after.x - before.x) * toward, (after.y - before.y) * toward};
    for (double gone = 0.0; gone < line_; gone += pace) {
        const double from = spot.along + toward * gone;
        const double left = toward > 0.0 ? length - from : from;
        if (left <= 0.0) {
            return gone + left;
        }
        const Point a = there(from);
        const Point b = there(from + toward * pace);
        const bool is_steep =
            !steps.empty() &&
            steep(steps[std::min(steps.size() - 1,
                                 static_cast<std::size_t>((from + toward * step_hair) / length *
                                                          static_cast<double>(steps.size())))]);
        if (is_steep || turned(ahead, {b.x - a.x, b.y - a.y})) {
            return gone;
        }
    }
    return line_;
}

Length LevelStretches::straight(const District& district, RoadSpot spot) const {
    const double both = straight_to(district, spot, -1.0) + straight_to(district, spot, 1.0);
    return metres(std::clamp(both, 0.0, line_));
}

std::optional<Length> LevelStretches::straight_beside(const District& district, RoadSpot spot,
                                                      Point place) const {
    return beside(district, spot, place) ? std::optional(straight(district, spot)) : std::nullopt;
}

std::optional<RoadSpot> LevelStretches::nearest(RoadSpot spot, double low, double high) const {
    const std::span<const Grade> steps = network_.grades.of(spot.edge.position());
    if (std::ranges::none_of(steps, [&](Grade grade) { return steep(grade); })) {
        return RoadSpot{spot.edge, std::clamp(spot.along, low, high)};
    }
    return nearest_among(spot, low, high, steps);
}

// Runs of steps that are not steep, and in each the places whose stretch lies within it.
std::optional<RoadSpot> LevelStretches::nearest_among(RoadSpot spot, double low, double high,
                                                      std::span<const Grade> steps) const {
    const double length = length_of(network_, spot);
    const double step = length / static_cast<double>(steps.size());
    const double needed = std::min(length_, length);
    const auto is_steep = [&](Grade grade) { return steep(grade); };
    std::optional<RoadSpot> best;
    for (auto first = steps.begin(); first != steps.end();) {
        const auto last = std::find_if(first, steps.end(), is_steep);
        const double begin = step * static_cast<double>(first - steps.begin());
        const double end = step * static_cast<double>(last - steps.begin());
        const double from = std::max(low, first == steps.begin() ? 0.0 : begin + needed / 2.0);
        const double to = std::min(high, last == steps.end() ? length : end - needed / 2.0);
        if (last != first && end - begin >= needed - step_hair && from <= to) {
            best = nearer(spot, best, std::clamp(spot.along, from, to));
        }
        first = std::find_if_not(last, steps.end(), is_steep);
    }
    return best;
}

}  // namespace farwater::routing
