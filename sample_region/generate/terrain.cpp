#include "sample_region/generate/terrain.h"

#include <algorithm>
#include <limits>

#include "sample_region/generate/noise.h"
#include "sample_region/generate/random.h"
#include "sample_region/generate/route_grid.h"
#include "sample_region/generate/wavy_ring.h"

namespace farwater::sample {
namespace {

constexpr double village_from_river = 390;
constexpr double rail_from_river = 95;
constexpr double rail_bridge_cost = 5000;  // metres of detour

// How far from its shore the ground slopes down to a lake, metres.
constexpr double lake_bowl = 500;

bool in_box(const Box& box, Point p, double reach) {
    return p.x >= box.low.x - reach && p.x <= box.high.x + reach && p.y >= box.low.y - reach &&
           p.y <= box.high.y + reach;
}

// Height over the valley floor, before the river cuts in.
double hills(std::uint64_t seed, Point p) {
    const double height = 105 + 150 * rough_noise(seed, p, 4200, 5);
    return std::max(height, 4.0);
}

// Falls gently to the east, with long waves.
double valley_floor(std::uint64_t seed, Point p) {
    return 180 + 40 * noise(mixed(seed, 77U), Point{p.x, 0}, 60000);
}

constexpr double river_clear_of_edge = 60;

// Adds a place that is linked to the grid places around it that lie well inside.
int gate_place(RouteGrid& grid, const Outline& outline, Point gate) {
    const int node = grid.add_place(gate);
    grid.each_near(grid.cell_of(gate), 2, [&](int near) {
        if (outline.inside_by(grid.place(near)) >= river_clear_of_edge) {
            grid.link(node, near);
        }
    });
    return node;
}

Polyline trace_river(const Outline& outline, const Gates& gates, std::uint64_t region_seed,
                     std::uint64_t tile_seed) {
    RouteGrid grid(outline.box(), 130, 0.3, mixed(tile_seed, 11U));
    const int west = gate_place(grid, outline, gates.river_west);
    const int east = gate_place(grid, outline, gates.river_east);
    const auto cost = [&](int from, int to) {
        const Point b = grid.place(to);
        if (to != east && outline.inside_by(b) < river_clear_of_edge) {
            return no_way;
        }
        const double high = hills(region_seed, b);
        return metres_between(grid.place(from), b) * (0.25 + high / 60 + (high / 90) * (high / 90));
    };
    const auto path = cheapest_path(grid, west, cost, [&](int node) { return node == east; });
    return smooth_line(grid, path, 1);
}

// Follows the river, on its north side wherever it can.
Polyline trace_rail(const Outline& outline, const Gates& gates, const Polyline& river,
                    std::uint64_t tile_seed) {
    RouteGrid grid(outline.box(), 90, 0.15, mixed(tile_seed, 12U));
    const int west = gate_place(grid, outline, gates.rail_west);
    const int east = gate_place(grid, outline, gates.rail_east);
    std::vector<double> off(static_cast<std::size_t>(grid.size()));
    for (int node = 0; node < grid.size(); ++node) {
        off[static_cast<std::size_t>(node)] = metres_to_line(grid.place(node), river);
    }
    const auto crosses = [&](Point a, Point b) {
        for (std::size_t i = 1; i < river.size(); ++i) {
            if (crossing(a, b, river[i - 1], river[i])) {
                return true;
            }
        }
        return false;
    };
    const auto cost = [&](int from, int to) {
        const double distance = off[static_cast<std::size_t>(to)];
        if (to != east && (distance < 40 || distance > 900 ||
                           outline.inside_by(grid.place(to)) < river_clear_of_edge)) {
            return no_way;
        }
        const double away = (distance - rail_from_river) / 60;
        const Point a = grid.place(from);
        const Point b = grid.place(to);
        const double bridge = distance < 200 && crosses(a, b) ? rail_bridge_cost : 0;
        return bridge + metres_between(a, b) * (1 + away * away);
    };
    const auto path = cheapest_path(grid, west, cost, [&](int node) { return node == east; });
    return smooth_line(grid, path, 4);
}

VillageFrame place_village(const Outline& outline, const Polyline& river, Random random) {
    const Point wanted = outline.south(random.between(0.42, 0.58));
    VillageFrame best;
    double best_badness = std::numeric_limits<double>::infinity();
    const double length = metres_along(river);
    for (double metres = 0; metres < length; metres += 60) {
        const Point before = station_at(river, std::max(0.0, metres - 450)).place;
        const Point after = station_at(river, std::min(length, metres + 450)).place;
        const Point here = station_at(river, metres).place;
        const Point along = unit(after - before);
        const double bend = std::abs(dot(here - before, left_of(along)));
        const double badness = std::abs(here.x - wanted.x) + 6 * bend;
        const Point centre = here + left_of(along) * village_from_river;
        if (badness < best_badness && outline.inside_by(centre) > 700) {
            best_badness = badness;
            best = {centre, along};
        }
    }
    if (best_badness == std::numeric_limits<double>::infinity()) {
        best = {outline.middle(), {1, 0}};
    }
    return best;
}

// Closed corner cutting, then points about 25 m apart.
Polyline shore_of(Polyline ring) {
    ring.push_back(ring.front());
    for (int round = 0; round < 2; ++round) {
        Polyline cut;
        for (std::size_t i = 1; i < ring.size(); ++i) {
            cut.push_back(ring[i - 1] + (ring[i] - ring[i - 1]) * 0.25);
            cut.push_back(ring[i - 1] + (ring[i] - ring[i - 1]) * 0.75);
        }
        cut.push_back(cut.front());
        ring = cut;
    }
    Polyline shore;
    const double length = metres_along(ring);
    const int points = std::max(12, static_cast<int>(length / 25));
    for (int i = 0; i < points; ++i) {
        shore.push_back(station_at(ring, length * i / points).place);
    }
    return shore;
}

void place_lake(Terrain& terrain, const Outline& outline, Point village, std::uint64_t tile_seed) {
    Random random(mixed(tile_seed, 13U));
    const Box box = outline.box();
    const double half_long = random.between(480, 800);
    const double half_short = half_long * random.between(0.4, 0.6);
    Point best;
    double best_height = std::numeric_limits<double>::infinity();
    for (int attempt = 0; attempt < 120; ++attempt) {
        const Point p{random.between(box.low.x, box.high.x), random.between(box.low.y, box.high.y)};
        const double height = hills(terrain.seed, p);
        if (outline.inside_by(p) > half_long * 1.4 + 350 &&
            metres_to_line(p, terrain.river) > half_long + 500 &&
            metres_between(p, village) > half_long + 1700 && height < best_height) {
            best = p;
            best_height = height;
        }
    }
    if (best_height < std::numeric_limits<double>::infinity()) {
        const Point axis = unit({random.between(-1, 1), random.between(-1, 1)});
        terrain.lakes.push_back(
            shore_of(wavy_ring(best, axis, half_long, half_short, 12, mixed(tile_seed, 14U))));
        const Terrain dry{terrain.seed, terrain.river, {}, {}, {}, {}};
        terrain.lake_levels.push_back(dry.elevation(best));
        terrain.lake_boxes.emplace_back();
        for (const Point p : terrain.lakes.back()) {
            terrain.lake_boxes.back().include(p);
        }
    }
}

}  // namespace

double Terrain::elevation(Point p) const {
    const double off = metres_to_line(p, river);
    const double cut = off * off / (off * off + 650.0 * 650.0);
    double height = valley_floor(seed, p) + 2 + hills(seed, p) * cut;
    for (std::size_t i = 0; i < lakes.size(); ++i) {
        if (in_box(lake_boxes[i], p, lake_bowl)) {
            const double from_shore = contains(lakes[i], p) ? 0 : metres_to_lake(p);
            const double share = std::min(1.0, from_shore / lake_bowl);
            height = lake_levels[i] + (height - lake_levels[i]) * share * (2 - share);
        }
    }
    return height;
}

bool Terrain::in_lake(Point p) const { return near_lake(p, 0); }

bool Terrain::near_lake(Point p, double reach) const {
    for (std::size_t i = 0; i < lakes.size(); ++i) {
        if (in_box(lake_boxes[i], p, reach) &&
            (contains(lakes[i], p) || (reach > 0 && metres_to_lake(p) < reach))) {
            return true;
        }
    }
    return false;
}

double Terrain::metres_to_lake(Point p) const {
    double best = std::numeric_limits<double>::infinity();
    for (const Polyline& shore : lakes) {
        best = std::min(best, metres_to_line(p, shore));
        best = std::min(best, metres_to_segment(p, shore.back(), shore.front()));
    }
    return best;
}

Ground lay_ground(const Outline& outline, const Gates& gates, std::uint64_t region_seed,
                  std::uint64_t tile_seed) {
    Ground ground;
    ground.terrain.seed = region_seed;
    ground.terrain.river = trace_river(outline, gates, region_seed, tile_seed);
    ground.terrain.rail = trace_rail(outline, gates, ground.terrain.river, tile_seed);
    ground.village = place_village(outline, ground.terrain.river, Random(mixed(tile_seed, 15U)));
    place_lake(ground.terrain, outline, ground.village.centre, tile_seed);
    return ground;
}

}  // namespace farwater::sample
