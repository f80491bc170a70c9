#include "routing/sites/drive_through.h"

#include "routing/driving/road_use.h"

namespace farwater::routing {
namespace {

std::vector<std::uint8_t> open_in_every_season(const District& district, const Network& network,
                                               std::span<const Profile> profiles) {
    std::vector<std::uint8_t> open(network.edges.size(), 1);
    for (const Season& season : district.seasons) {
        const std::vector<std::uint8_t> now = edges_used_by(
            network, loaded_use(district, profiles, season), haulers(profiles), Which::all);
        for (std::size_t e = 0; e < open.size(); ++e) {
            open[e] = open[e] != 0 && now[e] != 0 ? 1 : 0;
        }
    }
    return open;
}

}  // namespace

std::vector<RoadSpot> turnarounds(const District& district, const Access& access) {
    std::vector<RoadSpot> spots = access.turnarounds;
    for (std::size_t i = 0; i < district.dump_site_places.size(); ++i) {
        if (district.dump_site_places[i].turnaround) {
            spots.push_back(access.dump_site_places[i]);
        }
    }
    for (std::size_t i = 0; i < district.sources.size(); ++i) {
        if (district.sources[i].turnaround) {
            spots.push_back(access.sources[i]);
        }
    }
    return spots;
}

std::vector<RoadSpot> sources_and_stations(const Access& access) {
    std::vector<RoadSpot> spots = access.sources;
    spots.insert(spots.end(), access.stations.begin(), access.stations.end());
    return spots;
}

std::optional<LaneClass> said_lane(const District& district,
                                   std::optional<std::uint32_t> officers_place) {
    if (!officers_place) {
        return std::nullopt;
    }
    const DumpSitePlace& place = district.dump_site_places[*officers_place];
    return !place.lane && place.turnaround ? LaneClass::through : place.lane;
}

DriveThrough::DriveThrough(const District& district, const Network& network, const Access& access,
                           std::span<const Profile> profiles)
    : district_(district),
      lanes_(network, open_in_every_season(district, network, profiles),
             district.assumptions.turnaround_reach, turnarounds(district, access)),
      origins_(network, sources_and_stations(access)) {}

bool DriveThrough::at_spot(RoadSpot spot, std::span<const EdgeIndex> closed) const {
    return lanes_.at_spot(spot, closed, &origins_) == LaneClass::through;
}

bool DriveThrough::at_site(const SitePlace& site, std::span<const EdgeIndex> closed) const {
    const std::optional<LaneClass> said = said_lane(district_, site.officers_place);
    return said ? *said == LaneClass::through : at_spot(site.spot, closed);
}

}  // namespace farwater::routing
