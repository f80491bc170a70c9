#include "analyzer/supply/build_up.h"

#include "analyzer/supply/incident_run.h"

namespace farwater::supply {

BuildUp build_up(const Incident& incident, Duration duration) {
    BuildUp flows{};
    Incident capped = incident;
    for (std::size_t i = flows.size(); i-- > 0;) {
        flows[i] = sustained_flow(capped, {minutes(build_up_minutes[i]), duration});
        if (in_tenths(flows[i]) == 0) {
            break;  // nor is there any from an earlier minute on
        }
        capped.dump_site.flow_cap = flow_of(flows[i]);
    }
    return flows;
}

}  // namespace farwater::supply
