// What the first engine brings by itself.
#pragma once

#include "analyzer/district/district.h"

namespace farwater::supply {

// When its tank is on the fire; `first_arrival` of the engine at the house, both since the alarm.
Duration attack_begins(const Assumptions& assumptions, Duration first_arrival);

// Of the district's engines the smallest tank, for where it is not known which one comes; 0 without
// engines. O(units).
Volume least_engine_tank(const District& district);

}  // namespace farwater::supply
