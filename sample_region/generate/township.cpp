#include "sample_region/generate/township.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "sample_region/generate/cells.h"
#include "sample_region/generate/grouping.h"
#include "sample_region/generate/houses.h"
#include "sample_region/generate/names.h"
#include "sample_region/generate/ponds.h"
#include "sample_region/generate/random.h"
#include "sample_region/generate/town_roads.h"

namespace farwater::sample {
namespace {

// Sheets of a map drawn to and fro, so that neighbours in the file are neighbours on the ground.
constexpr double strip_height = 640;

// Smoothing moved the crossroads a little.
Point nearest_end(const std::vector<RoadLine>& roads, Point wanted) {
    Point best = wanted;
    double least = 150;
    for (const RoadLine& road : roads) {
        for (const Point end : {road.line.front(), road.line.back()}) {
            if (metres_between(end, wanted) < least) {
                least = metres_between(end, wanted);
                best = end;
            }
        }
    }
    return best;
}

void lay_out_roads(Township& township, const TownshipOrder& order, Names& names) {
    const TownRoads roads =
        lay_roads(township.outline, order.gates, township.ground, order.tile_seed, names);
    township.routes = roads.plan.routes();
    township.roads =
        draw_roads(roads.plan, township.ground.terrain, township.ground.village.centre);
    for (const Hamlet& hamlet : roads.hamlets) {
        const Point wanted = roads.plan.grid().place(hamlet.node);
        township.hamlets.push_back({hamlet.name, nearest_end(township.roads, wanted)});
    }
    township.lake_route = roads.lake_route;
    if (roads.lake_route >= 0) {
        const std::string& camp_road =
            roads.plan.routes()[static_cast<std::size_t>(roads.lake_route)].name;
        township.lake_name = camp_road.substr(0, camp_road.find(" Camp")) + " Lake";
    }
}

std::vector<Holding> holdings_of(const Grouping& grouping, std::vector<Polygons>& shapes,
                                 const std::vector<double>& cell_area) {
    const std::vector<std::int32_t> lot_of = grouping.lot_of();
    std::vector<Holding> all(grouping.plan().lots.size());
    std::vector<double> largest(all.size(), 0);
    for (std::size_t site = 0; site < lot_of.size(); ++site) {
        if (lot_of[site] < 0) {
            continue;
        }
        const auto lot = static_cast<std::size_t>(lot_of[site]);
        if (cell_area[site] > largest[lot]) {
            largest[lot] = cell_area[site];
            all[lot].inside = grouping.plan().sites[site].place;
        }
    }
    std::vector<Holding> holdings;
    for (std::size_t lot = 0; lot < all.size(); ++lot) {
        if (!shapes[lot].empty()) {
            all[lot].lot = grouping.plan().lots[lot];
            all[lot].shape = std::move(shapes[lot]);
            holdings.push_back(std::move(all[lot]));
        }
    }
    return holdings;
}

void sort_in_space(std::vector<Holding>& holdings, Point low) {
    const auto key = [&](const Holding& holding) {
        const double strip = std::floor((holding.inside.y - low.y) / strip_height);
        const bool back = static_cast<long>(strip) % 2 != 0;
        return std::pair(strip, back ? -holding.inside.x : holding.inside.x);
    };
    std::ranges::stable_sort(holdings,
                             [&](const Holding& a, const Holding& b) { return key(a) < key(b); });
}

void divide_land(Township& township, const TownshipOrder& order) {
    std::vector<Point> hamlets;
    for (const Place& hamlet : township.hamlets) {
        hamlets.push_back(hamlet.place);
    }
    const LotInput input{township.outline, township.ground, township.roads,
                         township.routes,  hamlets,         township.lake_route};
    LotPlan plan = plan_lots(input, order.tile_seed);
    std::vector<Point> sites;
    for (const Site& site : plan.sites) {
        sites.push_back(site.place);
    }
    const Cells cells = cut_into_cells(sites, township.outline.corners[0]);
    const std::vector<double> areas = cell_areas(cells, sites);
    Grouping grouping(input, std::move(plan), cells, areas, order.tile_seed);
    grouping.clean();
    grouping.bring_to(order.holdings);

    std::vector<std::int32_t> group = grouping.lot_of();
    std::vector<std::int32_t> everything;
    const auto lots = static_cast<std::int32_t>(grouping.plan().lots.size());
    for (std::int32_t& lot : group) {
        everything.push_back(lot == outside ? outside : 0);
        lot = lot == lake ? lots : lot;
    }
    std::vector<Polygons> shapes =
        dissolved(cells, group, static_cast<std::size_t>(lots) + 1, order.tolerance);
    township.lakes = std::move(shapes.back());
    township.town = dissolved(cells, everything, 1, 0)[0];
    township.holdings = holdings_of(grouping, shapes, areas);
    sort_in_space(township.holdings, township.outline.box().low);
}

}  // namespace

Township build_township(const TownshipOrder& order) {
    Township township;
    township.outline = order.outline;
    Names names(mixed(order.tile_seed, 91U));
    township.ground = lay_ground(order.outline, order.gates, order.region_seed, order.tile_seed);
    lay_out_roads(township, order, names);
    divide_land(township, order);
    SegmentIndex roads(township.outline.box(), 120);
    for (std::size_t i = 0; i < township.roads.size(); ++i) {
        roads.add(township.roads[i].line, static_cast<std::int32_t>(i));
    }
    settle(township, roads, order.tile_seed);
    township.ponds = dig_ponds(township, roads, order.tile_seed, names);
    return township;
}

}  // namespace farwater::sample
