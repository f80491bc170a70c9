#include "analyzer/supply/tanker_choice.h"

#include <algorithm>
#include <limits>
#include <utility>
#include <vector>

#include "analyzer/supply/incident_run.h"

namespace farwater::supply {
namespace {

// Delivered gallons per minute of the slot or place that a tanker occupies: what it is worth where
// that is scarce.
double worth_at_slot(const Incident&, const Tanker& tanker) {
    const Duration held =
        tanker.offload_before + tanker.delivered / tanker.offload + tanker.offload_after;
    return in_gallons(tanker.delivered) / in_minutes(held);
}

double worth_at_place(const Incident& incident, const Tanker& tanker) {
    const Flow rate = std::min(tanker.fill_limit, incident.fill_sites[tanker.fill_site].pump);
    const Duration held = tanker.fill_before + tanker.refilled / rate + tanker.fill_after;
    return in_gallons(tanker.delivered) / in_minutes(held);
}

using Worth = double (*)(const Incident&, const Tanker&);

Incident without(Incident incident, std::size_t tanker) {
    incident.tankers.erase(incident.tankers.begin() + static_cast<std::ptrdiff_t>(tanker));
    return incident;
}

void drop(ShuttlePlan& plan, std::size_t tanker, Window window) {
    plan.slow = without(std::move(plan.slow), tanker);
    plan.incident = without(std::move(plan.incident), tanker);
    plan.cautious = sustained_flow(plan.slow, window);
}

std::size_t least_worth(const Incident& incident, Worth worth) {
    const auto& tankers = incident.tankers;
    const auto least = std::ranges::min_element(tankers, [&](const Tanker& a, const Tanker& b) {
        return worth(incident, a) < worth(incident, b);
    });
    return static_cast<std::size_t>(least - tankers.begin());
}

// Leaves out the tanker that is worth least, one after another, until `patience` in a row gained
// nothing; the best plan on the way.
ShuttlePlan best_without_least(const ShuttlePlan& all, Worth worth, Window window, int patience) {
    ShuttlePlan best = all;
    ShuttlePlan fewer = all;
    int waited = 0;
    while (fewer.incident.tankers.size() > 1 && waited < patience) {
        drop(fewer, least_worth(fewer.incident, worth), window);
        ++waited;
        if (fewer.cautious > best.cautious) {
            best = fewer;
            waited = 0;
        }
    }
    return best;
}

std::vector<HeldFlow> one_out(const Incident& slow, Window window) {
    std::vector<HeldFlow> flows;
    flows.reserve(slow.tankers.size());
    for (std::size_t i = 0; i < slow.tankers.size(); ++i) {
        flows.push_back(sustained_flow(without(slow, i), window));
    }
    return flows;
}

}  // namespace

ShuttlePlan all_tankers(const Incident& incident, Window window, double factor) {
    ShuttlePlan plan{incident, slowed(incident, factor), {}};
    plan.cautious = sustained_flow(plan.slow, window);
    return plan;
}

ShuttlePlan quick_choice(const Incident& incident, Window window, double factor) {
    constexpr int patience = 2;
    return best_without_least(all_tankers(incident, window, factor), worth_at_slot, window,
                              patience);
}

FullChoice full_choice(const Incident& incident, Window window, double factor) {
    constexpr int all_the_way = std::numeric_limits<int>::max();
    const ShuttlePlan all = all_tankers(incident, window, factor);
    ShuttlePlan best = best_without_least(all, worth_at_slot, window, all_the_way);
    ShuttlePlan by_place = best_without_least(all, worth_at_place, window, all_the_way);
    if (by_place.cautious > best.cautious) {
        best = std::move(by_place);
    }
    while (best.incident.tankers.size() > 1) {
        const std::vector<HeldFlow> flows = one_out(best.slow, window);
        const auto most = std::ranges::max_element(flows);
        if (*most <= best.cautious) {
            return {std::move(best), *std::ranges::min_element(flows)};
        }
        drop(best, static_cast<std::size_t>(most - flows.begin()), window);
    }
    return {std::move(best), HeldFlow{}};
}

}  // namespace farwater::supply
