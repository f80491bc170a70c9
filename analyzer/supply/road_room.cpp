#include "analyzer/supply/road_room.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace farwater::supply {
namespace {

RoadRoom by_road(const Assumptions& assumptions, Length straight, Length width) {
    if (width < assumptions.portable_tank_width + assumptions.free_lane) {
        return {1, RoomBy::width};
    }
    constexpr double hair = 1e-6;
    const double behind_engine =
        (straight - assumptions.draft_engine_length) / assumptions.portable_tank_length;
    const double tanks = std::clamp(std::floor(behind_engine + hair), 1.0,
                                    static_cast<double>(assumptions.most_portable_tanks));
    return {static_cast<int>(tanks), RoomBy::length};
}

}  // namespace

RoadRoom road_room(const District& district, const DumpSiteCandidate& site) {
    const Assumptions& assumptions = district.assumptions;
    const int most = assumptions.most_portable_tanks;
    if (site.officers_place) {
        const auto& said = district.dump_site_places[*site.officers_place].portable_tanks;
        if (said) {
            return {std::min(most, *said), RoomBy::officer};
        }
    }
    const std::optional<Length> width =
        site.road.valid() ? at(district.roads, site.road).width : std::nullopt;
    if (!site.straight || !width) {
        return {std::min(most, assumptions.portable_tanks_where_unknown), RoomBy::unknown};
    }
    return by_road(assumptions, *site.straight, *width);
}

}  // namespace farwater::supply
