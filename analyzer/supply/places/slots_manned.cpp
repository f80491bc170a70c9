#include "analyzer/supply/places/slots_manned.h"

#include <algorithm>
#include <utility>

#include "analyzer/supply/places/crew.h"

namespace farwater::supply {
namespace {

int least_crew(const Situation& situation, UnitIndex unit) {
    return crew_of(situation.district, unit, situation.period)
        .value_or(at(situation.district.units, unit).min_crew.value_or(1));
}

// What is not there for good is not counted: a tanker may take more people than it brings.
void keep_what_stays(std::vector<PeopleFrom>& people) {
    for (std::size_t i = people.size(); i-- > 1;) {
        people[i - 1].people = std::min(people[i - 1].people, people[i].people);
    }
}

}  // namespace

std::vector<PeopleFrom> people_from(const Situation& situation, std::span<const Arrival> engines,
                                    std::span<const Arrival> tankers) {
    std::vector<PeopleFrom> people;
    for (const Arrival& engine : engines) {
        people.push_back({engine.at_scene, least_crew(situation, engine.unit)});
    }
    for (const Arrival& tanker : tankers) {
        const int driving = situation.district.assumptions.crew_tanker;
        people.push_back({tanker.at_scene, least_crew(situation, tanker.unit) - driving});
    }
    std::ranges::sort(people, {}, [](const PeopleFrom& one) {
        return std::pair(one.from, one.people);  // of those of one moment the fewest first
    });
    for (std::size_t i = 1; i < people.size(); ++i) {
        people[i].people += people[i - 1].people;
    }
    keep_what_stays(people);
    return people;
}

DumpSite with_slots_manned(DumpSite site, const Assumptions& assumptions,
                           std::span<const PeopleFrom> people, std::size_t fill_sites) {
    site.offload_slots = 1;
    site.further_slots_from = {};
    for (int slots = 2; slots <= std::min(assumptions.offload_slots, most_offload_slots); ++slots) {
        const int needed = crew_needed(assumptions, fill_sites, 0, slots);
        const auto there = std::ranges::lower_bound(people, needed, {}, &PeopleFrom::people);
        if (there == people.end()) {
            break;
        }
        site.further_slots_from[static_cast<std::size_t>(slots) - 2] = there->from;
        site.offload_slots = slots;
    }
    return site;
}

DumpSite with_all_slots(DumpSite site, const Assumptions& assumptions) {
    const bool one_at_a_time = site.single_file > minutes(0);
    site.offload_slots =
        one_at_a_time ? 1 : std::min(assumptions.offload_slots, most_offload_slots);
    site.further_slots_from = {};
    return site;
}

}  // namespace farwater::supply
