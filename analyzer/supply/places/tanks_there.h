// The portable tanks that are set up at a dump site, and the siphons between them.
#pragma once

#include <span>
#include <vector>

#include "analyzer/district/round_trips.h"
#include "analyzer/supply/places/arrivals.h"
#include "analyzer/supply/places/tank_line.h"
#include "analyzer/supply/road_room.h"
#include "analyzer/supply/situation.h"

namespace farwater::supply {

// Portable tanks that one unit brings, as far as they are set up.
struct TanksSetUp {
    UnitIndex unit;
    int tanks = 0;
    Volume usable;
    Duration up;
};

struct TanksThere {
    std::vector<TanksSetUp> tanks;  // by arrival
    TankLine line;                  // of the same tanks, all in reach in use; its draft is none
    RoadRoom room;                  // for tanks in line
    UnitIndex siphon_of;            // the unit whose siphon runs; not valid: none is there
};

// Those of the carriers, by arrival, as many as find room in line. What is up when the flow has to
// hold (`start`) counts, and the first tank of all whenever it is up. A siphon counts like a tank
// that its carrier brings, without set-up of its own: it is laid while the draft is set up. One
// runs at a time, the one that moves most.
TanksThere tanks_there(const Situation& situation, std::span<const Arrival> carriers,
                       const DumpSiteCandidate& site, Duration start);

// When the first of them is up. Precondition: there is one.
Duration first_up(std::span<const TanksSetUp> tanks);

}  // namespace farwater::supply
