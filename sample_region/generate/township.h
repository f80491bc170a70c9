// One township with everything in it, as plain values. See region.h for what becomes of it.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "sample_region/generate/lots.h"
#include "sample_region/generate/road_lines.h"
#include "sample_region/generate/shapes.h"
#include "sample_region/generate/terrain.h"

namespace farwater::sample {

enum class Use { vacant, forest, dwelling, camp, farm, store, public_building, mill };

// A driveway long enough to be drawn as a road.
struct Drive {
    std::int32_t road = 0;  // the road line where it begins ...
    double station = 0;     // ... and how far along
    Polyline line;          // from there to the house
};

// A parcel and what stands on it.
struct Holding {
    Lot lot;
    Polygons shape;
    Point inside;  // well inside
    Use use = Use::vacant;
    int needed_gpm = 0;               // 0 = no need of its own
    std::vector<Polyline> buildings;  // the house first; empty without one
    Point house;                      // middle of the first building
    double setback = 0;               // metres from the road to it
    std::optional<Drive> drive;
    std::int32_t route = -1;  // of the address; -1 without one
    int house_number = 0;
};

struct Pond {
    Polyline shore;  // anticlockwise
    Point middle;
    double area = 0;            // square metres
    Point landing;              // the shore's point nearest a road
    double metres_to_road = 0;  // from there; large when no road is near
    std::string name;           // may be empty
};

struct Place {
    std::string name;
    Point place;
};

struct Township {
    Outline outline;
    Ground ground;
    std::vector<Route> routes;
    std::vector<RoadLine> roads;
    std::vector<Place> hamlets;
    int lake_route = -1;
    std::string lake_name;
    std::vector<Holding> holdings;  // in spatial order
    Polygons lakes;                 // exactly the land that no holding covers
    Polygons town;                  // everything
    std::vector<Pond> ponds;        // on top of holdings
};

struct TownshipOrder {
    Outline outline;
    Gates gates;
    std::uint64_t region_seed = 0;
    std::uint64_t tile_seed = 0;
    int holdings = 0;        // wanted; reached but for very small or very dense outlines
    double tolerance = 0.6;  // metres that a boundary may be straightened by
};

Township build_township(const TownshipOrder& order);

}  // namespace farwater::sample
