// What a fire pump gives against pressure and at draft.
#pragma once

#include "analyzer/district/units.h"

namespace farwater::hydraulics {

// Share of the rated flow against a net pump pressure: 100 % up to 150 psi, 70 % at 200, 50 % at
// 250, straight lines between, falling on beyond to zero. Source: "Relay Pumping Operations" (IFSTA
// outline) p. 3.
double pump_share_at_pressure(double net_psi);

// Share of the rated flow at a static lift: 100 % up to the 10 ft of the rating test, 70 % at 15,
// 60 % at 20, straight lines between, falling on beyond to zero. It stands beside what the suction
// line carries: the smaller of the two counts, never their product. Source: "Chapter 11 Static
// Water Supply Sources" (course cards). Pumps are rated for up to 2,000 ft above the sea (NFPA
// 1901, from memory): what the air pushes less than there counts as lift; that is derived here, no
// source.
double pump_share_at_lift(Length lift, Length altitude);

}  // namespace farwater::hydraulics
