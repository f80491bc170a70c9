// How long vehicles drive from stations to places, hundreds of thousands of places in a large
// district.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <ranges>
#include <span>
#include <vector>

#include "analyzer/district/fill_trips.h"
#include "analyzer/district/ids.h"
#include "analyzer/district/list_rows.h"
#include "analyzer/district/small_numbers.h"
#include "analyzer/district/units.h"

namespace farwater {

// A station that can get to a place, and how long each profile drives, loaded.
struct StationDrive {
    StationIndex station;
    std::array<DriveTime, most_profiles> loaded{no_time, no_time, no_time, no_time};
};
static_assert(most_profiles == 4, "StationDrive starts with no way for every profile");

// From the station of the list, if it is there; no_time where the profile has no way.
template <class Drives>
DriveTime drive_from(const Drives& drives, ProfileIndex profile, StationIndex station) {
    for (const StationDrive& drive : drives) {
        if (drive.station == station) {
            return drive.loaded[profile.position()];
        }
    }
    return no_time;
}

// A list of drives per place; 8 bytes a place, and 2 a drive with 2 for each profile as long as
// numbers are small (small_numbers.h).
class StationDrives {
public:
    StationDrives() : StationDrives(most_profiles) {}
    // Of the first so many profiles, at most most_profiles; others have no way.
    explicit StationDrives(std::size_t profiles) : profiles_(profiles) {}

    std::size_t size() const { return rows_.size(); }
    // A view of values, which the lists must outlive.
    auto operator[](std::size_t row) const {
        return rows_.items_of(row) |
               std::views::transform([this](std::uint32_t item) { return drive(item); });
    }

    void add(const StationDrive& drive) {
        stations_.push_back(static_cast<std::uint32_t>(drive.station.position()));
        for (std::size_t p = 0; p < profiles_; ++p) {
            loaded_.push_back(drive.loaded[p]);
        }
    }
    // What was added since the last row was closed is the next row.
    void close_row() { rows_.close_row(stations_.size()); }
    // Room for so many drives in all.
    void reserve(std::size_t drives) {
        stations_.reserve(drives);
        loaded_.reserve(drives * profiles_);
    }
    // As ListRows::put_in_order.
    void put_rows_in_order(std::span<const std::uint32_t> order) { rows_.put_in_order(order); }

    std::size_t profiles() const { return profiles_; }

private:
    StationDrive drive(std::uint32_t item) const {
        StationDrive drive{StationIndex(stations_[item])};
        for (std::size_t p = 0; p < profiles_; ++p) {
            drive.loaded[p] = loaded_[item * profiles_ + p];
        }
        return drive;
    }

    std::size_t profiles_;
    ListRows rows_;
    SmallNumbers stations_;  // per drive
    SmallTimes loaded_;      // per drive and profile
};

}  // namespace farwater
