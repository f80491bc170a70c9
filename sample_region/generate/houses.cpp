#include "sample_region/generate/houses.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "sample_region/generate/random.h"
#include "sample_region/generate/uses.h"

namespace farwater::sample {
namespace {

constexpr double clear_of_road = 7;
constexpr double house_clear_of_river = 35;
constexpr double house_clear_of_rail = 18;
constexpr double longest_drive = 700;

struct Footprint {
    double width, depth;  // along and away from the road, metres
    bool winged;          // an L instead of a rectangle
};

Footprint footprint(Use use, Random& random) {
    switch (use) {
        case Use::store:
            return {random.between(14, 24), random.between(14, 22), random.chance(0.4)};
        case Use::public_building:
            return {random.between(18, 30), random.between(15, 22), true};
        case Use::mill:
            return {random.between(45, 60), random.between(22, 28), true};
        case Use::camp:
            return {random.between(7, 10), random.between(6, 8), false};
        case Use::vacant:
        case Use::forest:
        case Use::dwelling:
        case Use::farm:
            break;
    }
    return {random.between(10, 16), random.between(8, 11), random.chance(0.45)};
}

// Anticlockwise; `ahead` points away from the road.
Polyline building_ring(Point middle, Point ahead, const Footprint& size) {
    const Point side = left_of(ahead) * -1;
    const double w = size.width / 2;
    const double d = size.depth / 2;
    std::vector<Point> local{{-w, -d}, {w, -d}, {w, d}, {-w, d}};
    if (size.winged) {
        local = {{-w, -d}, {w, -d}, {w, 0}, {0.1 * w, 0}, {0.1 * w, d}, {-w, d}};
    }
    Polyline ring;
    for (const Point p : local) {
        ring.push_back(rounded(middle + side * p.x + ahead * p.y));
    }
    return ring;
}

class Settler {
public:
    Settler(Township& township, const SegmentIndex& roads, std::uint64_t tile_seed)
        : township_(township), roads_(roads), random_(mixed(tile_seed, 71U)) {}

    void settle() {
        const std::size_t mill = mill_site();
        for (std::size_t i = 0; i < township_.holdings.size(); ++i) {
            Holding& holding = township_.holdings[i];
            holding.use = i == mill ? Use::mill
                                    : use_of(holding.lot, kind_of(holding.lot),
                                             from_centre(holding), random_);
            if (holding.use != Use::vacant && holding.use != Use::forest) {
                build(holding);
            }
            holding.needed_gpm = needed_gpm(holding, random_);
            give_address(holding);
        }
    }

private:
    const RoadLine* road_of(const Lot& lot) const {
        return lot.road < 0 ? nullptr : &township_.roads[static_cast<std::size_t>(lot.road)];
    }
    RoadKind kind_of(const Lot& lot) const {
        const RoadLine* road = road_of(lot);
        return road == nullptr ? RoadKind::gravel
                               : township_.routes[static_cast<std::size_t>(road->route)].kind;
    }

    double from_centre(const Holding& holding) const {
        return metres_between(holding.inside, township_.ground.village.centre);
    }

    // The largest lot of the village's river side.
    std::size_t mill_site() const {
        std::size_t best = township_.holdings.size();
        double largest = 0;
        for (std::size_t i = 0; i < township_.holdings.size(); ++i) {
            const Holding& holding = township_.holdings[i];
            const double y = township_.ground.village.local(holding.inside).y;
            const double size = area(holding.shape);
            if (holding.lot.kind == LotKind::village && y < -150 && size > largest) {
                best = i;
                largest = size;
            }
        }
        return best;
    }

    // All corners on the holding, clear of roads, water and the railway.
    bool fits(const Holding& holding, const Polyline& ring) const {
        const Terrain& terrain = township_.ground.terrain;
        const Point middle = middle_of(ring);
        return std::ranges::all_of(ring,
                                   [&](Point p) {
                                       return contains(holding.shape, p) &&
                                              roads_.metres_to_nearest(p, 12) >= clear_of_road;
                                   }) &&
               metres_to_line(middle, terrain.river) > house_clear_of_river &&
               metres_to_line(middle, terrain.rail) > house_clear_of_rail;
    }

    // The first size, from full down, that fits around `middle`.
    std::optional<Polyline> fitted(const Holding& holding, Point middle, Point ahead,
                                   Footprint size) const {
        for (int attempt = 0; attempt < 3; ++attempt) {
            Polyline ring = building_ring(middle, ahead, size);
            if (fits(holding, ring)) {
                return ring;
            }
            size = {size.width * 0.75, size.depth * 0.75, false};
        }
        return std::nullopt;
    }

    double wanted_setback(const Holding& holding) {
        const double draw = random_.unit();
        switch (holding.lot.kind) {
            case LotKind::village:
                return random_.between(12, 20);
            case LotKind::hamlet:
            case LotKind::camp:
                return random_.between(14, 40);
            case LotKind::farm:
                return random_.between(35, 110);
            case LotKind::roadside:
            case LotKind::back:
                break;
        }
        const auto [nearest, farthest] = choose<std::pair<double, double>>(
            draw, {{0.5, {18, 45}}, {0.85, {45, 100}}, {1, {100, 190}}});
        return random_.between(nearest, farthest);
    }

