// One case: a dump site, the first engine's arrival, a zone and a duration. Everything about the
// shuttle that does not depend on the single house is worked out once per case.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "analyzer/supply/assessment.h"
#include "analyzer/supply/filling/fill_option.h"
#include "analyzer/supply/incident.h"
#include "analyzer/supply/places/crew.h"
#include "analyzer/supply/places/limits.h"
#include "analyzer/supply/plan_order.h"
#include "analyzer/supply/scene.h"

namespace farwater::supply {

// That are run at the same time.
inline constexpr std::size_t most_fill_sites = 3;

inline constexpr HeldFlow any_flow = tenths_of_gpm(INT32_MAX);

// A fill site in use.
struct FillUse {
    SourceIndex source;
    std::size_t tankers = 0;  // that fill there
    UnitIndex first_tanker;   // of those, by arrival
    Duration round_trip;      // its legs
    RunBy run_by;
};

// One plan of a case, and what is told of it.
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

// The first is by one fill site, or says why there is none; then over more than one where that
// holds more; then, without terms, each of these with one tanker that nurses, where that shortens
// its gap and still holds what somebody needs. Later flow, build-up and the flow with one tanker
// out are no lower in the second than in the first, nor with a tanker that nurses than without: the
// plan before is then still there to fall back on. Never empty.
using CasePlans = std::vector<CasePlan>;

struct CaseWanted {
    Duration duration;
    HeldFlow least{};             // no more is of no interest; zero: all is
    HeldFlow easiest = any_flow;  // the smallest need of its parcels
};

// The fill site (of those that routing lists for the dump site), the tankers and the number of
// nursing tankers (none or one) that are best in the situation's order, with the largest cautious
// flow where it has no terms; the nearer fill site of equals. All fill sites are looked at in full,
// the one that does best with a quick choice of tankers first, but for those whose bound is no more
// than what was found. Then two and three fill sites at the same time (several_sites.h), as many as
// there are people for (crew.h); what more people would gain stands among the gains. Where what
// siphons move holds the flow down, shorter lines of portable tanks are tried too, down to the
// draft tank alone; the longer one of equals is kept.
//
// Where the cautious flow is no more than `least`, above zero, nothing but that flow is told.
CasePlans work_out(const Situation& situation, const Scene& scene, const CaseWanted& wanted);

// The same with every fill site looked at in full: for the tests.
CasePlans work_out_plainly(const Situation& situation, const Scene& scene, Duration duration);

// From when and for how long a flow has to hold.
Window window_of(const Situation& situation, const Scene& scene, Duration duration);

// The factor on stage times behind the cautious flow (incident_run.h), by the district's scatter.
double cautious_factor(const Assumptions& assumptions);

}  // namespace farwater::supply
