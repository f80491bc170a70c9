#include "analyzer/supply/bounds/choice_bound.h"

#include <algorithm>

#include "analyzer/supply/incident_run.h"

namespace farwater::supply {

Incident with_nursing(Incident incident) {
    if (std::ranges::any_of(incident.tankers, &Tanker::can_nurse)) {
        int& nursing = incident.dump_site.nursing_tankers;
        nursing = std::max(1, nursing);
    }
    return incident;
}

HeldFlow choice_bound(const Incident& incident, Window window) {
    return held(window_bound(with_nursing(incident), window));
}

}  // namespace farwater::supply
