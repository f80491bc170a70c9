// Water in against water drawn: the moments at which a run can fall short, and by how much.
// Minutes, gallons, gpm.
//
// Between two of these moments the water in is concave (every load's inflow only slows down after
// it has begun, but for the surges that the schedule names) and the draw is straight, so what
// holds at all of them holds throughout. They are: first gallons, surges, the last instant before
// the engine tank and before the draft count, and the end.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "analyzer/supply/run/draw.h"
#include "analyzer/supply/run/moment.h"
#include "analyzer/supply/run/schedule.h"
#include "analyzer/supply/run/shuttle.h"

namespace farwater::supply::run {

template <class Time>
struct Water;

// Usable gallons at one moment: fixed + per_flow / flow, and, where a load waits for room, as much
// as is drawn beside it (`follows_draw`).
template <>
struct Water<Moment> {
    double fixed = 0.0;
    double per_flow = 0.0;
    double at = 0.0;
    bool follows_draw = false;

    static Water constant(double gallons) { return {gallons, 0.0, gallons, false}; }
    static Water ramp(double rate, Moment since, Moment when) {
        return {rate * (when.fixed - since.fixed), rate * (when.gallons - since.gallons),
                rate * (when.at - since.at), false};
    }
    static Water following(double drawn, double apart) { return {apart, 0.0, drawn + apart, true}; }
    friend Water operator+(Water a, Water b) {
        return {a.fixed + b.fixed, a.per_flow + b.per_flow, a.at + b.at,
                a.follows_draw || b.follows_draw};
    }
};

// At the flow of this run alone.
template <>
struct Water<Minute> {
    double at = 0.0;

    static Water constant(double gallons) { return {gallons}; }
    static Water ramp(double rate, Minute since, Minute when) {
        return {rate * (when.at - since.at)};
    }
    static Water following(double drawn, double apart) { return {drawn + apart}; }
    friend Water operator+(Water a, Water b) { return {a.at + b.at}; }
};

template <class Time>
struct Check {
    Time when;
    Water<Time> water;
    double drawn = 0.0;
};

template <class Time>
class Balance {
public:
    // The checks of a run after `from` and up to `until`, in order of time, one after the other by
    // next(). All that is given must stay as it is until the last one; but the schedule may go on
    // meanwhile, as long as no surge comes to light.
    // O(loads x loads that flow at the same time) for all of them.
    void begin(const Shuttle& shuttle, const Schedule<Time>& schedule, const Draw& draw,
               double from, double until);

    // Null: there is no other that is told by the loads that arrive before `known_until`. Valid
    // until the next call.
    const Check<Time>* next(double known_until);
    const Check<Time>* next() { return next(until_); }

private:
    struct Mark {
        Time when;
        bool without_engine = false;
        bool without_draft = false;
    };

    void mark();
    const Check<Time>* check(const Mark& mark);
    Water<Time> water(const Mark& mark, double drawn);

    const Shuttle* shuttle_ = nullptr;
    const Schedule<Time>* schedule_ = nullptr;
    Draw draw_;
    double from_ = 0.0, until_ = 0.0;
    std::vector<Mark> marks_;
    std::size_t mark_ = 0;              // that is next
    std::size_t load_ = 0;              // likewise
    std::vector<std::size_t> flowing_;  // loads
    double nursed_ = 0.0;               // gallons of the nursing loads that are all in
    double dumped_ = 0.0;               // gallons of the other loads that are all in
    Check<Time> check_;
};

// Usable gallons at any minute. O(loads); a Balance is the quick way for the moments that matter.
double water_by(const Shuttle& shuttle, std::span<const Load<Minute>> loads, const Draw& draw,
                double minute);

// The minute at which the draw meets the water, between a moment that has enough and the next
// check, `short_at`, which has not. Within 1e-9 minutes; O(loads x about 4 steps, 50 while water
// runs in).
double dry_minute(const Shuttle& shuttle, std::span<const Load<Minute>> loads, const Draw& draw,
                  double enough_at, const Check<Minute>& short_at);

// Less water than drawn, beyond rounding.
template <class Time>
bool falls_short(const Check<Time>& check) {
    constexpr double rounding = 1e-7;        // relative, of gallons
    constexpr double rounding_floor = 1e-9;  // gallons
    return check.drawn > check.water.at * (1.0 + rounding) + rounding_floor;
}

// A run that falls short at `check` holds at most this flow: the root of water = drawn on the same
// path of the schedule. Always less than the flow of the run.
double flow_that_fits(const Check<Moment>& check, const Draw& draw);

}  // namespace farwater::supply::run
