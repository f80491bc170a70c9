// How near other buildings stand, wall to wall, found with GEOS's packed tree of boxes.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <vector>

#include "analyzer/district/building.h"
#include "analyzer/district/plane.h"
#include "analyzer/district/units.h"
#include "analyzer/geometry/footprints.h"

namespace farwater {

struct SeparationRules {
    Length reach;           // nothing farther off is looked for
    double large_m2 = 0.0;  // a neighbour counts by its size from here on
};

// What stands around one building.
struct Surroundings {
    Separation separation;
    // An earlier building of which it covers half or more, or the other way round.
    std::optional<std::uint32_t> covers;
};

class SeparationIndex {
public:
    // O(n log n). The footprints must outlive it.
    SeparationIndex(const Footprints& footprints, SeparationRules rules);
    ~SeparationIndex();
    SeparationIndex(const SeparationIndex&) = delete;
    SeparationIndex& operator=(const SeparationIndex&) = delete;

    // Exact distances to the nearest other building within the reach; buildings that touch or
    // overlap are 0 apart. A point has no known walls, so of itself nothing is told; as a neighbour
    // it counts with any size, as near as its place. Sides lie along the building's longest wall; a
    // neighbour is on the side on which the middle of its box lies, the nearest of each side
    // counts. May be called from several threads. O(log n + neighbours).
    Surroundings around(std::size_t building) const;

    // Buildings whose boxes touch the box, ascending.
    std::vector<std::uint32_t> touching(const Box& box) const;

private:
    struct Tree;
    const Footprints* footprints_;
    SeparationRules rules_;
    std::unique_ptr<Tree> tree_;
};

}  // namespace farwater
