#include "sample_region/generate/region.h"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "sample_region/generate/county_file.h"
#include "sample_region/generate/department.h"
#include "sample_region/generate/district_text.h"
#include "sample_region/generate/geo_files.h"
#include "sample_region/generate/random.h"

namespace farwater::sample {
namespace {

constexpr double demo_shortest_drive = 90;
constexpr double demo_raster_cell = 60;
constexpr double region_shortest_drive = 10;
constexpr double region_raster_cell = 200;
constexpr double region_roads_per_parcel = 1.28;
constexpr int parcels_per_station = 4500;
constexpr std::size_t sources_per_township = 5;

std::size_t tankers_in(const TypedTable& apparatus) {
    return static_cast<std::size_t>(std::ranges::count_if(
        apparatus.rows, [](const PointRow& row) { return row.cells[2] == "Tanker"; }));
}

std::string number_or_blank(int value) { return value == 0 ? "" : fmt::format("{}", value); }

// The assessor's own list, with its misses, its retired lots, an entry made twice and two numbers
// that are none.
TypedTable assessor_table(const std::vector<ParcelRow>& rows) {
    TypedTable table{{"MBLU", "LUC", "YR_BUILT", "LIV_AREA", "BLDGS", "FIRE_FLOW"}, {}};
    int needs = 0;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const ParcelRow& row = rows[i];
        std::string need = number_or_blank(row.needed_gpm);
        needs += need.empty() ? 0 : 1;
        if (!need.empty() && needs == 20) {
            need = "1,20";
        } else if (!need.empty() && needs == 40) {
            need = "see file";
        }
        const PointRow entry{
            {row.map_lot, row.land_use, number_or_blank(row.year_built),
             number_or_blank(row.living_area), fmt::format("{}", row.buildings), need},
            {}};
        if (i % 611 != 7) {
            table.rows.push_back(entry);
        }
        if (i == rows.size() / 4) {
            table.rows.push_back(entry);
        }
    }
    for (const char* retired : {"98-001", "98-002", "98-007"}) {
        table.rows.push_back({{retired, "V", "", "", "0", ""}, {}});
    }
    return table;
}

RegionCounts write_alone(const RegionOrder& order) {
    const TownshipOrder township_order = alone(order.parcels, order.seed);
    const Township township = build_township(township_order);
    const Stamp stamp{"", 0, 1, order.seed};
    std::vector<ParcelRow> parcels = parcel_rows(township, stamp);
    const TypedTable assessor = assessor_table(parcels);
    CountyFile county(order.folder / "county.gpkg", {});
    county.write_address_points(township, parcels, order.seed);
    make_dirty(parcels);
    county.write_parcels(parcels);
    const auto roads = road_rows(township, stamp, parcels.size(), demo_shortest_drive);
    county.write_roads(roads);
    const auto buildings = building_rows(township, stamp);
    county.write_buildings(buildings);
    county.write_map(township);
    const TypedTable stations = station_table(township, township_order.gates, stamp);
    county.write_points("stations", stations);
    county.write_points("targets", target_table(township));
    county.write_points("dump_places", dump_place_table(township));
    county.write_points("turnarounds", turnaround_table(township));
    county.close();
    const TypedTable sources = source_table(township, stamp);
    write_csv(order.folder / "water_sources.csv", sources, region_epsg);
    write_csv(order.folder / "proposals.csv", proposal_table(township), region_epsg);
    write_csv(order.folder / "assessor.csv", assessor, 0);
    const TypedTable apparatus = apparatus_table(stations);
    write_csv(order.folder / "apparatus.csv", apparatus, 0);
    write_csv(order.folder / "staffing.csv", staffing_table(apparatus), 0);
    write_csv(order.folder / "response_zones.csv", zone_table(apparatus), 0);
    write_csv(order.folder / "timed_runs.csv", run_table(township, stations, order.seed),
              region_epsg);
    write_elevation(order.folder / "elevation.tif", township.outline.box(), demo_raster_cell,
                    region_epsg, [&](Point p) { return township.ground.terrain.elevation(p); });
    return {1,
            parcels.size(),
            roads.size(),
            buildings.size(),
            sources.rows.size(),
            stations.rows.size(),
            tankers_in(apparatus)};
}

// What is kept of all townships of a region.
struct RegionLists {
    TypedTable sources, stations, apparatus;
    std::vector<Terrain> terrains;  // by column and row
};

std::size_t cell_of(const RegionPlan& plan, const Box& box, Point p) {
    const int column =
        std::clamp(static_cast<int>((p.x - box.low.x) / plan.width), 0, plan.columns - 1);
    const int row = std::max(0, static_cast<int>((p.y - box.low.y) / plan.height));
    return static_cast<std::size_t>(row * plan.columns + column);
}

void write_township(CountyFile& county, const RegionOrder& order, const RegionPlan& plan,
                    int number, const Box& box, RegionLists& lists, RegionCounts& counts) {
    const TownshipOrder township_order = sample::township_order(plan, number);
    const Township township = build_township(township_order);
    const Stamp stamp{fmt::format("T{:03}-", number + 1), number * 100,
                      static_cast<std::int64_t>(counts.parcels) + 1, township_order.tile_seed};
    const auto parcels = parcel_rows(township, stamp);
    county.write_parcels(parcels);
    std::size_t pieces = township.roads.size();
    for (const RoadLine& road : township.roads) {
        pieces += 2 * road.stretches.size();
    }
    const auto wanted =
        static_cast<std::size_t>(region_roads_per_parcel * static_cast<double>(parcels.size()));
    const auto roads = road_rows(township, stamp, wanted > pieces ? (wanted - pieces) / 2 : 0,
                                 region_shortest_drive);
    county.write_roads(roads);
    if (order.buildings) {
        const auto buildings = building_rows(township, stamp);
        county.write_buildings(buildings);
        county.write_address_points(township, parcels, stamp.seed);
        counts.buildings += buildings.size();
    }
    county.write_map(township);
    const TypedTable sources = first_sources(source_table(township, stamp), sources_per_township);
    lists.sources.header = sources.header;
    lists.sources.rows.insert(lists.sources.rows.end(), sources.rows.begin(), sources.rows.end());
    const int stations = std::max(plan.parcels / parcels_per_station, std::min(plan.townships, 3));
    if ((number + 1) * stations / plan.townships > number * stations / plan.townships) {
        lists.stations.rows.push_back(region_station(township, stamp));
        add_region_apparatus(lists.apparatus, lists.stations.rows.back().cells[0], stamp.seed);
    }
    lists.terrains[cell_of(plan, box, township.outline.middle())] = township.ground.terrain;
    counts.parcels += parcels.size();
    counts.roads += roads.size();
}

RegionCounts write_many(const RegionOrder& order) {
    const RegionPlan plan = plan_region(order.parcels, order.seed);
    const int rows = (plan.townships + plan.columns - 1) / plan.columns;
    Box box;
    box.include(township_order(plan, 0).outline.corners[0]);
    box.include(box.low + Point{plan.columns * plan.width, rows * plan.height});
    RegionLists lists;
    lists.stations.header = {"STATION", "NAME", "AID", "STAFFED", "TO_GATE"};
    lists.apparatus.header = apparatus_table({}).header;
    lists.terrains.resize(static_cast<std::size_t>(plan.columns * rows));
    RegionCounts counts;
    counts.townships = static_cast<std::size_t>(plan.townships);
    CountyFile county(order.folder / "county.gpkg",
                      {.indexed = false, .buildings = order.buildings, .need_in_parcels = true});
    for (int number = 0; number < plan.townships; ++number) {
        write_township(county, order, plan, number, box, lists, counts);
    }
    county.write_points("stations", lists.stations);
    county.close();
    write_csv(order.folder / "water_sources.csv", lists.sources, region_epsg);
    write_csv(order.folder / "apparatus.csv", lists.apparatus, 0);
    write_elevation(order.folder / "elevation.tif", box, region_raster_cell, region_epsg,
                    [&](Point p) { return lists.terrains[cell_of(plan, box, p)].elevation(p); });
    counts.sources = lists.sources.rows.size();
    counts.stations = lists.stations.rows.size();
    counts.tankers = tankers_in(lists.apparatus);
    return counts;
}

}  // namespace

RegionCounts write_region(const RegionOrder& order) {
    std::filesystem::create_directories(order.folder);
    const bool is_alone = order.parcels <= most_of_one_township;
    const RegionCounts counts = is_alone ? write_alone(order) : write_many(order);
    if (order.district_file) {
        write_text(order.folder / "district.toml", district_text(is_alone, order.buildings));
    }
    return counts;
}

}  // namespace farwater::sample
