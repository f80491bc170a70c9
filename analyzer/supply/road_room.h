// How many portable tanks stand in line at a dump site, and whether tankers have a free lane beside
// them.
#pragma once

#include <cstdint>

#include "analyzer/district/district.h"
#include "analyzer/district/round_trips.h"

namespace farwater::supply {

enum class RoomBy : std::uint8_t {
    officer,  // who named the place says how many fit
    unknown,  // neither that nor the road's width and run are known: the stated number
    width,    // tanks in line would leave tankers no lane: one, at the side or in a drive's mouth
    length,   // as many as stand behind the engine where the road is straight and level
};

struct RoadRoom {
    int tanks = 0;  // not more than most_portable_tanks
    RoomBy by = RoomBy::unknown;
    bool lane_beside = false;  // tankers drive through, where the roads let them
};

// The officer's number goes before the road. One tank always finds a place where a dump site may
// be; a line takes portable_tank_width and free_lane beside each other, draft_engine and
// portable_tank_length for each behind each other, on road that is straight and level. A blank
// width gives no more than any width does, as long as portable_tanks_where_unknown is one. O(1).
// Measures: common practice, no source.
//
// A lane is left where the road is known to be so wide, off the road, and where the officer says
// the tanks or the lane of a place; beside a tank on any other road tankers have to back.
RoadRoom road_room(const District& district, const DumpSiteCandidate& site);

// What is left of the lane class that the roads give, with the tanks in place. O(1).
LaneClass lane_beside_tanks(const District& district, const DumpSiteCandidate& site,
                            LaneClass by_roads);

}  // namespace farwater::supply
