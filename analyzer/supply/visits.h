// How long a tanker holds a fill place and an offload slot when nobody is in its way.
#pragma once

#include <algorithm>

#include "analyzer/supply/incident.h"

namespace farwater::supply {

struct FillVisit {
    Duration before, flowing, after;
    Duration in_place() const { return before + flowing + after; }
};

inline Duration flowing_for(Volume load, Flow rate) {
    return load > Volume{} ? load / rate : Duration{};
}

// At the best rate that any way of filling gives: the tanker's limit, and the pump, shared where
// the number of flows is given. Precondition: both are positive.
inline FillVisit fill_visit(const FillSite& site, const Tanker& tanker) {
    const Flow rate =
        std::min(tanker.fill_limit, site.pump / static_cast<double>(site.flows.value_or(1)));
    return {tanker.fill_before, flowing_for(tanker.refilled, rate), tanker.fill_after};
}

inline Duration offload_visit(const Tanker& tanker) {
    return tanker.offload_before + flowing_for(tanker.delivered, tanker.offload) +
           tanker.offload_after;
}

}  // namespace farwater::supply
