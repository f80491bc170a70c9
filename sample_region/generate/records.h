// What a township looks like in files: flat rows with the odd habits of real data. The columns of
// the county's layers and of the department's own lists stay what they are for every size.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "sample_region/generate/township.h"

namespace farwater::sample {

// How a township's rows are told from those of others.
struct Stamp {
    std::string prefix;  // of ids; empty for a township alone
    int sheet_base = 0;  // first map sheet
    std::int64_t first_parcel = 1;
    std::uint64_t seed = 0;
};

struct ParcelRow {
    std::optional<std::string> parcel_id;  // none = the cell is empty
    std::string map_lot, address, land_use, zoning, fire_zone, deed;
    double acres = 0;
    int frontage_ft = 0, sale_year = 0, land_value = 0, building_value = 0;
    int buildings = 0, needed_gpm = 0, year_built = 0, living_area = 0;
    Polygons shape;  // empty = no geometry
};
// The id of the holding with this index.
std::string parcel_id(const Stamp& stamp, std::size_t holding);
// In the order of the holdings.
std::vector<ParcelRow> parcel_rows(const Township& township, const Stamp& stamp);

struct BuildingRow {
    std::string building_id;
    std::string use;
    Polyline ring;
};
std::vector<BuildingRow> building_rows(const Township& township, const Stamp& stamp);

struct RoadRow {
    std::string name;
    std::string_view road_class, access, one_way, months;  // the county's codes
    bool bridge = false, rail_crossing = false;
    int speed_mph = 0;    // 0 = not known
    int width_ft = 0;     // 0 = not known
    int posted_tons = 0;  // short tons; 0 = not posted
    Polyline line;
};
// Lines are cut where bridges and rail crossings begin and end and where driveways join. The
// `drives` longest driveways are drawn, but none shorter than `shortest_drive` metres.
std::vector<RoadRow> road_rows(const Township& township, const Stamp& stamp, std::size_t drives,
                               double shortest_drive);

struct PointRow {
    std::vector<std::string> cells;
    Point place;
};
// A table of the department: a header and rows of text as somebody typed them.
struct TypedTable {
    std::vector<std::string> header;
    std::vector<PointRow> rows;
};

}  // namespace farwater::sample
