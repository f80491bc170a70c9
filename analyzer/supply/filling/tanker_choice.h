// Which of the tankers that are there are run in the shuttle. Past the knee a small slow tanker
// holds up the others at the slot or the fill place, so more tankers can give less; whoever runs a
// dump site sends such a tanker to stand by.
//
// The tankers are put in order of what they are worth where it is scarce, at the offload slot or at
// the fill place; the first so many of them are run. The search begins at the number that keeps the
// slots or the places busy and goes up and down from there as long as that gains: a few runs.
// Precondition of all: at most 64 tankers.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "analyzer/supply/filling/plan_judge.h"
#include "analyzer/supply/incident.h"
#include "analyzer/supply/plan_order.h"

namespace farwater::supply {

struct ShuttlePlan {
    Incident incident;
    Incident slow;  // the same with stage times slowed: the cautious flow is its
    HeldFlow cautious{};
    Merit merit{};
};

// What the judge says of a plan that is known to be worth this: with the flow of its window.
ShuttlePlan plan_of(const PlanJudge& judge, Incident incident, Incident slow, const Merit& merit);

using Running = std::uint64_t;  // a bit for each tanker of an incident

bool one_can_nurse(const Incident& incident);

// Which tankers of an incident run and how many of them nurse.
struct Choice {
    Running running = 0;  // none: nothing is better than what was known
    int nursing = 0;
    Merit merit{};  // what was known where nothing is better
};
ShuttlePlan plan_by(const PlanJudge& judge, const Incident& incident, const Choice& choice);

// A choice that was judged, and where it is better than `than`, its merit.
struct TriedChoice {
    Running running = 0;
    int nursing = 0;
    Merit than{};
    std::optional<Merit> merit;
};
// Of one incident by one judge: who searches again is not told the same thing twice.
using TriedChoices = std::vector<TriedChoice>;

// The best of such choices by worth at the slot, no nursing but where the first minutes count;
// `least` when it is no better than that. Good enough to choose a fill site by.
Merit quick_choice(const Incident& incident, const PlanJudge& judge, const Merit& least,
                   TriedChoices& tried);

// The best by either worth, with and without a nursing tanker where one can nurse, and then with
// single tankers turned in or out as long as that gains; nobody runs when it is no better than
// `least`. About two runs per tanker.
Choice full_choice(const Incident& incident, const PlanJudge& judge, const Merit& least,
                   TriedChoices tried = {});

}  // namespace farwater::supply
