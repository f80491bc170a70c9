#include "analyzer/supply/handbook.h"

#include <algorithm>
#include <limits>
#include <vector>

#include "analyzer/supply/visits.h"

namespace farwater::supply {

namespace {

constexpr double boundless = std::numeric_limits<double>::infinity();

// A tanker's use of one resource: at most `loads` per minute, each worth `delivered` gallons and
// taking `taken` of what the resource has per minute.
struct SiteUse {
    double loads = 0.0;
    double delivered = 0.0;
    double taken = 0.0;
};

// The most gallons per minute out of `capacity`: the best value first, the last one in part.
double most_delivered(std::vector<SiteUse> uses, double capacity) {
    std::ranges::sort(uses, std::ranges::greater{}, [](const SiteUse& use) {
        return use.taken > 0.0 ? use.delivered / use.taken : boundless;
    });
    double sum = 0.0;
    for (const SiteUse& use : uses) {
        const double wanted = use.loads * use.taken;
        const double share = wanted <= capacity ? 1.0 : capacity / wanted;
        sum += share * use.loads * use.delivered;
        capacity -= share * wanted;
    }
    return sum;
}

// Uses of one resource by the tankers for which `taken` gives a value.
template <class Taken>
std::vector<SiteUse> uses_of(const Incident& incident, std::size_t site, Taken taken) {
    std::vector<SiteUse> uses;
    for (const Tanker& tanker : incident.tankers) {
        if (tanker.fill_site == site) {
            uses.push_back({1.0 / in_minutes(undisturbed_cycle(incident, tanker)),
                            in_gallons(tanker.delivered), taken(tanker)});
        }
    }
    return uses;
}

double site_bound(const Incident& incident, std::size_t index, Window window) {
    const FillSite& site = incident.fill_sites[index];
    const auto gallons_taken = [](const Tanker& tanker) { return in_gallons(tanker.refilled); };
    const double places = most_delivered(
        uses_of(incident, index,
                [&](const Tanker& t) { return in_minutes(fill_visit(site, t).in_place()); }),
        site.places);
    const double flows = most_delivered(
        uses_of(incident, index,
                [&](const Tanker& t) { return in_minutes(fill_visit(site, t).flowing); }),
        site.flows.value_or(site.places));
    const double pump = most_delivered(uses_of(incident, index, gallons_taken), in_gpm(site.pump));
    const double volume =
        site.usable ? in_gpm(*site.usable / window.duration + site.inflow) : boundless;
    const double source = most_delivered(uses_of(incident, index, gallons_taken), volume);
    return std::min({places, flows, pump, source});
}

double offload_bound(const Incident& incident) {
    std::vector<SiteUse> uses;
    for (std::size_t site = 0; site < incident.fill_sites.size(); ++site) {
        std::ranges::copy(
            uses_of(incident, site, [](const Tanker& t) { return in_minutes(offload_visit(t)); }),
            std::back_inserter(uses));
    }
    return most_delivered(uses, incident.dump_site.offload_slots);
}

}  // namespace

Duration undisturbed_cycle(const Incident& incident, const Tanker& tanker) {
    const FillSite& site = incident.fill_sites[tanker.fill_site];
    return fill_visit(site, tanker).in_place() + tanker.leg.loaded + offload_visit(tanker) +
           tanker.leg.empty;
}

Flow handbook_flow(const Incident& incident) {
    Flow sum;
    for (const Tanker& tanker : incident.tankers) {
        sum += tanker.delivered / undisturbed_cycle(incident, tanker);
    }
    return sum;
}

Flow resource_bound(const Incident& incident, Window window) {
    double sum = 0.0;
    for (std::size_t site = 0; site < incident.fill_sites.size(); ++site) {
        sum += site_bound(incident, site, window);
    }
    const Flow bound = gpm(std::min(sum, offload_bound(incident)));
    return std::min(bound, incident.dump_site.flow_cap.value_or(bound));
}

}  // namespace farwater::supply
