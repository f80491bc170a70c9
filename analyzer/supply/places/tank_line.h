// The portable tanks of a dump site in a line: how much of them counts as storage, and what the
// draft can have from them. Settled before the incident run, which sees one pool and one cap.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "analyzer/district/units.h"
#include "analyzer/supply/incident.h"

namespace farwater::supply {

struct TankLine {
    std::vector<Volume> tanks;  // usable, the draft tank first, then in the order they are set up
    std::size_t used = 0;       // of them, from the draft tank on; not more than are in reach
    std::vector<Volume> left;   // usable, on the units that are there, for want of room
    bool full = false;          // there is no room for another tank
    int siphons = 0;            // that run at a time, each with its own drive line
    Flow siphon;                // what each moves
    Flow drive_water;           // that the draft pump gives each, and that comes back to the tank
    std::optional<Flow> draft;  // strainer and pump; none = unlimited
};

// What those in use give.
struct DrawnLine {
    Volume storage;
    std::optional<Flow> draft;     // strainer and pump, less the drive water
    std::optional<Flow> transfer;  // none: only the draft tank is used, nothing is moved
    std::optional<Flow> cap() const;
};

// As many tanks as water can be drawn from: all with a siphon, else the draft tank alone.
std::size_t tanks_in_reach(const TankLine& line);

// With more tanks in use the storage grows, and the cap never does.
DrawnLine drawn_from(const TankLine& line);

// The dump site with what the line gives; unchanged where none of its tanks is used.
DumpSite with_line(DumpSite site, const TankLine& line);

}  // namespace farwater::supply
