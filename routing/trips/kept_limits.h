// How good a round trip must be to come among those that are kept.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "analyzer/district/round_trips.h"
#include "analyzer/parallel/work.h"
#include "routing/trips/best_trips.h"

namespace farwater::routing {

// By rank: the place of a tanker profile in the order of best_trips.h. Fill sites are kept by the
// first profile that has a way, then round trip, then their own number.
class KeptLimits {
public:
    // `order`: the profiles as BestTrips began them. O(all that is kept).
    KeptLimits(const BestTrips& best, std::size_t rows, std::span<const FillSitePlace> fill_sites,
               std::span<const ProfileIndex> order, std::size_t most, const Work& work);

    // The longest round trip of that rank that may be of use to a fill site behind the others, of
    // no system, that has no way by an earlier one.
    DriveTime most(std::uint32_t row, std::uint8_t strength_class, std::size_t rank) const;

private:
    struct Limit {
        std::uint8_t rank = no_limit;
        DriveTime round_trip = no_time;  // of the last that is kept
    };
    static constexpr std::uint8_t no_limit = 255;

    std::size_t classes_ = 0;
    std::vector<Limit> limits_;  // per row and class
};

// The rank of a trip: the first profile with a way there and back; the last where none has.
std::size_t rank_of(const FillTrip& trip, std::span<const ProfileIndex> order);

}  // namespace farwater::routing
