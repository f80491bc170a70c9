// The ground of one township: hills, the river with its valley, the railway beside it, and a lake.
#pragma once

#include <cstdint>
#include <vector>

#include "sample_region/generate/shapes.h"

namespace farwater::sample {

// Where lines enter and leave a township; the neighbour township uses the same points.
struct Gates {
    Point state_west, state_east, state_south, state_north;
    Point town_west, town_east, town_south, town_north;
    Point river_west, river_east;
    Point rail_west, rail_east;
};

struct Terrain {
    std::uint64_t seed = 0;       // of the whole region: the hills do not stop at a tile's edge
    Polyline river;               // from west to east
    Polyline rail;                // from west to east, north of the river
    std::vector<Polyline> lakes;  // anticlockwise rings
    std::vector<double> lake_levels;
    std::vector<Box> lake_boxes;

    // Metres above the sea. O(corners of river and lakes).
    double elevation(Point p) const;
    bool in_lake(Point p) const;
    // In a lake or nearer to its shore than `reach`. O(1) far from lakes.
    bool near_lake(Point p, double reach) const;
    double metres_to_lake(
        Point p) const;  // from the shore, inside or outside; infinite without a lake
};

// Where the village stands and how it is turned: x along the river, y away from it to the north.
struct VillageFrame {
    Point centre;
    Point along;  // length 1
    Point at(Point local) const { return centre + along * local.x + left_of(along) * local.y; }
    Point local(Point p) const { return {dot(p - centre, along), dot(p - centre, left_of(along))}; }
};

struct Ground {
    Terrain terrain;
    VillageFrame village;
};

// `region_seed` shapes the hills, `tile_seed` the rest. Distances from river to village are metres.
Ground lay_ground(const Outline& outline, const Gates& gates, std::uint64_t region_seed,
                  std::uint64_t tile_seed);

}  // namespace farwater::sample
