// What a tanker gives by the terms' own formula, which knows no waiting and no limit of the source.
#pragma once

#include <array>

#include "reports/findings.h"

namespace farwater::reports {

// Road miles of the round trips for which the fleet register says it.
inline constexpr std::array<double, 4> round_trips_on_paper{2.0, 4.0, 6.0, 8.0};

bool is_on_paper(const Findings& findings, const Unit& unit);  // a tanker that counts

// Minutes of its cycle besides driving; blank rates take the planning default.
Duration handling_on_paper(const Findings& findings, const Unit& unit);
Flow flow_on_paper(const Findings& findings, const Unit& unit, Length round_trip);

}  // namespace farwater::reports
