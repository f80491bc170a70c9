// What the properties of a district lack before anything is added to it.
#pragma once

#include <cstddef>
#include <span>

#include "analyzer/supply/assessment.h"

namespace farwater::reports {

struct AsItIs {
    std::size_t improved = 0, held = 0;  // parcels
    double short_of_gpm = 0.0;           // all parcels together, each by itself
};

// From the answers of the parcels in their worst season and period; those without a building are
// left out, and of what is missing those that are not known.
AsItIs as_it_is(std::span<const supply::ParcelSupply> of_parcels);

}  // namespace farwater::reports
