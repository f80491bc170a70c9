// Everything that is said about one shuttle: what it holds, from when, for how long, what limits
// it, what one more of each thing gains, and the figures that are quoted beside.
#pragma once

#include <optional>
#include <vector>

#include "analyzer/district/words.h"
#include "analyzer/supply/filling/fluid_model.h"
#include "analyzer/supply/incident.h"
#include "analyzer/supply/incident_run.h"
#include "analyzer/supply/places/limits.h"

namespace farwater::supply {

// What is asked of a shuttle.
struct ShuttleQuestion {
    Incident incident;
    TankLine line;  // of its dump site, all tanks in reach in use; or without tanks
    FillLegs legs;  // one for each tanker: nothing to allocate
    Window window;
    std::optional<HeldFlow> needed;
    double stage_cv = 0.2;
    double firm_margin = 1.1;
    Duration horizon = minutes(60);  // later starts than this and the window's are not looked for
};

struct HeldFrom {
    Duration start;
    HeldFlow sustained{}, cautious{};
};

// Judged on the cautious flow.
struct NeedAnswer {
    HeldFlow needed{};
    SupplyState state = SupplyState::tank_only;  // held, late, short or tank only
    Margin margin = Margin::none;
    std::optional<Duration> earliest_start;  // within the horizon
    Duration holds_for;                      // from the window's start
    bool holds_beyond = false;               // `holds_for` is as far as was looked
};

struct ShuttleAnswer {
    Incident incident;  // with the tankers as allocated
    TankLine line;      // with the tanks that are used: fewer where what siphons move would bind
    bool allocated = false;
    bool allocation_proved = true;  // best split of the fluid model found
    HeldFlow sustained{}, cautious{};
    Flow handbook;  // handbook.h
    Flow bound;     // dispatch_bound.h: for this window
    Flow long_run;  // long_run_bound of fluid_model.h
    Flow disorder;  // disorder.h
    std::vector<Gain> gains;
    HeldFlow flow_line_gain{};  // one more flow line; nothing where lines are left open
    Limit limit = Limit::none;
    std::vector<HeldFlow> without;  // sustained flow without each tanker, the others as they are
    std::vector<HeldFrom> build_up;
    FirstMinutes first_minutes;
    Volume on_wheels;  // delivered by tankers that are there by the start, and the engine's tank
    std::optional<NeedAnswer> need;
};

// Precondition: as for the incident run; at least one tanker. A few hundred runs and one
// allocation: milliseconds.
ShuttleAnswer answer(const ShuttleQuestion& question);

// The tanker that is missed most, an index; none without tankers.
std::optional<std::size_t> worst_out(const ShuttleAnswer& answer);
// Without it the others hold more than with it, by at least half a gpm; an index.
std::optional<std::size_t> better_without(const ShuttleAnswer& answer);

}  // namespace farwater::supply
