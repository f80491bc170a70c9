// Which units make water, and so put none on the fire: nobody may claim them twice.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "reports/findings.h"

namespace farwater::reports {

// Whether the terms credit what apparatus brings to a parcel.
bool is_credited(const Findings& findings, std::size_t row);

// Per unit: the parcels that are credited with water that it makes, at the dump site, a fill site
// or in line.
std::vector<std::size_t> makes_water_for(const Findings& findings);

// Per source: the units that pump from it for credited parcels, and for how many, by unit.
struct PumpsAt {
    UnitIndex unit;
    std::size_t parcels = 0;
};
std::vector<std::vector<PumpsAt>> engines_at_sources(const Findings& findings);
// "E1 (12 parcels), E3 (1 parcel)".
std::string engines_in_words(const District& district, const std::vector<PumpsAt>& engines);

}  // namespace farwater::reports
