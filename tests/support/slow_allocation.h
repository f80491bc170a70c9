// A slow, plain twin of the allocation of tankers to fill sites: every split of whole tankers is
// written down, and what the fluid model gives it is a linear program solved by the textbook's
// tableau. Minutes, US gallons, gpm.
#pragma once

#include <optional>
#include <utility>
#include <vector>

#include "tests/support/slow_shuttle.h"

namespace farwater::slow {

using WayThere = std::optional<std::pair<double, double>>;  // minutes empty, minutes loaded

struct SplitValue {
    std::vector<std::size_t> fill_sites;  // for each tanker
    double flow = 0.0;
};

// The most gallons a minute in the long run with every tanker at the fill site and with the legs
// that the incident gives it. A fill site whose flows are 0 may share its pump in any way.
double slow_fluid_flow(const Incident& incident, double duration);

// All splits that the ways allow, the largest flow first. `ways` is [tanker][fill site].
std::vector<SplitValue> slow_splits(const Incident& incident,
                                    const std::vector<std::vector<WayThere>>& ways,
                                    double duration);

}  // namespace farwater::slow
