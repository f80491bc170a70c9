// Incidents that several tests begin from.
#pragma once

#include "analyzer/supply/incident.h"

namespace farwater::supply {

// A tanker as most departments have it: nine tenths delivered, 1,000 gpm in and out, one minute
// before and after filling, one before and half a minute after offloading (drive-through).
inline Tanker usual_tanker(double tank, double arrives) {
    Tanker tanker;
    tanker.delivered = gallons(0.9 * tank);
    tanker.refilled = gallons(tank);
    tanker.fill_limit = gpm(1000);
    tanker.offload = gpm(1000);
    tanker.fill_before = minutes(1.0);
    tanker.fill_after = minutes(1.0);
    tanker.offload_before = minutes(1.0);
    tanker.offload_after = minutes(0.5);
    tanker.arrives = minutes(arrives);
    tanker.can_nurse = true;
    tanker.leg = {minutes(4.2), minutes(4.6)};
    return tanker;
}

// "The ordinary case": an ordinary house 2.1 road miles from a fill site with 1,000 gpm and two
// places; two portable tanks, four tankers, none of them big.
inline Incident ordinary_case() {
    Incident incident;
    incident.dump_site.storage = gallons(2 * 2332);
    incident.dump_site.engine_tank = gallons(1000);
    incident.dump_site.engine_arrives = minutes(12.5);
    incident.dump_site.tanks_ready = minutes(17);
    incident.dump_site.draft_ready = minutes(20);
    FillSite fill_site;
    fill_site.places = 2;
    fill_site.pump = gpm(1000);
    fill_site.ready = minutes(22);
    incident.fill_sites = {fill_site};
    incident.tankers = {usual_tanker(2500, 13.5), usual_tanker(2000, 16), usual_tanker(3000, 19),
                        usual_tanker(1800, 24)};
    return incident;
}

inline constexpr Window ordinary_window{minutes(27.5), minutes(120)};

// Everything is ready at the alarm, nothing is stored but what `storage` says, one place, one slot.
inline Incident bare_case(std::optional<Volume> storage) {
    Incident incident;
    incident.dump_site.storage = storage;
    FillSite fill_site;
    fill_site.flows = 1;
    fill_site.pump = gpm(1000);
    incident.fill_sites = {fill_site};
    return incident;
}

}  // namespace farwater::supply
