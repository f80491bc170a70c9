#include "sample_region/generate/lots.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <utility>

#include "sample_region/generate/random.h"
#include "sample_region/generate/segment_index.h"
#include "sample_region/generate/site_index.h"
#include "sample_region/generate/village.h"

namespace farwater::sample {
namespace {

// How land along a road is cut up. Rows are the distances of the sites from the road.
struct Pattern {
    LotKind kind;
    double spacing;
    std::array<double, 4> rows;
    int row_count;
};
constexpr Pattern village_pattern{LotKind::village, 26, {13, 40, 0, 0}, 2};
constexpr Pattern hamlet_pattern{LotKind::hamlet, 36, {18, 56, 98, 0}, 3};
constexpr Pattern camp_pattern{LotKind::camp, 32, {16, 48, 84, 0}, 3};
constexpr Pattern rural_pattern{LotKind::roadside, 48, {24, 74, 128, 192}, 4};

constexpr double back_spacing = 96;
constexpr double range_width = 820;  // the old survey's ranges of back land
constexpr double range_height = 500;
constexpr double shore_step = 12;     // sites on both sides of the shore
constexpr double mirror_depth = 260;  // more than the widest cell

// One pair of sites' place along a road.
struct LotColumn {
    double station;
    Point place, normal;  // the normal points left
    const Pattern* pattern;
    std::array<std::int32_t, 2> lots{undecided, undecided};  // right, left
    std::array<int, 2> rows{0, 0};
};

const Pattern& pattern_at(const LotInput& input, const RoadLine& road, Point p) {
    if (in_village(input.ground.village, p)) {
        return village_pattern;
    }
    for (const Point hamlet : input.hamlets) {
        if (metres_between(hamlet, p) < 420) {
            return hamlet_pattern;
        }
    }
    return road.route == input.lake_route ? camp_pattern : rural_pattern;
}

std::vector<LotColumn> columns_along(const LotInput& input, const RoadLine& road) {
    std::vector<LotColumn> columns;
    const double length = metres_along(road.line);
    double station = 0;
    while (true) {
        const Pattern& pattern = pattern_at(input, road, station_at(road.line, station).place);
        const double half = pattern.spacing / 2;
        if (station + pattern.spacing > length + half * 0.6) {
            return columns;
        }
        const double at = std::min(station + half, length);
        const Point before = station_at(road.line, at - half).place;
        const Point after = station_at(road.line, at + half).place;
        columns.push_back(
            {at, station_at(road.line, at).place, left_of(unit(after - before)), &pattern});
        station += pattern.spacing;
    }
}

int lot_columns(LotKind kind, RoadKind road, Random& random) {
    const double draw = random.unit();
    switch (kind) {
        case LotKind::village:
            return choose<int>(draw, {{0.74, 1}, {0.95, 2}, {1, 3}});
        case LotKind::hamlet:
        case LotKind::camp:
            return choose<int>(draw, {{0.55, 1}, {0.9, 2}, {1, 3}});
        case LotKind::farm:
            return random.whole(8, 13);
        case LotKind::roadside:
        case LotKind::back:
            break;
    }
    if (road == RoadKind::seasonal || road == RoadKind::gated) {
        return random.whole(4, 9);
    }
    const int few = choose<int>(draw, {{0.10, 1}, {0.36, 2}, {0.66, 3}, {0.84, 4}, {1, 0}});
    return few > 0 ? few : random.whole(5, 8);
}

bool suits_farms(RoadKind kind) {
    return kind == RoadKind::state || kind == RoadKind::paved || kind == RoadKind::gravel;
}

// Groups the columns of one side into lots.
void assign_side(std::vector<Lot>& lots, std::vector<LotColumn>& columns, std::size_t side,
                 std::int32_t road, RoadKind road_kind, Random& random) {
    for (std::size_t first = 0; first < columns.size();) {
        LotKind kind = columns[first].pattern->kind;
        if (kind == LotKind::roadside && suits_farms(road_kind) && random.chance(0.045)) {
            kind = LotKind::farm;
        }
        const auto wanted = static_cast<std::size_t>(lot_columns(kind, road_kind, random));
        const int most_rows = columns[first].pattern->row_count;
        const int rows = kind == LotKind::farm ? most_rows : random.whole(2, most_rows);
        std::size_t last = first;
        while (last < columns.size() && last - first < wanted &&
               columns[last].pattern == columns[first].pattern) {
            columns[last].lots[side] = static_cast<std::int32_t>(lots.size());
            columns[last].rows[side] = rows;
            ++last;
        }
        const double half = columns[first].pattern->spacing / 2;
        lots.push_back({kind, road, side == 1, columns[first].station - half,
                        columns[last - 1].station + half, static_cast<int>(last - first)});
        first = last;
    }
}

class Planner {
public:
    Planner(const LotInput& input, std::uint64_t tile_seed)
        : input_(input),
          random_(mixed(tile_seed, 51U)),
          roads_(input.outline.box(), 120),
          near_(input.outline.box(), 100) {
        for (std::size_t i = 0; i < input.roads.size(); ++i) {
            roads_.add(input.roads[i].line, static_cast<std::int32_t>(i));
        }
        axis_ = unit({1, random_.between(-0.35, 0.35)});
    }

