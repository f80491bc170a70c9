#include "routing/drive_table.h"

#include <algorithm>
#include <utility>

#include "analyzer/district/sorted_once.h"
#include "routing/driving/travel_rule.h"
#include "routing/fastest_ways.h"
#include "routing/search/costed_roads.h"
#include "routing/search/spot_ends.h"

namespace farwater::routing {
namespace {

// One end of a drive that a search found.
struct Reached {
    std::uint32_t place = 0;
    OneWayDrive drive;
};

// All places that a spot's search reaches, by place.
std::vector<Reached> places_reached(FastestWays& ways, const CostedRoads& driven, RoadSpot spot,
                                    std::span<const RoadSpot> places, const SpotEnds& ends,
                                    std::int32_t limit) {
    ways.search(driven.roads(), spot, limit);
    std::vector<std::uint32_t> near;
    const auto add_around = [&](NodeIndex node) {
        for (const SpotEnd& end : ends.around(node)) {
            near.push_back(end.spot);
        }
    };
    for (const std::uint32_t node : ways.reached()) {
        add_around(NodeIndex(node));
    }
    add_around(at(driven.network().edges, spot.edge).from);
    const TravelRule rule(driven.district().travel_time);
    std::vector<Reached> reached;
    for (const std::uint32_t place : sorted_once(std::move(near))) {
        const WayMeasure measure = ways.measure(places[place]);
        if (measure.time != no_way) {
            reached.push_back({place,
                               {rule.response(measure.time),
                                metres(static_cast<double>(measure.millimetres) / 1e3)}});
        }
    }
    return reached;
}

// Drives between the spots that are searched from and the places that are looked up.
struct TableOfDrives {
    std::span<const RoadSpot> searched;
    std::span<const RoadSpot> places;
    bool from_searched = true;  // the searched spots are the table's from
};

// Both lists are by place.
std::vector<DrivePair> pairs_of(std::uint32_t searched, const std::vector<Reached>& loaded,
                                const std::vector<Reached>& empty, bool from_searched) {
    std::vector<DrivePair> pairs;
    auto there = loaded.begin();
    auto back = empty.begin();
    while (there != loaded.end() || back != empty.end()) {
        const bool has_there =
            there != loaded.end() && (back == empty.end() || there->place <= back->place);
        const std::uint32_t place = has_there ? there->place : back->place;
        const bool has_back = back != empty.end() && back->place == place;
        DrivePair pair{searched, place, {}, {}};
        pair.loaded = has_there ? (there++)->drive : OneWayDrive{};
        pair.empty = has_back ? (back++)->drive : OneWayDrive{};
        if (!from_searched) {
            std::swap(pair.from, pair.to);
        }
        pairs.push_back(pair);
    }
    return pairs;
}

std::vector<DrivePair> drives_of(const TableOfDrives& table, const CostedRoads& loaded,
                                 const CostedRoads& empty, std::int32_t limit, const Work& work) {
    const Network& network = loaded.network();
    const SpotEnds ends = spot_ends(network, table.places, loaded.costs(), empty.costs());
    std::vector<std::vector<DrivePair>> of(table.searched.size());
    Pool<FastestWays> searches = searches_for(network);
    for_each_chunk(
        work, "drives", table.searched.size(), 1, [&](std::size_t begin, std::size_t end) {
            const Pool<FastestWays>::Borrowed ways(searches);
            for (std::size_t s = begin; s < end && !work.stopped(); ++s) {
                const RoadSpot spot = table.searched[s];
                if (!spot.valid()) {
                    continue;
                }
                const auto there = places_reached(*ways, loaded, spot, table.places, ends, limit);
                const auto back = places_reached(*ways, empty, spot, table.places, ends, limit);
                of[s] = pairs_of(static_cast<std::uint32_t>(s), there, back, table.from_searched);
            }
        });
    std::vector<DrivePair> pairs;
    for (const std::vector<DrivePair>& some : of) {
        pairs.insert(pairs.end(), some.begin(), some.end());
    }
    return pairs;
}

}  // namespace

std::vector<DrivePair> drives_between(const RoadSystem& roads, ProfileIndex profile,
                                      SeasonIndex season, std::span<const RoadSpot> from,
                                      std::span<const RoadSpot> to, DriveTime limit,
                                      const Work& work) {
    const bool from_searched = from.size() <= to.size();
    const TableOfDrives table{from_searched ? from : to, from_searched ? to : from, from_searched};
    const CostedRoads loaded(roads, profile, season, Load::loaded,
                             from_searched ? Heading::away : Heading::towards);
    const CostedRoads empty(roads, profile, season, Load::empty,
                            from_searched ? Heading::towards : Heading::away);
    const std::int32_t most =
        TravelRule(roads.district.travel_time).most_of_response(in_tenths(limit));
    std::vector<DrivePair> pairs = drives_of(table, loaded, empty, std::min(most, most_cost), work);
    std::ranges::sort(pairs, {}, [](const DrivePair& p) { return std::pair(p.from, p.to); });
    return pairs;
}

}  // namespace farwater::routing
