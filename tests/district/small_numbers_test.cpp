#include "analyzer/district/small_numbers.h"

#include <cstdint>
#include <vector>

#include <catch2/catch.hpp>

#include "analyzer/district/fill_trips.h"
#include "analyzer/district/station_drives.h"

namespace farwater {
namespace {

std::vector<std::uint32_t> all_of(const SmallNumbers& numbers) {
    std::vector<std::uint32_t> all;
    for (std::size_t i = 0; i < numbers.size(); ++i) {
        all.push_back(numbers[i]);
    }
    return all;
}

// The longest time that two bytes hold, and those around it.
const std::vector<DriveTime> times{
    tenths_of_second(0),      tenths_of_second(65'534),        no_time, tenths_of_second(65'535),
    tenths_of_second(65'536), tenths_of_second(2'000'000'000), no_time, tenths_of_second(7)};

}  // namespace

TEST_CASE("small numbers come back as they went in, also once one is large", "[unit]") {
    const std::vector<std::uint32_t> added{0, 65'535, 3, 65'536, 4'294'967'295, 65'535, 1};
    SmallNumbers numbers;
    for (std::size_t i = 0; i < added.size(); ++i) {
        numbers.push_back(added[i]);
        CHECK(all_of(numbers) == std::vector(added.begin(), added.begin() + std::ptrdiff_t(i) + 1));
    }
}

TEST_CASE("small times come back as they went in, with those that have no way", "[unit]") {
    SmallTimes packed;
    for (std::size_t i = 0; i < times.size(); ++i) {
        packed.push_back(times[i]);
        REQUIRE(packed.size() == i + 1);
        for (std::size_t before = 0; before <= i; ++before) {
            CHECK(packed[before] == times[before]);
        }
    }
}

TEST_CASE("round trips and drives of any length come back as they were added", "[unit]") {
    const std::vector<ProfileIndex> profiles{ProfileIndex(2), ProfileIndex(0)};
    FillTrips trips(profiles);
    StationDrives drives(3);
    std::vector<FillTrip> trips_added;
    std::vector<StationDrive> drives_added;
    for (std::size_t i = 0; i + 3 < times.size(); ++i) {
        FillTrip trip{FillSiteIndex(i * 30'000), {}};
        trip.legs[2] = {times[i], times[i + 1]};
        trip.legs[0] = {times[i + 2], times[i + 3]};
        trips.add(trip);
        trips.close_row();
        trips_added.push_back(trip);
        StationDrive drive{StationIndex(i * 30'000)};
        drive.loaded = {times[i], times[i + 1], times[i + 2], no_time};
        drives.add(drive);
        drives.close_row();
        drives_added.push_back(drive);
    }
    for (std::size_t i = 0; i < trips_added.size(); ++i) {
        REQUIRE(trips[i].size() == 1);
        CHECK(trips[i][0] == trips_added[i]);
        REQUIRE(drives[i].size() == 1);
        CHECK(drives[i][0].station == drives_added[i].station);
        CHECK(drives[i][0].loaded == drives_added[i].loaded);
    }
}

}  // namespace farwater