    LotPlan plan() {
        add_water();
        std::vector<std::vector<LotColumn>> columns;
        for (std::size_t i = 0; i < input_.roads.size(); ++i) {
            columns.push_back(columns_along(input_, input_.roads[i]));
            const auto route = static_cast<std::size_t>(input_.roads[i].route);
            for (const std::size_t side : {0U, 1U}) {
                assign_side(plan_.lots, columns.back(), side, static_cast<std::int32_t>(i),
                            input_.routes[route].kind, random_);
            }
        }
        for (std::size_t row = 0; row < 4; ++row) {
            for (const std::vector<LotColumn>& road : columns) {
                add_row(road, row);
            }
        }
        add_back_land();
        add_mirror_images();
        return std::move(plan_);
    }

private:
    bool is_dry(Point p) const { return !input_.ground.terrain.near_lake(p, shore_step + 3); }

    void add(Site site) {
        site.place = rounded(site.place);
        near_.add(site.place);
        plan_.sites.push_back(site);
    }

    void add_water() {
        for (const Polyline& shore : input_.ground.terrain.lakes) {
            for (std::size_t i = 0; i < shore.size(); ++i) {
                const Point before = shore[(i + shore.size() - 1) % shore.size()];
                const Point out =
                    left_of(unit(shore[(i + 1) % shore.size()] - before)) * -shore_step;
                if (!near_.any_within(shore[i] - out, 15) &&
                    !near_.any_within(shore[i] + out, 15)) {
                    add({shore[i] - out, lake});
                    add({shore[i] + out, undecided});
                }
            }
            each_back_place([&](Point p) {
                if (contains(shore, p) && !near_.any_within(p, 40)) {
                    add({p, lake});
                }
            });
        }
    }

    void add_row(const std::vector<LotColumn>& columns, std::size_t row) {
        for (const LotColumn& column : columns) {
            if (static_cast<int>(row) < column.pattern->row_count) {
                add_site(column, row, 0);
                add_site(column, row, 1);
            }
        }
    }

    // On the right (0) or left (1) side of the road, unless something is there already.
    void add_site(const LotColumn& column, std::size_t row, std::size_t side) {
        const double off = column.pattern->rows[row];
        const double apart = column.pattern->spacing * (row == 0 ? 0.5 : 0.62);
        const Point p = column.place + column.normal * (side == 1 ? off : -off);
        if (input_.outline.inside_by(p) < 6 || near_.any_within(p, apart) ||
            roads_.metres_to_nearest(p, off) < off * 0.8 || !is_dry(p)) {
            return;
        }
        const bool used = static_cast<int>(row) < column.rows[side];
        add({p, used ? column.lots[side] : back_lot(p), column.station, row == 0});
    }

    // The survey lot of back land around p; new ones are made as they are met.
    std::int32_t back_lot(Point p) {
        const Point local{dot(p, axis_), dot(p, left_of(axis_))};
        const double range = std::floor(local.x / range_width);
        const auto shift =
            unit_of(mixed(7U, static_cast<std::uint64_t>(static_cast<std::int64_t>(range))));
        const double lot = std::floor(local.y / range_height + shift);
        const bool east_half = local.x - range * range_width > range_width / 2;
        const auto key = mixed(static_cast<std::uint64_t>(static_cast<std::int64_t>(range)),
                               static_cast<std::uint64_t>(static_cast<std::int64_t>(lot)));
        const bool halved = unit_of(key) < 0.55;
        const auto [found, is_new] = back_lots_.try_emplace(
            {range, lot, halved && east_half}, static_cast<std::int32_t>(plan_.lots.size()));
        if (is_new) {
            plan_.lots.push_back({});
        }
        return found->second;
    }

    template <class Visit>
    void each_back_place(Visit visit) const {
        const Box box = input_.outline.box();
        const Point middle = input_.outline.middle();
        const double reach = norm(box.high - box.low) / 2;
        const int steps = static_cast<int>(reach / back_spacing);
        for (int row = -steps; row <= steps; ++row) {
            for (int column = -steps; column <= steps; ++column) {
                visit(middle + axis_ * (column * back_spacing) +
                      left_of(axis_) * (row * back_spacing));
            }
        }
    }

    void add_back_land() {
        each_back_place([&](Point p) {
            if (input_.outline.inside_by(p) > 12 && !near_.any_within(p, 62) &&
                roads_.metres_to_nearest(p, 40) >= 40 && is_dry(p)) {
                add({p, back_lot(p)});
            }
        });
    }

    void add_mirror_images() {
        const std::size_t inside = plan_.sites.size();
        const auto& corners = input_.outline.corners;
        for (std::size_t side = 0; side < corners.size(); ++side) {
            const Point along = unit(corners[(side + 1) % 4] - corners[side]);
            for (std::size_t i = 0; i < inside; ++i) {
                const double off = cross(along, plan_.sites[i].place - corners[side]);
                if (off < mirror_depth) {
                    const Point image = plan_.sites[i].place - left_of(along) * (2 * off);
                    plan_.sites.push_back({rounded(image), outside});
                }
            }
        }
    }

    const LotInput& input_;
    Random random_;
    SegmentIndex roads_;
    SiteIndex near_;
    Point axis_;
    LotPlan plan_;
    std::map<std::tuple<double, double, bool>, std::int32_t> back_lots_;
};

}  // namespace

LotPlan plan_lots(const LotInput& input, std::uint64_t tile_seed) {
    return Planner(input, tile_seed).plan();
}

}  // namespace farwater::sample
