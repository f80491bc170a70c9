// People: needed by job against there by the start.
#pragma once

#include <cstddef>

#include "analyzer/district/assumptions.h"
#include "analyzer/supply/scene.h"
#include "analyzer/supply/situation.h"

namespace farwater::supply {

// By the assumptions of "Crew by job": attack, dump site, each offload slot after the first, each
// fill site, traffic, water supply officer and each tanker that is run.
int crew_needed(const Assumptions& assumptions, std::size_t fill_sites, std::size_t tankers,
                int offload_slots = 1);

struct CrewThere {
    int people = 0;              // on units whose crew is listed
    std::size_t not_listed = 0;  // units there whose crew nobody lists
};

// On the engines and tankers that are there by then. O(units x staffing rows).
CrewThere crew_there(const Situation& situation, const Scene& scene, Duration by);

// How many fill sites can be run beside all other jobs, one to `most`. The first fill site, dump
// site and attack are manned by whoever is there; a further one is not opened without people for it
// and for every other job. Units whose crew nobody lists count as enough.
std::size_t fill_sites_manned(const Assumptions& assumptions, const CrewThere& there,
                              std::size_t tankers, std::size_t most);

}  // namespace farwater::supply
