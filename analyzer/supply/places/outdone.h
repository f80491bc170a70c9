// What another choice outdoes in everything is not worked out. A crew at the better place could do
// all that it could do at the other, so the other holds no more, but for tankers that happen to
// fall into a better order on longer ways (a run is first in, first out): a plan as it is run, no
// law.
#pragma once

#include "analyzer/supply/filling/fill_option.h"
#include "analyzer/supply/incident.h"
#include "analyzer/supply/scene.h"
#include "analyzer/supply/situation.h"

namespace farwater::supply {

// A fill site and what it gives.
struct FillChoice {
    const FillOption& option;
    const FillSite& site;
};

// For every tanker of the scene that has a way to `b`, and for whoever fills there, `a` is as good.
// Equal ones outdo each other.
bool outdoes(const FillChoice& a, const FillChoice& b);

// Whoever comes to `b` comes to `a`, no later and in the same order, its tanks and draft are no
// less and no later, tankers need not back there if not at `b`, and every fill site of `b` is a
// site of `a` that is no farther. Also where `b` can have no shuttle, but not where it tells more
// of what is missing: tankers get to `b` and not to `a`. O(fill sites of a dump site squared).
bool outdoes(const Situation& situation, const Scene& a, const Scene& b);

}  // namespace farwater::supply
