// How long a tanker holds a fill place and an offload slot when nobody is in its way, and which one
// nurses.
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

// The best that any way of filling gives: the tanker's limit, and the pump, shared where the number
// of flows is given.
inline Flow fill_rate(const FillSite& site, const Tanker& tanker) {
    const int flows = std::max(1, site.flows.value_or(1));
    return std::min(tanker.fill_limit, site.pump / static_cast<double>(flows));
}

// At that rate. Precondition: it is positive.
inline FillVisit fill_visit(const FillSite& site, const Tanker& tanker) {
    return {tanker.fill_before + site.backing,
            flowing_for(tanker.refilled, fill_rate(site, tanker)), tanker.fill_after};
}

inline Duration offload_visit(const Tanker& tanker) {
    return tanker.offload_before + flowing_for(tanker.delivered, tanker.offload) +
           tanker.offload_after;
}

// How long it keeps all others out: where it comes in single file, the drive from where the next
// one waits and back there belongs to it. That drive is a part of the legs too.
inline Duration slot_visit(const DumpSite& site, const Tanker& tanker) {
    return offload_visit(tanker) + site.single_file * 2.0;
}

// Who feeds the engine before the draft is up: where one nurses, the first that is there and can.
// Null: nobody. Precondition: the tankers are in the order of their arrival.
inline const Tanker* first_to_nurse(const Incident& incident) {
    const auto found = std::ranges::find(incident.tankers, true, &Tanker::can_nurse);
    const bool one = incident.dump_site.nursing_tankers > 0 && found != incident.tankers.end();
    return one ? &*found : nullptr;
}

}  // namespace farwater::supply
