// Which of the tankers that are there are run in the shuttle. Past the knee a small slow tanker
// holds up the others at the slot or the fill place, so more tankers can give less; whoever runs a
// dump site sends such a tanker to stand by. The choice never gives less than running all of them.
#pragma once

#include "analyzer/supply/incident.h"

namespace farwater::supply {

struct ShuttlePlan {
    Incident incident;
    Incident slow;  // the same with stage times slowed: the cautious flow is its
    HeldFlow cautious{};
};

ShuttlePlan all_tankers(const Incident& incident, Window window, double factor);

// Leaves out tankers, least worth at the offload slot first, until two more in a row gain nothing.
// A few runs; good enough to choose a fill site by.
ShuttlePlan quick_choice(const Incident& incident, Window window, double factor);

// The best of leaving out by worth at the slot and by worth at the fill place, all the way; then
// single tankers as long as that gains. About four runs per tanker.
struct FullChoice {
    ShuttlePlan plan;
    HeldFlow one_tanker_out{};  // cautious, without the one that is missed most; 0 for one tanker
};
FullChoice full_choice(const Incident& incident, Window window, double factor);

}  // namespace farwater::supply
