#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "analyzer/supply/bounds/undisturbed.h"
#include "analyzer/supply/incident_run.h"
#include "analyzer/supply/visits.h"

namespace farwater::supply {

namespace {

constexpr double never = std::numeric_limits<double>::infinity();

// Gallons that could come, and the minutes that each of them takes of something scarce.
struct Share {
    double gallons = 0.0;
    double minutes_each = 0.0;
};

// Kept between the bounds of a thread: to get it anew takes as long as a bound. Nothing in it
// counts for the next one.
struct Memory {
    std::vector<Undisturbed> each;
    std::vector<Share> shares;
};

Memory& memory_of_thread() {
    thread_local Memory memory;
    return memory;
}

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

// What one fill site could give after the first loads by `end`: what its places can pass of its
// tankers' undisturbed loads, what its pump can pass in time, what its source holds; the last two
// at the best share of delivered to refilled gallons.
double refilled_by(const Incident& incident, Memory& memory, std::size_t index, double end) {
    const FillSite& site = incident.fill_sites[index];
    auto& [each, shares] = memory;
    shares.clear();
    double best_share = 0.0;  // of delivered to refilled gallons
    double fastest = 0.0;
    double from_line = never;   // the least time from the last gallon filled to the fire
    double from_place = never;  // the same from leaving the place
    for (std::size_t i = 0; i < each.size(); ++i) {
        const Tanker& tanker = incident.tankers[i];
        if (tanker.fill_site != index || tanker.delivered <= Volume{}) {
            continue;
        }
        shares.push_back({each[i].later_loads, each[i].in_place / in_gallons(tanker.delivered)});
        from_place = std::min(from_place, each[i].from_place);
        from_line = std::min(from_line, each[i].from_place + in_minutes(tanker.fill_after));
        fastest = std::max(fastest, in_gpm(fill_rate(site, tanker)));
        best_share =
            std::max(best_share, in_gallons(tanker.delivered) / in_gallons(tanker.refilled));
    }
    const int places = std::max(0, site.places);
    const double passed =
        most_gallons(shares, places * (end - from_place - in_minutes(site.ready)));
    if (passed <= 0.0 || std::isinf(best_share)) {
        return passed;
    }
    const double pumping = std::max(0.0, end - from_line - in_minutes(site.ready));
    const double rate = std::min(in_gpm(site.pump), fastest * site.flows.value_or(places));
    const double pumped = pumping > 0.0 ? best_share * rate * pumping : 0.0;
    const double held =
        site.usable ? best_share * (in_gallons(*site.usable) + in_gpm(site.inflow) * end) : never;
    return std::min({passed, pumped, held});
}

// What the offload slots can pass of all loads by `end`, and besides them the nursed loads, which
// take no slot. A load that is under way at the end has not held its slot for the handling after.
double offloaded_by(const Incident& incident, Memory& memory, double end) {
    const DumpSite& dump = incident.dump_site;
    auto& [each, shares] = memory;
    shares.clear();
    double after = 0.0;
    double nursed = 0.0;
    double begins = never;
    for (std::size_t i = 0; i < each.size(); ++i) {
        const Tanker& tanker = incident.tankers[i];
        if (tanker.delivered <= Volume{}) {
            continue;
        }
        const double held = in_minutes(offload_visit(tanker));
        shares.push_back(
            {each[i].first_load + each[i].later_loads, held / in_gallons(tanker.delivered)});
        after = std::max(after, in_minutes(tanker.offload_after));
        nursed = std::max(nursed, tanker.can_nurse ? in_gallons(tanker.delivered) : 0.0);
        begins = std::min(begins, in_minutes(tanker.arrives));
    }
    const double minutes = end - std::max(begins, in_minutes(dump.tanks_ready)) + after;
    return most_gallons(shares, std::max(0, dump.offload_slots) * minutes) +
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
    Memory& memory = memory_of_thread();
    memory.each.clear();
    double hauled = 0.0;
    for (const Tanker& tanker : incident.tankers) {
        memory.each.push_back(undisturbed(incident, tanker, end));
        hauled += memory.each.back().first_load;
    }
    for (std::size_t site = 0; site < incident.fill_sites.size(); ++site) {
        hauled += refilled_by(incident, memory, site, end);
    }
    hauled = std::min(hauled, offloaded_by(incident, memory, end));
    const double in_engine =
        in_minutes(dump.engine_arrives) < end
            ? in_gallons(dump.engine_tank) - attacked_by(incident, in_minutes(window.start))
            : 0.0;
    const double water = std::max(0.0, hauled + in_engine);
    const Flow bound = gallons(water) / window.duration;
    return std::min(bound, dump.flow_cap.value_or(bound));
}

}  // namespace farwater::supply
