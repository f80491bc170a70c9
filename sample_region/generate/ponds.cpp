#include "sample_region/generate/ponds.h"

#include <algorithm>
#include <optional>

#include "sample_region/generate/random.h"
#include "sample_region/generate/village.h"
#include "sample_region/generate/wavy_ring.h"

namespace farwater::sample {
namespace {

constexpr double widest = 1.5;  // how far the waves of the shore reach, in radii
constexpr double far_from_roads = 10000;

class Digger {
public:
    Digger(const Township& township, const SegmentIndex& roads, std::uint64_t tile_seed,
           Names& names)
        : township_(township),
          roads_(roads),
          seed_(mixed(tile_seed, 82U)),
          random_(mixed(tile_seed, 81U)),
          names_(names) {}

    std::vector<Pond> dig() {
        const Box box = township_.outline.box();
        const double square_km = (box.high.x - box.low.x) * (box.high.y - box.low.y) / 1e6;
        const int beside_roads = std::max(3, static_cast<int>(square_km * 0.13));
        const int behind = std::max(3, static_cast<int>(square_km * 0.30));
        for (int attempt = 0; attempt < 40 * beside_roads && count() < beside_roads; ++attempt) {
            const double radius = random_.between(16, 52);
            if (const auto middle = beside_a_road(radius)) {
                try_at(*middle, radius);
            }
        }
        for (int attempt = 0; attempt < 40 * behind && count() < beside_roads + behind; ++attempt) {
            const Point middle{random_.between(box.low.x, box.high.x),
                               random_.between(box.low.y, box.high.y)};
            const double draw = random_.unit();
            try_at(middle, 9 + 95 * draw * draw * draw);
        }
        return std::move(ponds_);
    }

private:
    int count() const { return static_cast<int>(ponds_.size()); }

    std::optional<Point> beside_a_road(double radius) {
        const RoadLine& road = township_.roads[random_.index(township_.roads.size())];
        const double at = random_.unit() * metres_along(road.line);
        const double off = radius * widest + random_.between(8, 22);
        const double side = random_.chance(0.5) ? off : -off;
        const Station station = station_at(road.line, at);
        const RoadKind kind = township_.routes[static_cast<std::size_t>(road.route)].kind;
        if (kind == RoadKind::street || kind == RoadKind::narrow || kind == RoadKind::seasonal ||
            kind == RoadKind::gated) {
            return std::nullopt;
        }
        return station.place + left_of(station.direction) * side;
    }

    bool is_free(Point middle, double reach) const {
        const Terrain& terrain = township_.ground.terrain;
        if (township_.outline.inside_by(middle) < reach + 60 ||
            in_village(township_.ground.village, middle) ||
            metres_to_line(middle, terrain.river) < reach + 45 ||
            metres_to_line(middle, terrain.rail) < reach + 20 ||
            terrain.near_lake(middle, reach + 60) ||
            roads_.metres_to_nearest(middle, reach + 6) < reach + 6) {
            return false;
        }
        const bool too_near = std::ranges::any_of(ponds_, [&](const Pond& pond) {
            return metres_between(pond.middle, middle) < 2 * reach + 180;
        });
        return !too_near && std::ranges::none_of(township_.holdings, [&](const Holding& holding) {
            return stands_in(holding, middle, reach);
        });
    }

    static bool stands_in(const Holding& holding, Point middle, double reach) {
        if (holding.buildings.empty()) {
            return false;
        }
        const double near = metres_between(holding.house, middle);
        if (near > reach + holding.setback + 160) {
            return false;
        }
        return near < reach + 25 || metres_to_line(middle, holding.drive->line) < reach + 4 ||
               std::ranges::any_of(
                   holding.buildings,
                   [&](const Polyline& ring) {
                       return metres_between(middle_of(ring), middle) < reach + 40;
                   });
    }

    void try_at(Point middle, double radius) {
        if (!is_free(middle, radius * widest)) {
            return;
        }
        const Point axis = unit({random_.between(-1, 1), random_.between(-1, 1)});
        Pond pond;
        pond.middle = rounded(middle);
        const auto number = static_cast<std::uint64_t>(ponds_.size());
        for (const Point p : wavy_ring(middle, axis, radius, radius * random_.between(0.6, 1), 5,
                                       mixed(seed_, number))) {
            pond.shore.push_back(rounded(p));
        }
        pond.area = signed_area(pond.shore);
        find_landing(pond);
        pond.name = random_.chance(0.65) ? names_.word() + " Pond" : "";
        ponds_.push_back(pond);
    }

    void find_landing(Pond& pond) const {
        pond.metres_to_road = far_from_roads;
        for (const Point p : pond.shore) {
            const double off = roads_.metres_to_nearest(p, 400);
            if (off < std::min(pond.metres_to_road, 400.0)) {
                pond.metres_to_road = off;
                pond.landing = p;
            }
        }
    }

    const Township& township_;
    const SegmentIndex& roads_;
    std::uint64_t seed_;
    Random random_;
    Names& names_;
    std::vector<Pond> ponds_;
};

}  // namespace

std::vector<Pond> dig_ponds(const Township& township, const SegmentIndex& roads,
                            std::uint64_t tile_seed, Names& names) {
    return Digger(township, roads, tile_seed, names).dig();
}

}  // namespace farwater::sample
