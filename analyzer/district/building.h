// What needed flow by building asks of a building. Kept only where the district's method works on
// buildings, and small: a district may have two million.
#pragma once

#include <array>
#include <cstdint>
#include <limits>
#include <optional>

#include "analyzer/district/ids.h"
#include "analyzer/district/plane.h"
#include "analyzer/district/words.h"

namespace farwater {

// How near other buildings stand, wall to wall. Looked for within a reach only.
struct Separation {
    static constexpr float none = std::numeric_limits<float>::infinity();
    static constexpr std::uint8_t no_side = UINT8_MAX;

    float nearest_m = none;        // of any size; infinite = none within the reach
    float nearest_large_m = none;  // of those that count by their size
    // The nearest that counts by its size on each of four sides, whole feet, rounded down.
    std::array<std::uint8_t, 4> sides_ft{no_side, no_side, no_side, no_side};
    bool known = false;  // false: the building is a point, so nothing can be told
};

// What columns say of a building, or of all of a parcel's buildings; blank = not known.
struct BuildingTraits {
    float height_m = 0.0F;          // ground to the highest part of the roof; 0 = not known
    float eaves_m = 0.0F;           // ground to the eaves; 0 = not known
    float storeys = 0.0F;           // 0 = not known
    std::uint8_t hazard_class = 0;  // 3 to 7; 0 = by the use
    std::optional<BuildingUse> use;
    std::optional<Construction> construction;
    std::optional<Sprinklers> sprinklers;

    // What is not known here is taken from `whole`.
    void fill_from(const BuildingTraits& whole) {
        height_m = height_m > 0.0F ? height_m : whole.height_m;
        eaves_m = eaves_m > 0.0F ? eaves_m : whole.eaves_m;
        storeys = storeys > 0.0F ? storeys : whole.storeys;
        hazard_class = hazard_class != 0 ? hazard_class : whole.hazard_class;
        use = use ? use : whole.use;
        construction = construction ? construction : whole.construction;
        sprinklers = sprinklers ? sprinklers : whole.sprinklers;
    }
};

struct Building {
    ParcelIndex parcel;     // of those that lie on parcels, in the order of the parcels
    Point place;            // inside it
    float area_m2 = 0.0F;   // footprint; 0 = not known
    BuildingTraits traits;  // its own, then its parcel's
    Separation separation;
};

}  // namespace farwater
