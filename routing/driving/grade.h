// What a grade does to a heavy vehicle.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "analyzer/district/units.h"

namespace farwater::routing {

// Grades are whole hundredths of a percent, uphill in the direction that the road is drawn.
using Grade = std::int16_t;
inline constexpr Grade no_grade = INT16_MIN;      // not known: counts as level
inline constexpr Grade steepest_counted = 1'800;  // 18 %; roads are hardly ever steeper (common
                                                  // practice, no source): more is a false height

// Per edge its grades, each of one of equally long steps. How they come about: edge_grades.h.
struct Grades {
    std::vector<std::uint32_t> first;  // per edge, and one more; empty without elevation
    std::vector<Grade> steps;

    bool empty() const { return first.empty(); }
    std::span<const Grade> of(std::size_t edge) const {
        return empty() ? std::span<const Grade>()
                       : std::span(steps).subspan(first[edge], first[edge + 1] - first[edge]);
    }
};

// The speed that a vehicle holds for ever on this grade: V = 375 x 0.85 / (w (G + 0.012)), V in
// mph, w in pounds per horsepower, G the rise over the run, 0.012 rolling resistance and 0.85 what
// of the power comes to the wheels. The power relation P = W G V / 375 is published ("What is grade
// resistance?"); the two constants are from memory. Never less than 5 mph (common practice, no
// source: lowest gear). That apparatus must hold 20 mph on 6 % (NFPA 1901 road test, secondary
// source) is not taken for granted: a converted truck was never built to it. Precondition: grade
// >= 0, vehicle > 0.
Speed crawl_speed(WeightPerPower vehicle, Grade grade);

// How grades slow one vehicle that otherwise drives at `level`. On each step it drives at once at
// the lesser of the two speeds: a run at a short hill is not credited, so long hills are right and
// short ones cautious. Downhill is never faster than level. There is no descent limit for loaded
// tankers: published ones (the Grade Severity Rating System of the US Federal Highway
// Administration) ask for brakes and lengths that no data of a district tell.
class Climb {
public:
    // A vehicle of 0 pounds per horsepower is slowed by nothing.
    Climb(Speed level, WeightPerPower vehicle);

    // What climbing adds to an edge's length over the level speed. 0 for no steps. Never negative.
    Duration delay(std::span<const Grade> steps, Length length, bool as_drawn) const;

    // What of that falls to the stretch from `begin` to `end`, both from the start as drawn.
    Duration delay_between(std::span<const Grade> steps, Length length, bool as_drawn, Length begin,
                           Length end) const;

private:
    // 0 where the step does not slow it.
    Duration delay_on(Grade step, Length part, bool as_drawn) const;

    Speed level_;
    WeightPerPower vehicle_;
    double slowing_;  // grades above this one slow it
};

}  // namespace farwater::routing
