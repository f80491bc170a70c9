#include "routing/trips/kept_limits.h"

#include <algorithm>

namespace farwater::routing {
namespace {

constexpr std::size_t rows_a_chunk = 4096;

}  // namespace

std::size_t rank_of(const FillTrip& trip, std::span<const ProfileIndex> order) {
    std::size_t rank = 0;
    while (rank + 1 < order.size() && !reachable(whole_trip(at(trip.legs, order[rank])))) {
        ++rank;
    }
    return rank;
}

KeptLimits::KeptLimits(const BestTrips& best, std::size_t rows,
                       std::span<const FillSitePlace> fill_sites,
                       std::span<const ProfileIndex> order, std::size_t most, const Work& work) {
    for (const FillSitePlace& fill_site : fill_sites) {
        classes_ = std::max<std::size_t>(classes_, fill_site.strength_class + std::size_t{1});
    }
    limits_.resize(rows * classes_);
    const auto find_some = [&](std::size_t begin, std::size_t end) {
        std::vector<std::size_t> count(classes_);
        for (std::size_t row = begin; row < end; ++row) {
            std::ranges::fill(count, std::size_t{0});
            for (const FillTrip& trip : best.trips(row)) {
                const std::size_t one = at(fill_sites, trip.fill_site).strength_class;
                if (++count[one] == most) {
                    const std::size_t rank = rank_of(trip, order);
                    limits_[row * classes_ + one] = {static_cast<std::uint8_t>(rank),
                                                     whole_trip(at(trip.legs, order[rank]))};
                }
            }
        }
    };
    for_each_chunk(work, "best round trips", rows, rows_a_chunk, find_some);
}

DriveTime KeptLimits::most(std::uint32_t row, std::uint8_t strength_class, std::size_t rank) const {
    if (strength_class >= classes_) {
        return no_time;
    }
    const Limit& limit = limits_[row * classes_ + strength_class];
    if (limit.rank > rank) {
        return no_time;
    }
    // Of equals the one that was there before is kept.
    return limit.rank < rank ? tenths_of_second(-1)
                             : tenths_of_second(in_tenths(limit.round_trip) - 1);
}

}  // namespace farwater::routing
