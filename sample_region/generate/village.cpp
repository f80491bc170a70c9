#include "sample_region/generate/village.h"

#include <array>
#include <cmath>
#include <string>
#include <vector>

#include "sample_region/generate/random.h"

namespace farwater::sample {
namespace {

// x along the river, y away from it, metres from the village's centre.
constexpr std::array<Point, 29> corners{{
    {0, 0},       {-190, 8},   {-390, -6},   {-640, 0},   {185, -8},   // 0-4 Main Street
    {380, 6},     {640, 0},    {6, 150},     {-8, 302},   {4, 500},    // 5-9 north to the exit
    {-6, -130},   {0, -232},   {-195, 158},  {-385, 150}, {190, 146},  // 10-14
    {375, 152},   {-200, 305}, {195, 300},   {-400, 290}, {390, 310},  // 15-19
    {-185, -140}, {180, -138}, {-360, -128}, {350, -135}, {530, 165},  // 20-24
    {-545, 168},  {-120, 415}, {180, 420},   {500, -120},              // 25-28
}};

struct Street {
    const char* name;
    RoadKind kind;
    std::vector<int> way;
    std::size_t one_way_from = 0;  // steps from here ...
    std::size_t one_way_to = 0;    // ... to before here are one-way in the order written
};

// Main Street eastward and High Street westward are the one-way pair around the green.
const std::vector<Street>& streets() {
    static const std::vector<Street> all{
        {"Main Street", RoadKind::state, {3, 2, 1, 0, 4, 5, 6}, 2, 4},
        {"North Street", RoadKind::state, {0, 7, 8, 9}},
        {"Depot Street", RoadKind::state, {0, 10, 11}},
        {"High Street", RoadKind::street, {24, 15, 14, 7, 12, 13, 25}, 2, 4},
        {"Church Street", RoadKind::street, {18, 16, 8, 17, 19}},
        {"Mill Street", RoadKind::street, {22, 20, 10, 21, 23, 28}},
        {"Elm Street", RoadKind::street, {1, 12, 16}},
        {"School Street", RoadKind::street, {4, 14, 17}},
        {"Pine Street", RoadKind::street, {2, 13, 18}},
        {"Spring Street", RoadKind::street, {5, 15, 19}},
        {"Pleasant Street", RoadKind::street, {1, 20}},
        {"Foundry Street", RoadKind::street, {4, 21}},
        {"Water Street", RoadKind::street, {5, 23}},
        {"Cemetery Lane", RoadKind::paved_lane, {16, 26}},
        {"Hill Street", RoadKind::paved_lane, {17, 27}},
    };
    return all;
}

std::vector<int> place_corners(RoadPlan& plan, const VillageFrame& frame, Random random) {
    std::vector<int> nodes;
    for (const Point corner : corners) {
        const Point shaken = corner + Point{random.between(-9, 9), random.between(-9, 9)};
        nodes.push_back(plan.add_fixed(frame.at(shaken)));
    }
    return nodes;
}

}  // namespace

bool in_village(const VillageFrame& frame, Point p) {
    const Point local = frame.local(p);
    return std::abs(local.x) < 650 && local.y > -290 && local.y < 540;
}

VillageExits lay_village(RoadPlan& plan, const VillageFrame& frame, std::uint64_t tile_seed) {
    plan.block([&](Point p) { return in_village(frame, p); });
    const std::vector<int> nodes = place_corners(plan, frame, Random(mixed(tile_seed, 31U)));
    VillageExits exits{nodes[0], nodes[3], nodes[6], nodes[9], nodes[11], 0, 0};
    for (const Street& street : streets()) {
        const int route = plan.add_route(street.name, street.kind);
        for (std::size_t i = 1; i < street.way.size(); ++i) {
            const bool one_way = i > street.one_way_from && i <= street.one_way_to;
            plan.add_edge(nodes[static_cast<std::size_t>(street.way[i - 1])],
                          nodes[static_cast<std::size_t>(street.way[i])], route,
                          one_way ? OneWay::forward : OneWay::both);
        }
        exits.main_street = std::string(street.name) == "Main Street" ? route : exits.main_street;
        exits.north_street =
            std::string(street.name) == "North Street" ? route : exits.north_street;
    }
    plan.open_exit(exits.west, frame.at({-540, 0}));
    plan.open_exit(exits.east, frame.at({540, 0}));
    plan.open_exit(exits.north, frame.at({0, 400}));
    plan.open_exit(exits.south, frame.at({0, -130}));
    return exits;
}

}  // namespace farwater::sample
