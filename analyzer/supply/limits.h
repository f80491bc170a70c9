// What holds the flow down: the incident is run again with one more of each thing, and the largest
// gain names the binding limit.
#pragma once

#include <vector>

#include "analyzer/district/words.h"
#include "analyzer/supply/incident.h"

namespace farwater::supply {

struct Gain {
    Limit limit = Limit::none;
    HeldFlow flow{};  // gained; below half a gpm counts as nothing gained
};

// One more tanker like the largest and with it, one more fill place with its share of the pump, the
// source doubled, one more offload slot, one more 2,500-gal portable tank, the draft without its
// cap, everything ready five minutes earlier (engines). In the order of the words. Seven runs.
std::vector<Gain> gains(const Incident& incident, Window window, HeldFlow sustained);

// The largest gain, the first of equals; none when nothing gains.
Limit binding_limit(const std::vector<Gain>& gains);

}  // namespace farwater::supply
