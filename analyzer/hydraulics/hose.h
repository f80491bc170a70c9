// Friction in fire hose, and what a supply line of given length carries.
#pragma once

#include "analyzer/district/units.h"

namespace farwater::hydraulics {

// Supply hose sizes that apparatus lists distinguish.
enum class HoseSize : std::uint8_t { in_2_5, in_3, in_4, in_5 };

// The C of FL = C (Q/100)^2 (L/100), psi, Q in gpm, L in ft: 2 / 0.8 / 0.2 / 0.08.
// Source: "3-8 Calculating Friction Loss In Hose Lays" (Rohnert Park training record).
double friction_coefficient(HoseSize size);

// The flow at which `discharge` is used up by `residual`, friction and `rise` (0.4335 psi per ft of
// water column): Q = 100 sqrt((discharge - residual - rise) / (C L / 100)). Zero when the rise
// alone uses it up; a line of no length carries any flow, capped at 10,000 gpm. A fall counts as
// level.
Flow supply_line_flow(HoseSize size, Length length, Length rise, double discharge_psi,
                      double residual_psi);

}  // namespace farwater::hydraulics
