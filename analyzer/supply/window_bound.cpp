#include <algorithm>
#include <cmath>
#include <limits>

#include "analyzer/supply/incident_run.h"

namespace farwater::supply {

namespace {

constexpr double no_limit = std::numeric_limits<double>::infinity();

// What one tanker could deliver if nobody ever stood in its way. Minutes and gallons.
struct Alone {
    double first_load = 0.0;   // gallons in by the end
    double later_loads = 0.0;  // the same
    double to_the_fire = 0.0;  // the least time from the last gallon filled to the first gallon in
};

double minutes_for(Volume gallons, Flow rate) {
    return gallons > Volume{} ? in_minutes(gallons / rate) : 0.0;
}

// The best fill rate that any way of sharing the pump gives.
Flow best_fill_rate(const FillSite& site, const Tanker& tanker) {
    return std::min(tanker.fill_limit,
                    site.pump / static_cast<double>(std::max(1, site.flows.value_or(1))));
}

// A nursing tanker may be quicker than one that offloads, so either is taken at its best.
Alone alone(const DumpSite& dump, const FillSite& site, const Tanker& tanker, double end) {
    const bool may_nurse = tanker.can_nurse && dump.nursing_tankers > 0;
    const Duration before =
        may_nurse ? std::min(tanker.offload_before, dump.nurse_hookup) : tanker.offload_before;
    const Flow rate = may_nurse ? std::max(tanker.offload, dump.nurse_rate) : tanker.offload;
    const double load = in_gallons(tanker.delivered);
    const double flowing = minutes_for(tanker.delivered, rate);
    const auto in_by_end = [&](double opened) {
        return opened >= end ? 0.0 : std::min(load, (end - opened) * in_gpm(rate));
    };

    Alone result{.to_the_fire = in_minutes(tanker.fill_after + tanker.leg.loaded + before)};
    const Duration met = may_nurse ? tanker.arrives : std::max(tanker.arrives, dump.tanks_ready);
    const double first = in_minutes(met + before);
    result.first_load = in_by_end(first);
    const double leaves = first + flowing + in_minutes(tanker.offload_after);
    const double at_site = std::max(leaves + in_minutes(tanker.leg.empty), in_minutes(site.ready));
    const double fill =
        in_minutes(tanker.fill_before) + minutes_for(tanker.refilled, best_fill_rate(site, tanker));
    const double second = at_site + fill + result.to_the_fire;
    const double cycle = second - at_site + (leaves - first) + in_minutes(tanker.leg.empty);
    if (second < end && cycle > 0.0) {
        const double whole = std::floor((end - second) / cycle);
        result.later_loads = whole * load + in_by_end(second + whole * cycle);
    }
    return result;
}

// What one fill site could give after the first loads by `end`: its tankers undisturbed, what its
// pump can pass in time, what its source holds; the last two at the best share of delivered to
// refilled gallons.
double refilled_by(const Incident& incident, std::size_t index, double end) {
    const FillSite& site = incident.fill_sites[index];
    double undisturbed = 0.0;
    double best_share = 0.0;  // of delivered to refilled gallons
    double fastest = 0.0;
    double to_the_fire = no_limit;
    for (const Tanker& tanker : incident.tankers) {
        if (tanker.fill_site == index && tanker.delivered > Volume{}) {
            const Alone result = alone(incident.dump_site, site, tanker, end);
            undisturbed += result.later_loads;
            to_the_fire = std::min(to_the_fire, result.to_the_fire);
            fastest = std::max(fastest, in_gpm(best_fill_rate(site, tanker)));
            best_share =
                std::max(best_share, in_gallons(tanker.delivered) / in_gallons(tanker.refilled));
        }
    }
    if (undisturbed <= 0.0 || std::isinf(best_share)) {
        return undisturbed;
    }
    const double pumping = std::max(0.0, end - to_the_fire - in_minutes(site.ready));
    const double rate = std::min(in_gpm(site.pump), fastest * site.flows.value_or(site.places));
    const double pumped = pumping > 0.0 ? best_share * rate * pumping : 0.0;
    const double held = site.usable
                            ? best_share * (in_gallons(*site.usable) + in_gpm(site.inflow) * end)
                            : no_limit;
    return std::min({undisturbed, pumped, held});
}

}  // namespace

Flow window_bound(const Incident& incident, Window window) {
    const DumpSite& dump = incident.dump_site;
    const double end = in_minutes(window.start + window.duration);
    double water = in_minutes(dump.engine_arrives) < end ? in_gallons(dump.engine_tank) : 0.0;
    for (const Tanker& tanker : incident.tankers) {
        water += alone(dump, incident.fill_sites[tanker.fill_site], tanker, end).first_load;
    }
    for (std::size_t site = 0; site < incident.fill_sites.size(); ++site) {
        water += refilled_by(incident, site, end);
    }
    const Flow bound = gallons(water) / window.duration;
    return std::min(bound, dump.flow_cap.value_or(bound));
}

}  // namespace farwater::supply
