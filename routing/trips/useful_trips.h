// Of a further fill site, the trips that would come among those that are kept.
#pragma once

#include <cstddef>
#include <cstdint>
#include <utility>
#include <vector>

#include "routing/kept_trips.h"
#include "routing/trips/kept_limits.h"
#include "routing/trips/trip_search.h"

namespace farwater::routing {

using RowLegs = std::pair<std::uint32_t, LegTimes>;  // of a dump site or an approach

// Takes a profile's. What is given must outlive it.
class UsefulTrips final : public TripTaker {
public:
    // `rank`: of the profile. `earlier`: the fill site's trips by the profiles before, by row.
    UsefulTrips(const KeptLimits& limits, std::uint8_t strength_class, std::size_t rank,
                const std::vector<FoundTrips::Trip>& earlier);

    DriveTime most_kept(std::uint32_t row) const override;
    void offer(std::uint32_t row, LegTimes legs) override;

    std::vector<RowLegs> found;

private:
    const KeptLimits& limits_;
    std::uint8_t class_;
    std::size_t rank_;
    const std::vector<FoundTrips::Trip>& earlier_;
};

// Adds a profile's legs to the trips, which stay in order of their rows.
void add_legs(std::vector<FoundTrips::Trip>& trips, ProfileIndex profile,
              std::vector<RowLegs> found);

}  // namespace farwater::routing
