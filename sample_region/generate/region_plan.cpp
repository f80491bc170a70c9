#include <algorithm>
#include <cmath>

#include "sample_region/generate/random.h"
#include "sample_region/generate/region.h"

namespace farwater::sample {
namespace {

constexpr double square_metres_per_parcel = 48000;  // about 12 acres, roads and woods included
constexpr double width_to_height = 1.2;
constexpr int parcels_per_township = 2500;

// Both stand in the open sea, so that no real place is meant.
constexpr Point alone_low{700000, 4360000};
constexpr Point region_low{380000, 3550000};

enum class Border : std::uint64_t { upright = 1, level = 2 };

// A share along a border; the same for both townships beside it.
double share_on(const RegionPlan& plan, Border border, int column, int row, std::uint64_t what,
                double low, double high) {
    const auto place =
        (static_cast<std::uint64_t>(column) << 32U) + static_cast<std::uint64_t>(row);
    const std::uint64_t bits =
        mixed(mixed(plan.seed, static_cast<std::uint64_t>(border)), place, what);
    return low + (high - low) * unit_of(bits);
}

// Town roads leave well away from the state road, on one side or the other.
double town_share(const RegionPlan& plan, Border border, int column, int row) {
    const bool upper = share_on(plan, border, column, row, 5, 0, 1) < 0.5;
    return share_on(plan, border, column, row, 6, upper ? 0.74 : 0.12, upper ? 0.88 : 0.26);
}

Gates gates_of(const RegionPlan& plan, const Outline& outline, int column, int row) {
    const double upright = plan.height;
    const auto west = [&](std::uint64_t what, double low, double high) {
        return share_on(plan, Border::upright, column, row, what, low, high);
    };
    const auto east = [&](std::uint64_t what, double low, double high) {
        return share_on(plan, Border::upright, column + 1, row, what, low, high);
    };
    Gates gates;
    const double state_west = west(1, 0.4, 0.6);
    const double state_east = east(1, 0.4, 0.6);
    const double river_west = state_west - west(2, 420, 620) / upright;
    const double river_east = state_east - east(2, 420, 620) / upright;
    gates.state_west = outline.west(state_west);
    gates.state_east = outline.east(state_east);
    gates.river_west = outline.west(river_west);
    gates.river_east = outline.east(river_east);
    gates.rail_west = outline.west(river_west + 130 / upright);
    gates.rail_east = outline.east(river_east + 130 / upright);
    gates.state_south = outline.south(share_on(plan, Border::level, column, row, 1, 0.42, 0.6));
    gates.state_north = outline.north(share_on(plan, Border::level, column, row + 1, 1, 0.42, 0.6));
    gates.town_west = outline.west(town_share(plan, Border::upright, column, row));
    gates.town_east = outline.east(town_share(plan, Border::upright, column + 1, row));
    gates.town_south = outline.south(town_share(plan, Border::level, column, row));
    gates.town_north = outline.north(town_share(plan, Border::level, column, row + 1));
    return gates;
}

}  // namespace

RegionPlan plan_region(int parcels, std::uint64_t seed) {
    RegionPlan plan;
    plan.parcels = parcels;
    plan.seed = seed;
    if (parcels > most_of_one_township) {
        plan.townships = (parcels + parcels_per_township / 2) / parcels_per_township;
        plan.columns = static_cast<int>(std::ceil(std::sqrt(static_cast<double>(plan.townships))));
    }
    const double area = square_metres_per_parcel * parcels / plan.townships;
    plan.width = std::max(4800.0, std::round(std::sqrt(area * width_to_height)));
    plan.height = std::max(4000.0, std::round(plan.width / width_to_height));
    return plan;
}

TownshipOrder township_order(const RegionPlan& plan, int number) {
    const int row = number / plan.columns;
    const int along = number % plan.columns;
    const int column = row % 2 == 0 ? along : plan.columns - 1 - along;
    const Point low = region_low + Point{column * plan.width, row * plan.height};
    TownshipOrder order;
    order.outline.corners = {low, low + Point{plan.width, 0}, low + Point{plan.width, plan.height},
                             low + Point{0, plan.height}};
    order.gates = gates_of(plan, order.outline, column, row);
    order.region_seed = plan.seed;
    order.tile_seed = mixed(plan.seed, 201U, static_cast<std::uint64_t>(number));
    const auto until = [&](std::int64_t count) {
        return static_cast<int>(count * plan.parcels / plan.townships);
    };
    order.holdings = until(number + 1) - until(number);
    order.tolerance = 1.5;
    return order;
}

TownshipOrder alone(int parcels, std::uint64_t seed) {
    const RegionPlan plan = plan_region(parcels, seed);
    const Point size{plan.width, plan.height};
    const auto corner = [&](double x, double y) {
        return rounded(alone_low + Point{x * size.x, y * size.y});
    };
    TownshipOrder order;
    order.outline.corners = {corner(0.0125, 0.042), corner(0.967, 0), corner(1.004, 0.975),
                             corner(0.035, 1.02)};
    order.gates = gates_of(plan, order.outline, 0, 0);
    order.region_seed = seed;
    order.tile_seed = mixed(seed, 201U);
    order.holdings = parcels - 1;
    return order;
}

}  // namespace farwater::sample
