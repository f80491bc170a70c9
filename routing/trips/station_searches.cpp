#include "routing/trips/station_searches.h"

namespace farwater::routing {
namespace {

class Responses {
public:
    Responses(const RoadSystem& system, const Driving& loaded, ProfileIndex profile,
              std::span<const RoadSpot> spots, const Approaches* approaches)
        : system_(system),
          roads_(loaded.roads()),
          profile_(profile),
          season_(loaded.season()),
          spots_(spots),
          approaches_(approaches),
          ends_(spot_ends(system.network, spots, loaded.costs(), loaded.costs())),
          rule_(system.district.travel_time),
          limit_(rule_.most_of_response(trip_limit_of(system.district.assumptions))) {}

    std::vector<Drive> from(StationIndex station, Desk& desk) const {
        std::vector<Drive> drives;
        const RoadSpot place = at(system_.access.stations, station);
        if (!place.valid()) {
            return drives;
        }
        const DriveTime gate = gate_drive(at(system_.district.stations, station), season_);
        const auto add = [&](std::uint32_t row, std::int32_t cost) {
            if (cost != no_way) {
                drives.push_back({row, station, profile_, gate + rule_.response(cost)});
            }
        };
        desk.loaded.measure(roads_, place, spots_, ends_, limit_, desk.search);
        if (approaches_ != nullptr) {
            desk.tree.grow(roads_, place, desk.search);
        }
        for (const std::uint32_t spot : desk.loaded.reached()) {
            add(spot, desk.loaded.cost(spot));
            const Approaches::Range rows = rows_of(spot);
            for (std::uint32_t row = rows.begin; row < rows.end; ++row) {
                add(row, desk.closed.cost({roads_, place, desk.search, &desk.tree, &desk.cuts},
                                          approaches_->hose(row), limit_));
            }
        }
        desk.loaded.clear();
        desk.search.clear();
        return drives;
    }

private:
    Approaches::Range rows_of(std::uint32_t spot) const {
        return approaches_ == nullptr ? Approaches::Range{} : approaches_->of(spot);
    }

    const RoadSystem& system_;
    DrivenRoads roads_;
    ProfileIndex profile_;
    const Season& season_;
    std::span<const RoadSpot> spots_;
    const Approaches* approaches_;
    SpotEnds ends_;
    TravelRule rule_;
    std::int32_t limit_;
};

}  // namespace

std::vector<Drive> drives_to(const RoadSystem& system, const Driving& loaded, ProfileIndex profile,
                             std::span<const RoadSpot> spots, const Approaches* approaches,
                             Pool<Desk>& desks, const Work& work) {
    const Responses responses(system, loaded, profile, spots, approaches);
    const std::size_t stations = system.access.stations.size();
    std::vector<std::vector<Drive>> of_station(stations);
    const auto search_some = [&](std::size_t begin, std::size_t end) {
        const Pool<Desk>::Borrowed desk(desks);
        for (std::size_t s = begin; s < end && !work.stopped(); ++s) {
            of_station[s] = responses.from(StationIndex(s), *desk);
        }
    };
    for_each_chunk(work, "responses", stations, 1, search_some);
    std::vector<Drive> drives;
    for (const std::vector<Drive>& some : of_station) {
        drives.insert(drives.end(), some.begin(), some.end());
    }
    return drives;
}

}  // namespace farwater::routing
