#include "analyzer/supply/places/crew.h"

namespace farwater::supply {

int crew_needed(const Assumptions& assumptions, std::size_t fill_sites, std::size_t tankers,
                int offload_slots) {
    return assumptions.crew_attack + assumptions.crew_dump_site +
           assumptions.crew_offload_slot * (offload_slots - 1) +
           assumptions.crew_fill_site * static_cast<int>(fill_sites) + assumptions.crew_traffic +
           assumptions.crew_water_supply + assumptions.crew_tanker * static_cast<int>(tankers);
}

CrewThere crew_there(const Situation& situation, const Scene& scene, Duration by) {
    CrewThere there;
    for (const auto* list : {&scene.engines, &scene.tankers}) {
        for (const Arrival& arrival : *list) {
            if (arrival.at_scene <= by) {
                const auto crew = crew_of(situation.district, arrival.unit, situation.period);
                there.people += crew.value_or(0);
                there.not_listed += crew ? 0U : 1U;
            }
        }
    }
    return there;
}

std::size_t fill_sites_manned(const Assumptions& assumptions, const CrewThere& there,
                              std::size_t tankers, std::size_t most) {
    std::size_t sites = most;
    while (sites > 1 && there.not_listed == 0 &&
           there.people < crew_needed(assumptions, sites, tankers)) {
        --sites;
    }
    return sites;
}

}  // namespace farwater::supply
