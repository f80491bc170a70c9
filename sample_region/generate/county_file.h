// The county's GeoPackage: parcels, roads, buildings, address points, water. Rows are written
// township by township and not kept.
#pragma once

#include <filesystem>
#include <vector>

#include "sample_region/generate/geo_files.h"
#include "sample_region/generate/records.h"

namespace farwater::sample {

inline constexpr int region_epsg = 32618;  // UTM zone 18 north, metres

struct CountyStyle {
    bool indexed = true;           // spatial indexes
    bool buildings = true;         // layers of buildings and address points
    bool need_in_parcels = false;  // columns BLDGS and NEED_GPM instead of an assessor's table
};

class CountyFile {
public:
    CountyFile(const std::filesystem::path& path, const CountyStyle& style);
    void write_parcels(const std::vector<ParcelRow>& rows);
    void write_roads(const std::vector<RoadRow>& rows);
    void write_buildings(const std::vector<BuildingRow>& rows);
    // Doors of a part of the houses, by chance.
    void write_address_points(const Township& township, const std::vector<ParcelRow>& rows,
                              std::uint64_t seed);
    // Ponds, lakes, the river, the railway and the town line.
    void write_map(const Township& township);
    void write_points(const char* layer, const TypedTable& table);
    void close();

private:
    GeoPackage file_;
    CountyStyle style_;
    int parcels_, roads_, water_, rivers_, rail_, town_;
    int buildings_ = -1, addresses_ = -1;
};

}  // namespace farwater::sample
