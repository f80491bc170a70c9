// The ways that vehicles take: asked of routing when it is known which trips are driven, since
// there are far too many that could be.
#pragma once

#include <cstdint>
#include <vector>

#include "analyzer/district/ids.h"
#include "analyzer/district/plane.h"
#include "analyzer/district/rare_list.h"
#include "analyzer/district/units.h"

namespace farwater {

// The way of one drive, from the spot on the road where it begins to the spot where it ends.
struct RouteLine {
    DriveTime time = no_time;  // no_time: no way
    // Of `time`, on roads at a class's default speed; all of it under a linear travel-time rule.
    DriveTime on_defaults{};
    Length length;                         // of the roads driven
    RareList<RoadIndex> unposted_bridges;  // without a weight limit; each once, ascending
    // Where they were asked for:
    RareList<Point> line;       // along the roads, to the millimetre; empty where nothing is driven
    RareList<RoadIndex> roads;  // as they follow each other
};

enum class RouteKind : std::uint8_t {
    loaded,    // fill site to dump site
    empty,     // dump site to fill site
    response,  // station to dump site, loaded
};

// A drive whose way is wanted: to or from the dump site, the other end by kind.
struct WantedRoute {
    static constexpr std::uint32_t nothing_closed = UINT32_MAX;

    RouteKind kind = RouteKind::loaded;
    SeasonIndex season;
    ProfileIndex profile;
    DumpSiteIndex dump_site;
    SourceIndex source;           // of loaded and empty
    StationIndex station;         // of response; the way begins at its point in the data
    DriveTime at_most = no_time;  // longer ways are none; no_time: within the trip limit
    bool with_line = true;        // line and roads too
    // Of routing's hose lays: the way keeps off the hose and does not pass the house.
    std::uint32_t lane_case = nothing_closed;
};

// A shuttle that some place gets in its worst season and period, or the first engine's way to the
// same dump site: one drive, and for how many parcels and targets it is driven.
struct RouteInUse {
    WantedRoute wanted;  // with_line on the shuttles that most places depend on
    RouteLine way;
    std::uint32_t served = 0;
};

// What a round trip takes more than the fastest way out and back when no stretch of road is driven
// both ways, so that tankers never meet.
struct LoopDetour {
    bool found = false;  // false: there is none worth driving, the rest is 0
    DriveTime longer{};
    Length farther;  // both 0 where it is less: the fastest way need not be the shortest
};

struct RoutesInUse {
    static constexpr std::uint32_t none = UINT32_MAX;

    // Into `routes`, `none` where the place has no shuttle.
    struct OfPlace {
        std::uint32_t loaded = none;
        std::uint32_t empty = none;
        std::uint32_t response = none;
        // With the road under the hose and in front of the house closed; into `loops`.
        std::uint32_t loop = none;
        // The fastest way to or from the dump site runs over the hose or past the house: its
        // tankers go round.
        bool goes_round = false;
    };

    std::vector<RouteInUse> routes;  // by season, dump site, kind, source or station, profile, hose
    std::vector<OfPlace> of;         // per parcel, then per target

    std::vector<LoopDetour> loops;
    // Per dump site, to the fill site with the shortest round trip in the first season, with no
    // road closed; into `loops`, `none` where there is no such trip.
    std::vector<std::uint32_t> loop_of_dump_site;

    const RouteLine* way(std::uint32_t route) const {
        return route == none ? nullptr : &routes[route].way;
    }
    const LoopDetour* loop(std::uint32_t index) const {
        return index == none ? nullptr : &loops[index];
    }
};

// A drive of a table of drives.
struct OneWayDrive {
    DriveTime time = no_time;
    Length length;  // of the fastest way, the shortest of equals
};

// Between two of the places that were asked about.
struct DrivePair {
    std::uint32_t from = 0;
    std::uint32_t to = 0;
    OneWayDrive loaded;  // from -> to
    OneWayDrive empty;   // to -> from
};

}  // namespace farwater
