#include "analyzer/supply/bounds/undisturbed.h"

#include <algorithm>
#include <cmath>

#include "analyzer/supply/visits.h"

namespace farwater::supply {

Undisturbed undisturbed(const Incident& incident, const Tanker& tanker, double end) {
    const DumpSite& dump = incident.dump_site;
    const FillSite& site = incident.fill_sites[tanker.fill_site];
    const bool may_nurse = tanker.can_nurse && dump.nursing_tankers > 0;
    const Duration before =
        may_nurse ? std::min(tanker.offload_before, dump.nurse_hookup) : tanker.offload_before;
    const Flow rate = may_nurse ? std::max(tanker.offload, tanker.nurse_rate) : tanker.offload;
    const double load = in_gallons(tanker.delivered);
    const auto in_by_end = [&](double opened) {
        return opened >= end ? 0.0 : std::min(load, (end - opened) * in_gpm(rate));
    };
    const Duration met = may_nurse ? tanker.arrives : std::max(tanker.arrives, dump.tanks_ready);
    const double first = in_minutes(met + before);
    Undisturbed result{.first_load = in_by_end(first),
                       .from_place = in_minutes(tanker.leg.loaded + before),
                       .in_place = in_minutes(fill_visit(site, tanker).in_place())};
    const double away = first + in_minutes(flowing_for(tanker.delivered, rate)) +
                        in_minutes(tanker.offload_after + tanker.leg.empty);
    const double second =
        std::max(away, in_minutes(site.ready)) + result.in_place + result.from_place;
    const double cycle = (away - first) + result.in_place + result.from_place;
    if (second < end && cycle > 0.0) {
        const double whole = std::floor((end - second) / cycle);
        result.later_loads = whole * load + in_by_end(second + whole * cycle);
    }
    return result;
}

}  // namespace farwater::supply
