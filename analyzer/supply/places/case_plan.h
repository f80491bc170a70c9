// One plan of a case, and all that is told of it.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "analyzer/supply/assessment.h"
#include "analyzer/supply/incident.h"
#include "analyzer/supply/places/chosen_fills.h"
#include "analyzer/supply/places/crew.h"
#include "analyzer/supply/places/limits.h"
#include "analyzer/supply/plan_order.h"

namespace farwater::supply {

inline constexpr HeldFlow any_flow = tenths_of_gpm(INT32_MAX);

// A fill site in use.
struct FillUse {
    SourceIndex source;
    std::size_t tankers = 0;  // that fill there
    UnitIndex first_tanker;   // of those, by arrival
    Duration round_trip;      // its legs
    RunBy run_by;
};

struct CasePlan {
    HeldFlow most_needed = any_flow;  // of no interest to who needs more
    Window window;
    Limit limit = Limit::none;  // why there is no flow, or what binds it
    bool passed_over = false;   // nothing but the cautious flow is told
    HeldFlow sustained{}, cautious{}, later{}, one_tanker_out{};
    BuildUp build_up{};  // cautious
    Flow handbook;
    Incident incident;           // the chosen one
    TankLine line;               // with the tanks that are used
    Incident slow;               // the same, slowed: earliest starts are asked of it
    std::vector<Gain> gains;     // in sustained flow, by one more of each thing
    std::vector<FillUse> fills;  // in the order of their first tankers' arrival
    SourceIndex source;          // the first of them
    std::size_t tankers = 0;     // that are run
    int crew_needed = 0;         // for all jobs, with these fill sites and tankers
    CrewThere crew;              // there by the start
    Duration tank_water;
    std::optional<Duration> continuous;
    Duration gap;
    // The same and the cautious flow with one tanker that nurses, where there is a gap and none
    // does; none where none can.
    std::optional<Duration> gap_nursing;
    HeldFlow nursing_flow{};
    Evidence evidence = Evidence::assumed;
    Merit merit;  // of the chosen plan, in the situation's order
    bool flows() const { return in_tenths(cautious) > 0 || in_tenths(later) > 0; }
};

// Of fill sites and tankers that were chosen. `most_needed` and what a nursing tanker would do are
// left out. A run of the incident or more for each thing that is told.
CasePlan told_of(const CaseQuestion& asked, const ChosenFills& chosen);

}  // namespace farwater::supply
