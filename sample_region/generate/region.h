// The generator's front door: a district of any size in one folder.
//
// Up to 4,000 parcels it is one township, Alder Notch, with the odd records of real data; above, a
// region of many townships for benchmarks, side by side, whose state and town roads go through.
#pragma once

#include <cstdint>
#include <filesystem>
#include <vector>

#include "sample_region/generate/records.h"
#include "sample_region/generate/township.h"

namespace farwater::sample {

inline constexpr int fewest_parcels = 200;
inline constexpr int most_of_one_township = 4000;
inline constexpr int demo_parcels = 2500;
inline constexpr std::uint64_t demo_seed = 5;

struct RegionOrder {
    int parcels = demo_parcels;  // records of the parcel layer, reached exactly
    std::uint64_t seed = demo_seed;
    std::filesystem::path folder;  // made if it is not there; files in it are replaced
    bool buildings = true;         // of regions: one township always has them
    bool district_file = true;     // write district.toml beside the data
};

// What was written, for the terminal.
struct RegionCounts {
    std::size_t townships = 0, parcels = 0, roads = 0, buildings = 0, sources = 0, stations = 0,
                tankers = 0;
};

// Precondition: parcels >= fewest_parcels. Throws std::runtime_error when a file cannot be written.
// The same order gives the same bytes. One township is held in memory at a time.
RegionCounts write_region(const RegionOrder& order);

// The one township of a small region, before its records get dirty: 1 holding less than parcels,
// since one record has no land.
TownshipOrder alone(int parcels, std::uint64_t seed);

// Township `number` of a region, in the order in which they are written.
struct RegionPlan {
    int parcels = 0;
    std::uint64_t seed = 0;
    int townships = 1;
    int columns = 1;               // townships side by side
    double width = 0, height = 0;  // of one, metres
};
RegionPlan plan_region(int parcels, std::uint64_t seed);
TownshipOrder township_order(const RegionPlan& plan, int number);

// The deliberate faults of a small region: three polygons that cross themselves, an id twice, one
// record without id, one without geometry (added at the end).
void make_dirty(std::vector<ParcelRow>& rows);

}  // namespace farwater::sample
