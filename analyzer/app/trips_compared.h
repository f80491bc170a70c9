// Whether the supply of a parcel sees the same round trips.
#pragma once

#include <cstddef>

#include "analyzer/district/round_trips.h"

namespace farwater::app {

// Of one parcel or target: lanes, single file, ways and lists of fill sites of its hose lays, and
// its hose from sources. Approaches are numbered anew with each list of sources. Both have
// the same dump sites and lays, and fill sites of the same number are the same.
bool sees_the_same(const RoundTrips& a, const RoundTrips& b, std::size_t row);

}  // namespace farwater::app
