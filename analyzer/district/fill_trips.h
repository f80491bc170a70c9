// The best round trips of each approach, millions of them in a large district: lists that hold one
// leg pair for each profile that carries water, and none for the others.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <ranges>
#include <span>
#include <utility>
#include <vector>

#include "analyzer/district/ids.h"
#include "analyzer/district/list_rows.h"
#include "analyzer/district/small_numbers.h"
#include "analyzer/district/units.h"

namespace farwater {

inline constexpr std::size_t most_profiles = 4;

struct LegTimes {
    DriveTime empty = no_time;   // dump site to fill site
    DriveTime loaded = no_time;  // fill site to dump site

    friend constexpr auto operator<=>(const LegTimes&, const LegTimes&) = default;
};

constexpr DriveTime whole_trip(const LegTimes& legs) { return legs.empty + legs.loaded; }

// One fill site as seen from one dump site; a leg per profile, no_time where that profile has no
// way.
struct FillTrip {
    FillSiteIndex fill_site;  // index into the FillSitePlace list that routing was given
    std::array<LegTimes, most_profiles> legs;

    friend constexpr auto operator<=>(const FillTrip&, const FillTrip&) = default;
};

// A list of round trips per row; 8 bytes a row, and 2 a trip with 4 for each profile as long as
// numbers are small (small_numbers.h).
class FillTrips {
public:
    FillTrips() : FillTrips({ProfileIndex(0), ProfileIndex(1), ProfileIndex(2), ProfileIndex(3)}) {}
    // Of these profiles alone; others have no way. At most most_profiles.
    explicit FillTrips(std::vector<ProfileIndex> profiles) : profiles_(std::move(profiles)) {}

    std::size_t size() const { return rows_.size(); }
    // A view of values, which the lists must outlive.
    auto operator[](std::size_t row) const {
        return rows_.items_of(row) |
               std::views::transform([this](std::uint32_t item) { return trip(item); });
    }

    void add(const FillTrip& trip) {
        fill_sites_.push_back(static_cast<std::uint32_t>(trip.fill_site.position()));
        for (const ProfileIndex profile : profiles_) {
            legs_.push_back(at(trip.legs, profile).empty);
            legs_.push_back(at(trip.legs, profile).loaded);
        }
    }
    // What was added since the last row was closed is the next row.
    void close_row() { rows_.close_row(fill_sites_.size()); }
    // Room for so many trips in all. Memory that is not used yet costs next to nothing.
    void reserve(std::size_t trips) {
        fill_sites_.reserve(trips);
        legs_.reserve(trips * profiles_.size() * 2);
    }
    std::size_t trips() const { return fill_sites_.size(); }
    // Trips have numbers below trips(): those of a row from here on.
    std::size_t first_of(std::size_t row) const { return rows_.first_of(row); }

    // As ListRows::put_in_order.
    void put_rows_in_order(std::span<const std::uint32_t> order) { rows_.put_in_order(order); }

    const std::vector<ProfileIndex>& profiles() const { return profiles_; }

private:
    FillTrip trip(std::uint32_t item) const {
        FillTrip trip{FillSiteIndex(fill_sites_[item]), {}};
        std::size_t leg = std::size_t{item} * profiles_.size() * 2;
        for (const ProfileIndex profile : profiles_) {
            at(trip.legs, profile) = {.empty = legs_[leg], .loaded = legs_[leg + 1]};
            leg += 2;
        }
        return trip;
    }

    std::vector<ProfileIndex> profiles_;
    ListRows rows_;
    SmallNumbers fill_sites_;  // per trip
    SmallTimes legs_;          // per trip and profile: empty, then loaded
};

}  // namespace farwater
