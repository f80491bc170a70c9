#include "routing/sites/single_file.h"

#include <algorithm>
#include <utility>

#include "routing/search/waymarks.h"
#include "routing/speeds.h"

namespace farwater::routing {
namespace {

// Without tankers there is nobody to wait.
Speed slowest_tanker(const Road& road, std::span<const Profile> profiles, const Season& season,
                     const Assumptions& assumptions) {
    Speed slowest = assumptions.speed_cap;
    for (const Profile& profile : profiles) {
        if (profile.kind == UnitKind::tanker) {
            slowest = std::min(
                slowest, planning_speed(road, profile, season, Load::loaded, assumptions).speed);
        }
    }
    return slowest;
}

}  // namespace

bool single_file(const Road& road, const Assumptions& assumptions) {
    const bool narrow = road.kind == RoadClass::narrow || road.kind == RoadClass::drive;
    return road.width ? *road.width < assumptions.two_way_width : narrow;
}

SingleFile::SingleFile(const District& district, const Network& network,
                       std::vector<std::uint8_t> open_edges, std::span<const Profile> profiles,
                       const Season& season)
    : network_(network), open_(std::move(open_edges)) {
    for (const Road& road : district.roads) {
        narrow_.push_back(single_file(road, district.assumptions) ? 1 : 0);
        speed_.push_back(slowest_tanker(road, profiles, season, district.assumptions));
    }
}

bool SingleFile::open(EdgeIndex edge, std::span<const EdgeIndex> closed) const {
    return at(open_, edge) != 0 && std::ranges::find(closed, edge) == closed.end();
}

Duration SingleFile::drive(EdgeIndex edge, double length) const {
    const DriveTime time = drive_time(metres(length), at(speed_, at(network_.edges, edge).road));
    return reachable(time) ? duration_of(time) : minutes(0);
}

// On over junctions of two, which are no places to wait at.
SingleFile::Found SingleFile::along(EdgeIndex edge, NodeIndex to, double length,
                                    std::span<const EdgeIndex> closed) const {
    const EdgeIndex first = edge;
    Found found{drive(edge, length), false};
    while (true) {
        std::vector<Incidence> onward;
        for (const Incidence& incidence : network_.around(to)) {
            if (incidence.edge != edge && open(incidence.edge, closed)) {
                onward.push_back(incidence);
            }
        }
        const bool wide =
            std::ranges::any_of(onward, [&](const Incidence& one) { return !narrow(one.edge); });
        found.passes = wide || onward.size() > 1;
        if (found.passes || onward.empty() || onward.front().edge == first) {
            return found;
        }
        const Edge& next = at(network_.edges, onward.front().edge);
        found.drive += drive(onward.front().edge, in_metres(next.length()));
        edge = onward.front().edge;
        to = next.from == to ? next.to : next.from;
    }
}

Duration SingleFile::way_of(RoadSpot spot, std::span<const EdgeIndex> closed) const {
    if (!spot.valid() || !narrow(spot.edge)) {
        return minutes(0);
    }
    std::vector<WayOn> ways = ways_from(network_, spot);
    const auto is_closed = [&](const WayOn& way) { return !open(way.edge, closed); };
    if (!std::ranges::all_of(ways, is_closed)) {
        std::erase_if(ways, is_closed);
    }
    const bool waits_here = ways.size() > 2 || std::ranges::any_of(ways, [&](const WayOn& way) {
                                return !narrow(way.edge);
                            });
    if (waits_here) {
        return minutes(0);
    }
    Found longest;
    for (const WayOn& way : ways) {
        const Found one = along(way.edge, way.to, way.length, closed);
        if (std::pair(one.passes, one.drive) > std::pair(longest.passes, longest.drive)) {
            longest = one;
        }
    }
    return longest.drive;
}

}  // namespace farwater::routing