    void build(Holding& holding) {
        const Footprint size = footprint(holding.use, random_);
        if (holding.lot.road >= 0 && build_along_road(holding, size)) {
            build_barns(holding);
        } else {
            build_deep(holding, size);
        }
    }

    bool build_along_road(Holding& holding, const Footprint& size) {
        const RoadLine& road = *road_of(holding.lot);
        const double setback = wanted_setback(holding);
        for (const double share : {0.5, 0.35, 0.65, 0.2, 0.8}) {
            const double at = holding.lot.from + (holding.lot.to - holding.lot.from) * share;
            const Station station = station_at(road.line, at);
            const Point ahead = left_of(station.direction) * (holding.lot.on_left ? 1.0 : -1.0);
            for (const double off : {setback, setback * 0.6 + 6, 16.0, 12.0}) {
                const Point middle = station.place + ahead * (off + size.depth / 2);
                if (auto ring = fitted(holding, middle, ahead, size)) {
                    finish(holding, std::move(*ring), at, holding.lot.road);
                    return true;
                }
            }
        }
        return false;
    }

    // For land without frontage, or whose frontage is no place to build: inside, with a long drive.
    void build_deep(Holding& holding, const Footprint& size) {
        double best = longest_drive;
        const Segment* nearest = nullptr;
        roads_.each_near(holding.inside, longest_drive, [&](const Segment& segment) {
            const double off = metres_to_segment(holding.inside, segment.a, segment.b);
            if (off < best) {
                best = off;
                nearest = &segment;
            }
        });
        if (nearest == nullptr) {
            holding.use = Use::forest;
            return;
        }
        const RoadLine& road = township_.roads[static_cast<std::size_t>(nearest->line)];
        const double at = station_of(road.line, holding.inside);
        const Point ahead = unit(holding.inside - station_at(road.line, at).place);
        if (auto ring = fitted(holding, holding.inside, ahead, size)) {
            finish(holding, std::move(*ring), at, nearest->line);
        } else {
            holding.use = Use::vacant;
        }
    }

    // Metres along the line to its point nearest to p.
    static double station_of(const Polyline& line, Point p) {
        double before = 0;
        double best = longest_drive * 4;
        double station = 0;
        for (std::size_t i = 1; i < line.size(); ++i) {
            const Point along = line[i] - line[i - 1];
            const double length = norm(along);
            const double share =
                std::clamp(dot(p - line[i - 1], along) / (length * length), 0.0, 1.0);
            const double off = metres_between(p, line[i - 1] + along * share);
            if (off < best) {
                best = off;
                station = before + length * share;
            }
            before += length;
        }
        return station;
    }

    void finish(Holding& holding, Polyline ring, double at, std::int32_t road) {
        const Polyline& line = township_.roads[static_cast<std::size_t>(road)].line;
        const Point gate = rounded(station_at(line, at).place);
        holding.house = rounded(middle_of(ring));
        holding.buildings.push_back(std::move(ring));
        holding.setback = metres_between(gate, holding.house);
        Drive drive{road, at, {gate}};
        const Point way = holding.house - gate;
        if (holding.setback > 60) {
            const Point bend = left_of(way) * random_.between(-0.08, 0.08);
            drive.line.push_back(gate + way * 0.35 + bend);
            drive.line.push_back(gate + way * 0.65 + bend);
        }
        drive.line.push_back(holding.house);
        drive.line = with_cut_corners(drive.line);
        for (Point& p : drive.line) {
            p = rounded(p);
        }
        holding.drive = std::move(drive);
    }

    void build_barns(Holding& holding) {
        if (holding.use != Use::farm || !holding.drive) {
            return;
        }
        const Polyline& drive = holding.drive->line;
        const Point ahead = unit(holding.house - drive.front());
        const int barns = random_.whole(1, 3);
        for (int i = 0; i < barns; ++i) {
            const Point aside = left_of(ahead) * random_.between(-45, 45);
            const Point middle =
                holding.house + ahead * random_.between(28 + 30.0 * i, 40 + 30.0 * i) + aside;
            const Footprint size{random_.between(12, 18), random_.between(24, 36), false};
            if (auto ring = fitted(holding, middle, ahead, size)) {
                holding.buildings.push_back(std::move(*ring));
            }
        }
    }

    // Numbers rise by 2 every 10 m from the beginning of the route, even on its right side.
    void give_address(Holding& holding) const {
        const std::int32_t line = holding.drive ? holding.drive->road : holding.lot.road;
        if (line < 0) {
            return;
        }
        const RoadLine& road = township_.roads[static_cast<std::size_t>(line)];
        const double at =
            holding.drive ? holding.drive->station : (holding.lot.from + holding.lot.to) / 2;
        const double length = metres_along(road.line);
        const double reached =
            road.address_start + (road.address_end - road.address_start) * at / length;
        const bool rising = road.address_end >= road.address_start;
        const Station station = station_at(road.line, at);
        const bool left = cross(station.direction, holding.inside - station.place) > 0;
        holding.route = road.route;
        holding.house_number = 2 * (1 + static_cast<int>(reached / 10)) + (left == rising ? 1 : 0);
    }

    Township& township_;
    const SegmentIndex& roads_;
    Random random_;
};

}  // namespace

void settle(Township& township, const SegmentIndex& roads, std::uint64_t tile_seed) {
    Settler(township, roads, tile_seed).settle();
}

}  // namespace farwater::sample
