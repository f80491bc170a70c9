// The incident run: simulates a shuttle exactly (first in, first out; two events per trip) and
// answers which constant flow can be held. Deterministic: ties go to the tanker listed first.
//
// Model: mass-diagram reasoning with finite storage. Each completion time is a maximum of (alpha +
// gamma / flow) along paths of the schedule, so one run carries every time as such a pair and
// Newton's step on it is exact. For a fixed order of tankers, and so for tankers of one kind, a
// flow holds whenever a larger one does. Tankers of different kinds may overtake each other as the
// flow changes, and then a flow may hold while a slightly smaller one does not: the answers below
// always hold, and one tenth more does not, but another such flow may exist.
//
// Preconditions of all: every tanker's fill_site is valid; volumes, flows and times are finite,
// volumes, flows and durations are not negative; fill limits, offload rates and pumps are positive;
// flows, where given, are 1..places. A rate or a place that is missing all the same counts as
// "nobody gets on from there".
//
// Cost: one run is O(trips x (tankers + places + slots)), 1 to 2 microseconds for four to eight
// tankers over two hours; the sustained flow takes about four runs for each way of filling, 4 to
// 9 microseconds. The runs of one answer share their memory. No errors.
#pragma once

#include <optional>

#include "analyzer/supply/incident.h"

namespace farwater::supply {

// The largest constant flow, in whole tenths of a gpm, that holds from `window.start` for
// `window.duration` without the engine ever running dry; not more than the dump site's flow cap.
// Zero when nothing can be held or the duration is not positive. Fill sites whose `flows` is none:
// 1..places are tried, the best is kept.
HeldFlow sustained_flow(const Incident& incident, Window window);

// The same where only more than `least` is of interest: `least` itself, whether or not it holds,
// when not even a tenth more does. One run for each way of filling, none where the bound tells.
HeldFlow sustained_flow_above(const Incident& incident, Window window, HeldFlow least);

// Stage times times this factor give the cautious flow: within a few per cent what holds in nine of
// ten shuttles whose stage times scatter with coefficient of variation `cv` (found by simulation
// over random fleets; common practice, no source). States are judged on it.
inline constexpr double share_of_scatter = 0.35;
constexpr double cautious_factor(double cv) { return 1.0 + share_of_scatter * cv; }

// Stage times x factor: legs, handling, nursing hook-up, and filling, offloading and nursing, whose
// rates are divided by it. Arrivals, ready times and what refills a source stay. Factor positive.
Incident slowed(const Incident& incident, double factor);

// Does `flow` hold from window.start for window.duration? Zero always does; above the cap none
// does.
bool holds(const Incident& incident, Window window, HeldFlow flow);

// The earliest start, in whole tenths of a minute rounded up, from which `flow` holds for
// `duration`, not later than `latest`; none when it does not hold from `latest` (a start that holds
// is taken to hold when later: proved for tankers of one kind, and the careful side for others).
// About ten runs; with an initial attack of more than `flow` every tenth of a minute is tried.
std::optional<Duration> earliest_start(const Incident& incident, HeldFlow flow, Duration duration,
                                       Duration latest);

// How long `flow` lasts from `start`: the first dry moment minus start, at most `longest`. Zero for
// a flow above the cap. One run for each way of filling.
Duration lasts(const Incident& incident, Duration start, HeldFlow flow, Duration longest);

// No flow above this can hold: the least of the flow cap and, over the duration, of what the
// tankers bring by the end if they never wait, of that what the offload slots can pass, the first
// loads and of the others what the fill places and pumps can pass in the time and what the sources
// hold; with the engine's own tank, less what the initial attack has taken of it. The search for
// the sustained flow begins here. Proved, not tight; never larger with fewer tankers. Precondition:
// the duration is positive. O(tankers x fill sites), a fraction of one run.
Flow window_bound(const Incident& incident, Window window);

// The clocks of the first minutes, under the initial attack alone, drawn to the end of the window.
// `continuous` is the earliest minute from which water that others bring (draft or nursing) is
// there and the attack never runs dry to the end of the window; where the engine's own tank lasts
// that long by itself, the attack's beginning; none where it runs dry at the end, or where nothing
// is ever drawn nor brought. Several ways of filling: the one with the earliest such minute.
struct FirstMinutes {
    Duration
        tank_water;  // the engine's own tank is on the fire: the attack's beginning, else arrival
    std::optional<Duration> continuous;
    Duration dry;  // time without enough water between the two, or to the end
};
FirstMinutes first_minutes(const Incident& incident, Window window);

}  // namespace farwater::supply
