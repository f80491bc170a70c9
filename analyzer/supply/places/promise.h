// What a hose lay can give at most, by bounds and without a run: which lay is worked out first, and
// which need not be worked out at all.
#pragma once

#include "analyzer/supply/assessment.h"
#include "analyzer/supply/scene.h"
#include "analyzer/supply/situation.h"

namespace farwater::supply {

struct Promise {
    HeldFlow likely{};     // by the best fill site alone, in the long run too: to choose by
    HeldFlow most{};       // no cautious flow is larger
    HeldFlow later{};      // nor any that holds from some start up to the late horizon
    bool reached = false;  // a tanker gets to the dump site
};

// Of the shuttle, before its water goes through hose. Nothing where there can be no shuttle. The
// last two are proved: window bounds with a nursing tanker where one can nurse, of each fill site
// alone and of all together as if they were one (where there are people for a second), with
// nothing drawn before the start for `later`. Ten microseconds.
Promise promise_of(const Situation& situation, const Scene& scene, Duration duration);

// No more comes through hose that carries `line`.
Promise through(Promise promise, HeldFlow line);

// Whether a lay that promises this may give a better answer (as plan_order.h has it without terms)
// than was found.
// Precondition: what was found is held, late, short or tank_only.
bool may_be_better(const Promise& promise, const ParcelSupply& found);

// The cautious flow that such a lay has to exceed for a better answer; zero where it may also begin
// sooner than what was found.
HeldFlow to_exceed(const Promise& promise, const ParcelSupply& found);

// The order in which lays are worked out: by what they may come to for the need, the best first.
bool promises_more(const Promise& a, const Promise& b, HeldFlow needed);

}  // namespace farwater::supply
