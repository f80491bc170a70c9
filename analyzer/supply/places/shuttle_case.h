// One case: a dump site, the first engine's arrival, a zone and a duration. Everything about the
// shuttle that does not depend on the single house is worked out once per case.
#pragma once

#include <vector>

#include "analyzer/supply/places/case_plan.h"
#include "analyzer/supply/scene.h"

namespace farwater::supply {

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
