#include "analyzer/supply/places/one_tanker_out.h"

#include <algorithm>
#include <optional>
#include <utility>

#include "analyzer/supply/filling/tanker_choice.h"

namespace farwater::supply {
namespace {

bool brings_to_the_site(const Scene& scene, UnitIndex tanker) {
    return tanker == scene.siphon_of ||
           std::ranges::find(scene.tanks, tanker, &TanksSetUp::unit) != scene.tanks.end();
}

// The ways in which the others can go on: as they are run, and where tanks stand later than before,
// with one of them feeding the engine meanwhile. None: there is nothing left to draw from, or
// nobody who brings it.
std::vector<Incident> without(const Situation& situation, const Scene& scene, Incident incident,
                              UnitIndex tanker) {
    std::erase_if(incident.tankers, [&](const Tanker& each) { return each.unit == tanker; });
    if (incident.tankers.empty()) {
        return {};
    }
    if (!brings_to_the_site(scene, tanker)) {
        return {std::move(incident)};
    }
    const auto site = set_up_without(situation, scene, incident.dump_site, tanker);
    if (!site) {
        return {};
    }
    incident.dump_site = *site;
    std::vector<Incident> ways{incident};
    if (incident.dump_site.nursing_tankers == 0 && one_can_nurse(incident)) {
        ways.push_back(std::move(incident));
        ways.back().dump_site.nursing_tankers = 1;
    }
    return ways;
}

bool is_run(const Incident& incident, UnitIndex tanker) {
    return std::ranges::find(incident.tankers, tanker, &Tanker::unit) != incident.tankers.end();
}

}  // namespace

HeldFlow flow_without(const Situation& situation, const Scene& scene, const Incident& incident,
                      Window window, UnitIndex tanker) {
    HeldFlow most{};
    for (const Incident& way : without(situation, scene, incident, tanker)) {
        most = std::max(most, sustained_flow(way, window));
    }
    return most;
}

std::vector<UnitIndex> missed_tankers(const Scene& scene, const Incident& incident) {
    std::vector<UnitIndex> missed;
    for (const Arrival& arrival : scene.tankers) {
        if (is_run(incident, arrival.unit) || brings_to_the_site(scene, arrival.unit)) {
            missed.push_back(arrival.unit);
        }
    }
    return missed;
}

HeldFlow one_tanker_out(const Situation& situation, const Scene& scene, const Incident& slow,
                        Window window, HeldFlow cautious) {
    HeldFlow least = cautious;
    for (const UnitIndex tanker : missed_tankers(scene, slow)) {
        const std::vector<Incident> ways = without(situation, scene, slow, tanker);
        const auto holds_it = [&](const Incident& way) { return holds(way, window, least); };
        if (std::ranges::any_of(ways, holds_it)) {
            continue;
        }
        HeldFlow most{};
        for (const Incident& way : ways) {
            most = std::max(most, sustained_flow(way, window));
        }
        least = std::min(least, most);
    }
    return least;
}

}  // namespace farwater::supply
