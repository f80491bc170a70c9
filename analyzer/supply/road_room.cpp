#include "analyzer/supply/road_room.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace farwater::supply {
namespace {

RoadRoom by_road(const Assumptions& assumptions, Length straight, Length width) {
    if (width < assumptions.portable_tank_width + assumptions.free_lane) {
        return {1, RoomBy::width, false};
    }
    constexpr double hair = 1e-6;
    const double behind_engine =
        (straight - assumptions.draft_engine_length) / assumptions.portable_tank_length;
    const double tanks = std::clamp(std::floor(behind_engine + hair), 1.0,
                                    static_cast<double>(assumptions.most_portable_tanks));
    return {static_cast<int>(tanks), RoomBy::length, true};
}

RoadRoom by_road_if_known(const District& district, const DumpSiteCandidate& site) {
    const Assumptions& assumptions = district.assumptions;
    const std::optional<Length> width =
        site.road.valid() ? at(district.roads, site.road).width : std::nullopt;
    if (!site.straight || !width) {
        const int tanks =
            std::min(assumptions.most_portable_tanks, assumptions.portable_tanks_where_unknown);
        return {tanks, RoomBy::unknown, !site.straight};
    }
    return by_road(assumptions, *site.straight, *width);
}

}  // namespace

RoadRoom road_room(const District& district, const DumpSiteCandidate& site) {
    if (!site.officers_place) {
        return by_road_if_known(district, site);
    }
    const DumpSitePlace& place = district.dump_site_places[*site.officers_place];
    if (place.portable_tanks) {
        return {std::min(district.assumptions.most_portable_tanks, *place.portable_tanks),
                RoomBy::officer, true};
    }
    RoadRoom room = by_road_if_known(district, site);
    room.lane_beside = room.lane_beside || place.lane.has_value();
    return room;
}

LaneClass lane_beside_tanks(const District& district, const DumpSiteCandidate& site,
                            LaneClass by_roads) {
    return road_room(district, site).lane_beside ? by_roads : LaneClass::dead_end;
}

}  // namespace farwater::supply
