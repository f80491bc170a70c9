// Water in against water drawn: the moments at which a run can fall short, and by how much.
// Minutes, gallons, gpm.
//
// Between two of these moments the water in is concave (every load's inflow only slows down after
// it has begun, but for the surges that the schedule names) and the draw is straight, so what
// holds at all of them holds throughout. They are: first gallons, surges, the last instant before
// the engine tank and before the draft count, and the end.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "analyzer/supply/run/draw.h"
#include "analyzer/supply/run/moment.h"
#include "analyzer/supply/run/schedule.h"
#include "analyzer/supply/run/shuttle.h"

namespace farwater::supply::run {

// Usable gallons at one moment: fixed + per_flow / flow, and, where a load waits for room, as much
// as is drawn beside it (`follows_draw`).
struct Water {
    double fixed = 0.0;
    double per_flow = 0.0;
    double at = 0.0;
    bool follows_draw = false;
};

struct Check {
    Moment when;
    Water water;
    double drawn = 0.0;
};

class Balance {
public:
    // The checks after `from` and up to `until`, in order of time; valid until the next call.
    // O(loads x loads that flow at the same time).
    const std::vector<Check>& checks(const Shuttle& shuttle, const Schedule& schedule,
                                     const Draw& draw, double from, double until);

private:
    struct Mark {
        Moment when;
        bool without_engine = false;
        bool without_draft = false;
    };

    void mark(const Shuttle& shuttle, const Schedule& schedule, double from, double until);
    Water water(const Shuttle& shuttle, const Mark& mark, double drawn);

    std::vector<Mark> marks_;
    std::vector<Check> checks_;
    std::vector<const Load*> flowing_;
    double nursed_ = 0.0;  // gallons of the nursing loads that are all in
    double dumped_ = 0.0;  // gallons of the other loads that are all in
};

// Usable gallons at any minute. O(loads); `checks` is the quick way for the moments that matter.
double water_by(const Shuttle& shuttle, std::span<const Load> loads, const Draw& draw,
                double minute);

// The minute at which the draw meets the water, between a moment that has enough and the next
// check, `short_at`, which has not. Within 1e-9 minutes; O(loads x about 4 steps, 50 while water
// runs in).
double dry_minute(const Shuttle& shuttle, std::span<const Load> loads, const Draw& draw,
                  double enough_at, const Check& short_at);

// Less water than drawn, beyond rounding (relative 1e-7).
bool falls_short(const Check& check);

// A run that falls short at `check` holds at most this flow: the root of water = drawn on the same
// path of the schedule. Always less than the flow of the run.
double flow_that_fits(const Check& check, const Draw& draw);

}  // namespace farwater::supply::run
