// One incident at one dump site, as the incident run sees it: who hauls, from where, when each
// thing is ready, what limits the draft. Times are minutes since the alarm. Everything is a given
// value here; where values come from is the assessment's business (assessment.h).
#pragma once

#include <array>
#include <optional>
#include <vector>

#include "analyzer/district/ids.h"
#include "analyzer/district/units.h"
#include "analyzer/district/words.h"

namespace farwater::supply {

struct Leg {
    Duration empty;   // dump site to fill site
    Duration loaded;  // fill site to dump site
    friend bool operator==(const Leg&, const Leg&) = default;
};

struct Tanker {
    Volume delivered;  // put into the portable tanks per load (tank x delivered fraction)
    Volume refilled;   // taken from the source per load (tank x refill fraction)
    Flow fill_limit;   // what its inlet takes
    Flow offload;      // what its dump valve gives
    Duration fill_before, fill_after;        // handling in a fill place, besides flow
    Duration offload_before, offload_after;  // handling in an offload slot, besides flow
    Duration arrives;                        // full, at the dump site
    bool can_nurse = false;  // has a pump, may feed the engine before the draft is up
    // What that pump gives the engine; where several nurse, the least of all who can counts for
    // each.
    Flow nurse_rate = gpm(400);
    Evidence evidence = Evidence::declared;  // of fill limit and offload rate; no part in the run
    std::size_t fill_site = 0;               // where it fills: an index into Incident::fill_sites
    Leg leg;                                 // to and from that fill site
    UnitIndex unit;                          // which it is; no part in the run
};

struct FillSite {
    int places = 1;            // tankers connected at the same time
    std::optional<int> flows;  // filled at the same time; none = the best of 1..places is searched
    Flow pump;                 // shared: each running fill has min(fill_limit, pump / flows)
    Duration ready;
    std::optional<Volume> usable;   // none = unlimited, said by somebody in so many words
    Flow inflow;                    // what refills it during the incident
    Duration backing = minutes(0);  // into a place there, on top of a tanker's own fill_before
};

inline constexpr int most_offload_slots = 8;

struct DumpSite {
    int offload_slots = 1;
    // From when each slot after the first has its people, ascending; not before the tanks are ready
    // in any case. A slot beyond the list waits for nobody.
    std::array<Duration, most_offload_slots - 1> further_slots_from{};
    // The drive, loaded or empty, from where the next tanker waits to the dump site: a part of the
    // legs and of the way of who arrives. A tanker has it to itself from setting out to being back
    // there, and there is one slot.
    Duration single_file;
    std::optional<Volume> storage;  // usable gallons in portable tanks; none = unlimited
    Volume engine_tank;             // the drafting (or attacking) engine's own tank
    Duration engine_arrives;
    Duration tanks_ready;
    Duration draft_ready;
    int nursing_tankers = 0;
    Duration nurse_hookup = minutes(1.0);
    std::optional<Flow> flow_cap;  // strainer, pump, transfer, supply line; none = unlimited
};

struct InitialAttack {
    Flow flow;      // drawn from the same water before the start; 0 = none
    Duration from;  // not before the engine has arrived
};

struct Incident {
    DumpSite dump_site;
    std::vector<FillSite> fill_sites;
    std::vector<Tanker> tankers;  // in this order where arrivals tie
    InitialAttack initial_attack;
};

// From when and for how long a flow has to hold.
struct Window {
    Duration start;
    Duration duration;
};

}  // namespace farwater::supply
