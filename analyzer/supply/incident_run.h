// The incident run: simulates a shuttle exactly (first in, first out; two events per trip) and
// answers which constant flow can be held. Deterministic; no allocation proportional to time.
//
// Model and proofs: mass-diagram reasoning with finite storage; each completion time is a maximum
// of (alpha + gamma / flow) along paths of the schedule, so one run carries every time as such a
// pair and Newton's step on it is exact. For a fixed order of tankers feasibility is monotone in the
// flow; with tankers of different size the order may change, so the solver guards its answer.
//
// Cost: one run is O(trips x (tankers + places + slots)); an answer takes about four runs, 4 to 12
// microseconds for eight tankers over two hours.
#pragma once

#include <optional>

#include "analyzer/supply/incident.h"

namespace farwater::supply {

// The largest constant flow, in whole tenths of a gpm, that holds from `window.start` for
// `window.duration` without the engine ever running dry; not more than the dump site's flow cap.
// Zero when nothing can be held. Preconditions: every tanker's fill_site is valid, all volumes,
// flows and durations are finite and not negative, fill limits, offload rates and pumps are positive,
// duration is positive. Fill sites whose `flows` is none: 1..places are tried, the best is kept.
HeldFlow sustained_flow(const Incident& incident, Window window);

// The same with every stage's time multiplied by (1 + 0.35 cv): within a few per cent the flow that
// holds in nine of ten shuttles whose stage times scatter with coefficient of variation `cv`
// (found by simulation over random fleets; common practice, no source). States are judged on it.
HeldFlow cautious_flow(const Incident& incident, Window window, double cv);
Incident slowed(const Incident& incident, double factor);  // stage times (legs, handling, fill and offload flow) x factor

// Does `flow` hold from window.start for window.duration?
bool holds(const Incident& incident, Window window, HeldFlow flow);

// The earliest start, in whole tenths of a minute rounded up, from which `flow` holds for
// `duration`, not later than `latest`; none when there is no such start.
std::optional<Duration> earliest_start(const Incident& incident, HeldFlow flow, Duration duration, Duration latest);

// How long `flow` lasts from `start`: the first dry moment minus start, at most `longest`.
Duration lasts(const Incident& incident, Duration start, HeldFlow flow, Duration longest);

// The clocks of the first twenty minutes. With an initial attack flow: `continuous` is the earliest
// minute from which that flow never runs dry to the end of the window, none if it never does;
// `dry` is the time without water between `tank_water` and `continuous`.
struct FirstMinutes {
    Duration tank_water;                  // the engine's own tank is on the fire
    std::optional<Duration> continuous;
    Duration dry;
};
FirstMinutes first_minutes(const Incident& incident, Window window);

}  // namespace farwater::supply
