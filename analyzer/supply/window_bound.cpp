#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

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

// Gallons that could come, and the minutes that each of them takes of something scarce.
struct Share {
    double gallons = 0.0;
    double minutes_each = 0.0;
};

// The most of them that `minutes` suffice for.
double most_gallons(std::vector<Share>& shares, double minutes) {
    std::ranges::sort(shares, {}, &Share::minutes_each);
    double sum = 0.0;
    for (const Share& share : shares) {
        const double taken = share.gallons * share.minutes_each;
        if (taken >= minutes) {
            return minutes > 0.0 ? sum + share.gallons * (minutes / taken) : sum;
        }
        sum += share.gallons;
        minutes -= taken;
    }
    return sum;
}

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

// What one fill site could give after the first loads by `end`: what its places can pass of its
// tankers' undisturbed loads, what its pump can pass in time, what its source holds; the last two
// at the best share of delivered to refilled gallons.
double refilled_by(const Incident& incident, const std::vector<Alone>& alone, std::size_t index,
                   double end) {
    const FillSite& site = incident.fill_sites[index];
    std::vector<Share> undisturbed;
    double best_share = 0.0;  // of delivered to refilled gallons
    double fastest = 0.0;
    double to_the_fire = no_limit;  // from the last gallon filled
    double from_place = no_limit;   // from leaving the place
    for (std::size_t i = 0; i < alone.size(); ++i) {
        const Tanker& tanker = incident.tankers[i];
        if (tanker.fill_site != index || tanker.delivered <= Volume{}) {
            continue;
        }
        const Flow rate = best_fill_rate(site, tanker);
        const double held =
            in_minutes(tanker.fill_before + tanker.fill_after) + minutes_for(tanker.refilled, rate);
        undisturbed.push_back({alone[i].later_loads, held / in_gallons(tanker.delivered)});
        to_the_fire = std::min(to_the_fire, alone[i].to_the_fire);
        from_place = std::min(from_place, alone[i].to_the_fire - in_minutes(tanker.fill_after));
        fastest = std::max(fastest, in_gpm(rate));
        best_share =
            std::max(best_share, in_gallons(tanker.delivered) / in_gallons(tanker.refilled));
    }
    const int places = std::max(0, site.places);
    const double passed =
        most_gallons(undisturbed, places * (end - from_place - in_minutes(site.ready)));
    if (passed <= 0.0 || std::isinf(best_share)) {
        return passed;
    }
    const double pumping = std::max(0.0, end - to_the_fire - in_minutes(site.ready));
    const double rate = std::min(in_gpm(site.pump), fastest * site.flows.value_or(places));
    const double pumped = pumping > 0.0 ? best_share * rate * pumping : 0.0;
    const double held = site.usable
                            ? best_share * (in_gallons(*site.usable) + in_gpm(site.inflow) * end)
                            : no_limit;
    return std::min({passed, pumped, held});
}

// What the offload slots can pass of all loads by `end`, and besides them the nursed loads, which
// take no slot. A load that is under way at the end has not held its slot for the handling after.
double offloaded_by(const Incident& incident, const std::vector<Alone>& alone, double end) {
    const DumpSite& dump = incident.dump_site;
    std::vector<Share> undisturbed;
    double after = 0.0;
    double nursed = 0.0;
    double begins = no_limit;
    for (std::size_t i = 0; i < alone.size(); ++i) {
        const Tanker& tanker = incident.tankers[i];
        if (tanker.delivered <= Volume{}) {
            continue;
        }
        const double held = in_minutes(tanker.offload_before + tanker.offload_after) +
                            minutes_for(tanker.delivered, tanker.offload);
        undisturbed.push_back(
            {alone[i].first_load + alone[i].later_loads, held / in_gallons(tanker.delivered)});
        after = std::max(after, in_minutes(tanker.offload_after));
        nursed = std::max(nursed, tanker.can_nurse ? in_gallons(tanker.delivered) : 0.0);
        begins = std::min(begins, in_minutes(tanker.arrives));
    }
    const double minutes = end - std::max(begins, in_minutes(dump.tanks_ready)) + after;
    return most_gallons(undisturbed, std::max(0, dump.offload_slots) * minutes) +
           nursed * std::max(0, dump.nursing_tankers);
}

// What the initial attack has taken of the engine's own tank by the start, at least.
double attacked_by(const Incident& incident, double start) {
    const double from = std::max(in_minutes(incident.initial_attack.from),
                                 in_minutes(incident.dump_site.engine_arrives));
    return std::clamp(in_gpm(incident.initial_attack.flow) * (start - from), 0.0,
                      in_gallons(incident.dump_site.engine_tank));
}

}  // namespace

Flow window_bound(const Incident& incident, Window window) {
    const DumpSite& dump = incident.dump_site;
    const double end = in_minutes(window.start + window.duration);
    std::vector<Alone> each;
    each.reserve(incident.tankers.size());
    double hauled = 0.0;
    for (const Tanker& tanker : incident.tankers) {
        each.push_back(alone(dump, incident.fill_sites[tanker.fill_site], tanker, end));
        hauled += each.back().first_load;
    }
    for (std::size_t site = 0; site < incident.fill_sites.size(); ++site) {
        hauled += refilled_by(incident, each, site, end);
    }
    hauled = std::min(hauled, offloaded_by(incident, each, end));
    const double in_engine =
        in_minutes(dump.engine_arrives) < end
            ? in_gallons(dump.engine_tank) - attacked_by(incident, in_minutes(window.start))
            : 0.0;
    const double water = std::max(0.0, hauled + in_engine);
    const Flow bound = gallons(water) / window.duration;
    return std::min(bound, dump.flow_cap.value_or(bound));
}

}  // namespace farwater::supply
