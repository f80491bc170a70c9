// Offload slots that wait for their people.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "analyzer/district/assumptions.h"
#include "analyzer/supply/incident.h"
#include "analyzer/supply/places/arrivals.h"
#include "analyzer/supply/situation.h"

namespace farwater::supply {

// From `from` on there are never fewer, beside the drivers of the tankers there.
struct PeopleFrom {
    Duration from;
    int people = 0;
    friend bool operator==(const PeopleFrom&, const PeopleFrom&) = default;
};

// On these units, in order of time. A unit whose crew nobody lists counts with the fewest that it
// rolls with, so that a blank never helps. O(units x staffing rows).
std::vector<PeopleFrom> people_from(const Situation& situation, std::span<const Arrival> engines,
                                    std::span<const Arrival> tankers);

// The dump site with the district's offload slots: the first as ever, each further one from when
// there are people for it (crew_offload_slot), beside all other jobs with so many fill sites; one
// that they never are there for is not run. O(slots + people).
DumpSite with_slots_manned(DumpSite site, const Assumptions& assumptions,
                           std::span<const PeopleFrom> people, std::size_t fill_sites);

// With people for all slots from the beginning; one where tankers come in single file.
DumpSite with_all_slots(DumpSite site, const Assumptions& assumptions);

}  // namespace farwater::supply
