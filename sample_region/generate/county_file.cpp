#include "sample_region/generate/county_file.h"

#include <array>
#include <charconv>

#include "sample_region/generate/random.h"

namespace farwater::sample {
namespace {

using enum ColumnKind;

constexpr std::array parcel_columns{
    Column{"PARCEL_ID"},        Column{"MAP_LOT"},         Column{"ADDRESS"},
    Column{"LAND_USE"},         Column{"ACRES", real},     Column{"ZONING"},
    Column{"FIRE_ZONE"},        Column{"FRONT_FT", whole}, Column{"DEED_REF"},
    Column{"SALE_YEAR", whole}, Column{"LAND_VAL", whole}, Column{"BLDG_VAL", whole},
    Column{"BLDGS", whole},     Column{"NEED_GPM", whole},
};
constexpr std::size_t plain_parcel_columns = 12;

constexpr std::array road_columns{
    Column{"ROAD_NAME"},       Column{"CLASS"},
    Column{"ACCESS"},          Column{"ONEWAY"},
    Column{"MAINT_MO"},        Column{"SPEED", whole},
    Column{"WIDTH_FT", whole}, Column{"BRIDGE"},
    Column{"RAILXING"},        Column{"POSTED_TON", whole},
};
constexpr std::array building_columns{Column{"BLDG_ID"}, Column{"USE"}};
constexpr std::array address_columns{Column{"ADDRESS"}, Column{"KIND"}};
constexpr std::array named_columns{Column{"NAME"}};

constexpr double share_with_address_point = 0.55;

Cell text_or_null(std::string_view text) { return text.empty() ? Cell{} : Cell{text}; }
Cell whole_or_null(int value) { return value == 0 ? Cell{} : Cell{std::int64_t{value}}; }

int add_parcel_layer(GeoPackage& file, const CountyStyle& style) {
    const std::span<const Column> columns(parcel_columns);
    return file.add_layer("parcels", Shape::multi_polygon,
                          style.need_in_parcels ? columns : columns.first(plain_parcel_columns),
                          style.indexed);
}

}  // namespace

CountyFile::CountyFile(const std::filesystem::path& path, const CountyStyle& style)
    : file_(path, region_epsg),
      style_(style),
      parcels_(add_parcel_layer(file_, style)),
      roads_(file_.add_layer("roads", Shape::line, road_columns, style.indexed)),
      water_(file_.add_layer("hydrography", Shape::multi_polygon, named_columns, style.indexed)),
      rivers_(file_.add_layer("rivers", Shape::line, named_columns, style.indexed)),
      rail_(file_.add_layer("railroad", Shape::line, named_columns, style.indexed)),
      town_(file_.add_layer("town_line", Shape::multi_polygon, named_columns, style.indexed)) {
    if (style.buildings) {
        buildings_ = file_.add_layer("buildings", Shape::polygon, building_columns, style.indexed);
        addresses_ =
            file_.add_layer("address_points", Shape::point, address_columns, style.indexed);
    }
}

void CountyFile::write_parcels(const std::vector<ParcelRow>& rows) {
    for (const ParcelRow& row : rows) {
        const std::array<Cell, 14> cells{
            row.parcel_id ? Cell{std::string_view(*row.parcel_id)} : Cell{},
            text_or_null(row.map_lot),
            text_or_null(row.address),
            text_or_null(row.land_use),
            row.acres,
            text_or_null(row.zoning),
            text_or_null(row.fire_zone),
            whole_or_null(row.frontage_ft),
            text_or_null(row.deed),
            std::int64_t{row.sale_year},
            std::int64_t{row.land_value},
            std::int64_t{row.building_value},
            std::int64_t{row.buildings},
            whole_or_null(row.needed_gpm),
        };
        const Geometry geometry = row.shape.empty() ? Geometry{} : Geometry{&row.shape};
        const std::span<const Cell> all(cells);
        file_.write(parcels_, style_.need_in_parcels ? all : all.first(plain_parcel_columns),
                    geometry);
    }
}

void CountyFile::write_roads(const std::vector<RoadRow>& rows) {
    for (const RoadRow& row : rows) {
        const std::array<Cell, 10> cells{
            text_or_null(row.name),
            text_or_null(row.road_class),
            text_or_null(row.access),
            text_or_null(row.one_way),
            text_or_null(row.months),
            whole_or_null(row.speed_mph),
            whole_or_null(row.width_ft),
            row.bridge ? Cell{std::string_view("Y")} : Cell{},
            row.rail_crossing ? Cell{std::string_view("Y")} : Cell{},
            whole_or_null(row.posted_tons),
        };
        file_.write(roads_, cells, &row.line);
    }
}

void CountyFile::write_buildings(const std::vector<BuildingRow>& rows) {
    for (const BuildingRow& row : rows) {
        const std::array<Cell, 2> cells{std::string_view(row.building_id),
                                        std::string_view(row.use)};
        file_.write(buildings_, cells, &row.ring);
    }
}

void CountyFile::write_address_points(const Township& township, const std::vector<ParcelRow>& rows,
                                      std::uint64_t seed) {
    Random random(mixed(seed, 141U));
    for (std::size_t i = 0; i < township.holdings.size(); ++i) {
        const Holding& holding = township.holdings[i];
        if (!holding.drive || !random.chance(share_with_address_point)) {
            continue;
        }
        const std::array<Cell, 2> cells{text_or_null(rows[i].address),
                                        text_or_null(rows[i].land_use)};
        const Point towards = holding.drive->line.front() - holding.house;
        file_.write(addresses_, cells, rounded(holding.house + unit(towards) * 3));
    }
}

void CountyFile::write_map(const Township& township) {
    const auto write = [&](int layer, std::string_view name, const Geometry& geometry) {
        const std::array<Cell, 1> cells{text_or_null(name)};
        file_.write(layer, cells, geometry);
    };
    if (!township.lakes.empty()) {
        write(water_, township.lake_name, &township.lakes);
    }
    for (const Pond& pond : township.ponds) {
        const Polygons shore{{{pond.shore}}};
        write(water_, pond.name, &shore);
    }
    write(rivers_, "Notch River", &township.ground.terrain.river);
    if (township.ground.terrain.rail.size() > 1) {
        write(rail_, "Branch line", &township.ground.terrain.rail);
    }
    write(town_, "", &township.town);
}

void CountyFile::write_points(const char* layer, const TypedTable& table) {
    std::vector<Column> columns;
    columns.reserve(table.header.size());
    for (const std::string& name : table.header) {
        columns.push_back({name});
    }
    const int number = file_.add_layer(layer, Shape::point, columns, style_.indexed);
    for (const PointRow& row : table.rows) {
        std::vector<Cell> cells;
        cells.reserve(row.cells.size());
        for (const std::string& cell : row.cells) {
            cells.push_back(text_or_null(cell));
        }
        file_.write(number, cells, rounded(row.place));
    }
}

void CountyFile::close() { file_.close(); }

}  // namespace farwater::sample
