// How high a pump can lift water: what the air pushes, and what height and warm water take from it.
#pragma once

#include "analyzer/district/units.h"

namespace farwater::hydraulics {

// The air's pressure as a column of water: 33.96 (1 - 6.8756e-6 z)^5.2559 ft, z in ft.
// Source: US Standard Atmosphere 1976. Zero above its range, never negative.
Length atmospheric_head(Length altitude);

// Pressure at which water boils, as a column of water. Source: Magnus formula with the constants of
// Alduchov and Eskridge 1996 (from memory): 6.1094 exp(17.625 t / (t + 243.04)) hPa, t in Celsius.
Length vapour_head(double fahrenheit);

// Suction lift that pumps reach in practice: 22 ft at sea level, 17 at 5,280, 14 at 10,560,
// straight lines between. Source: "Pumps - Suction Head vs. Altitude". Beyond the table as the air
// thins.
Length practical_lift(Length altitude);

// What lift, losses and velocity head may use up together: the planning limit, or the practical
// lift at that altitude less what water warmer than 60 F takes, where that is less. Never negative.
Length suction_head_limit(Length planning_limit, Length altitude, double fahrenheit);

}  // namespace farwater::hydraulics
