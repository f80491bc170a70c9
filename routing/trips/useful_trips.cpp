#include "routing/trips/useful_trips.h"

#include <algorithm>

namespace farwater::routing {

UsefulTrips::UsefulTrips(const KeptLimits& limits, std::uint8_t strength_class, std::size_t rank,
                         const std::vector<FoundTrips::Trip>& earlier)
    : limits_(limits), class_(strength_class), rank_(rank), earlier_(earlier) {}

DriveTime UsefulTrips::most_kept(std::uint32_t row) const {
    return std::ranges::binary_search(earlier_, row, {}, &FoundTrips::Trip::row)
               ? no_time
               : limits_.most(row, class_, rank_);
}

void UsefulTrips::offer(std::uint32_t row, LegTimes legs) {
    if (whole_trip(legs) <= most_kept(row)) {
        found.emplace_back(row, legs);
    }
}

void add_legs(std::vector<FoundTrips::Trip>& trips, ProfileIndex profile,
              std::vector<RowLegs> found) {
    std::ranges::sort(found, {}, [](const auto& one) { return one.first; });
    const auto known = static_cast<std::ptrdiff_t>(trips.size());
    for (const auto& [row, legs] : found) {
        const auto old = std::ranges::lower_bound(trips.begin(), trips.begin() + known, row, {},
                                                  &FoundTrips::Trip::row);
        if (old != trips.begin() + known && old->row == row) {
            at(old->legs, profile) = legs;
        } else {
            trips.push_back({row, {}});
            at(trips.back().legs, profile) = legs;
        }
    }
    std::ranges::inplace_merge(trips, trips.begin() + known, {}, &FoundTrips::Trip::row);
}

}  // namespace farwater::routing
