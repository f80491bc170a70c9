// Two slow, clear twins of the incident run. They share no code with it, nor with each other, and
// take plain numbers: minutes since the alarm, US gallons, gpm; infinity for what has no limit.
//
// `slow_sustained_flow` writes the rules down as they are read, looks at the balance on a fine grid
// and at every bend, and searches by halves. It knows no initial attack.
// `ticked_...` moves water and tankers in small steps of time and knows nothing but the state of
// the moment: queues, connected tankers, what is in the tanks.
#pragma once

#include <cstddef>
#include <limits>
#include <optional>
#include <vector>

namespace farwater::slow {

inline constexpr double forever = std::numeric_limits<double>::infinity();

struct Tanker {
    double delivered = 0.0, refilled = 0.0;
    double fill_limit = 0.0, offload = 0.0;
    double fill_before = 0.0, fill_after = 0.0;
    double offload_before = 0.0, offload_after = 0.0;
    double arrives = 0.0;
    bool can_nurse = false;
    std::size_t fill_site = 0;
    double empty_leg = 0.0, loaded_leg = 0.0;
    double nurse_rate = 0.0;
};

struct FillSite {
    std::size_t places = 1;
    std::size_t flows = 1;
    double pump = 0.0;
    double ready = 0.0;
    double usable = 0.0;
    double inflow = 0.0;
};

struct Incident {
    std::size_t slots = 1;
    std::vector<double> further_slots_from;  // of those after the first; missing: no wait
    double single_file = 0.0;  // of each leg and of every arrival, alone with the slot
    double storage = 0.0;
    double engine_tank = 0.0, engine_arrives = 0.0;
    double tanks_ready = 0.0, draft_ready = 0.0;
    int nursing_tankers = 0;
    double nurse_hookup = 0.0;
    double attack_flow = 0.0, attack_from = 0.0;
    std::vector<FillSite> fill_sites;
    std::vector<Tanker> tankers;
};

// --- the rules, written down slowly -------------------------------------------------------------

bool slow_holds(const Incident& incident, double start, double duration, double flow);

// In tenths of a gpm, up to `most`: holds there and not one tenth above.
int slow_sustained_flow(const Incident& incident, double start, double duration, int most);

// --- tick by tick -------------------------------------------------------------------------------

struct Ticked {
    double first_dry = 0.0;   // the first minute without water from `start` on; infinity = none
    double attack_dry = 0.0;  // minutes without enough water for the attack before `start`
    double attack_dry_until = 0.0;  // the end of the last of them; 0 = none
};

// The attack up to `start`, then `flow` up to `until`, in steps of `tick` minutes.
Ticked ticked_run(const Incident& incident, double start, double flow, double until, double tick);

// By halves, in gpm, up to `most`.
double ticked_sustained_flow(const Incident& incident, double start, double duration, double most,
                             double tick);

}  // namespace farwater::slow
