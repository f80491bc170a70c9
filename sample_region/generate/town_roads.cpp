#include "sample_region/generate/town_roads.h"

#include <algorithm>
#include <limits>
#include <utility>

#include "sample_region/generate/random.h"

namespace farwater::sample {
namespace {

constexpr RouteTaste state_taste{.reuse = 0.5, .crossing_river = 900, .crowding = 1.2};
constexpr RouteTaste town_taste{.reuse = 0.3};
constexpr RouteTaste second_way{.crowding = 2.5, .may_reuse = false};

// The builder's state while the roads are laid.
struct Builder {
    const Outline& outline;
    const Gates& gates;
    const Ground& ground;
    Names& names;
    Random random;
    TownRoads roads;

    RoadPlan& plan() { return roads.plan; }
    Point place(int node) { return plan().grid().place(node); }
    double square_km() const {
        const Box box = outline.box();
        return (box.high.x - box.low.x) * (box.high.y - box.low.y) / 1e6;
    }
    template <class Goal>
    std::vector<int> way(int from, const RouteTaste& taste, Goal goal, double limit = no_way) {
        return cheapest_path(
            plan().grid(), from, [&](int a, int b) { return plan().step(a, b, taste); }, goal,
            limit);
    }
    std::vector<int> way_to(int from, int to, const RouteTaste& taste) {
        return way(from, taste, [to](int node) { return node == to; });
    }
    std::vector<int> way_to_road(int from, const RouteTaste& taste, double limit = no_way) {
        return way(from, taste, [&](int node) { return plan().is_road(node); }, limit);
    }
};

int add_gate(Builder& builder, Point gate) {
    const int node = builder.plan().add_fixed(gate);
    const Point inward = unit(builder.outline.middle() - gate);
    builder.plan().open_exit(node, gate - inward * 50);
    return node;
}

void lay_state_roads(Builder& builder) {
    RoadPlan& plan = builder.plan();
    const VillageExits& village = builder.roads.village;
    const int across = plan.add_route("State Route 417", RoadKind::state);
    const int upward = plan.add_route("State Route 62", RoadKind::state);
    const auto lay = [&](Point gate, int exit, int route) {
        plan.add_path(builder.way_to(add_gate(builder, gate), exit, state_taste), route);
    };
    lay(builder.gates.state_west, village.west, across);
    lay(builder.gates.state_east, village.east, across);
    lay(builder.gates.state_north, village.north, upward);
    lay(builder.gates.state_south, village.south, upward);
}

double metres_to_places(Builder& builder, Point p) {
    double best = metres_between(p, builder.ground.village.centre);
    for (const Hamlet& hamlet : builder.roads.hamlets) {
        best = std::min(best, metres_between(p, builder.place(hamlet.node)));
    }
    return best;
}

// The open place that is best for a hamlet: away from village and hamlets, low, and (if asked) on
// a road. -1 if there is none.
int hamlet_place(Builder& builder, bool on_road) {
    RoadPlan& plan = builder.plan();
    int best = -1;
    double best_badness = no_way;
    for (int node = 0; node < plan.grid().grid_size(); ++node) {
        const Point p = builder.place(node);
        const double apart = metres_to_places(builder, p);
        if (!plan.is_open(node) || plan.is_road(node) != on_road || apart < 2600 ||
            builder.outline.inside_by(p) < 900) {
            continue;
        }
        const double badness =
            plan.height(node) + std::abs(apart - 3300) / 20 + builder.random.between(0, 60);
        if (badness < best_badness) {
            best = node;
            best_badness = badness;
        }
    }
    return best;
}

// Short side streets around the crossroads.
void lay_hamlet_streets(Builder& builder, const Hamlet& hamlet) {
    const int wanted = builder.random.whole(2, 3);
    const std::string name = hamlet.name + (builder.random.chance(0.5) ? " Lane" : " Court");
    for (int i = 0; i < wanted; ++i) {
        std::vector<int> choices;
        builder.plan().grid().each_near(hamlet.node, 3, [&](int node) {
            const double off = metres_between(builder.place(node), builder.place(hamlet.node));
            if (builder.plan().is_open(node) && !builder.plan().is_road(node) && off > 180) {
                choices.push_back(node);
            }
        });
        if (choices.empty()) {
            return;
        }
        const int end = choices[builder.random.index(choices.size())];
        const int route = builder.plan().add_route(i == 0 ? name : builder.names.road("Street"),
                                                   RoadKind::paved_lane);
        builder.plan().add_path(builder.way_to_road(end, town_taste, 1200), route);
    }
}

void lay_hamlets(Builder& builder) {
    const int wanted = std::max(1, static_cast<int>(builder.square_km() / 28));
    for (int i = 0; i < wanted; ++i) {
        const bool on_road = i % 2 == 0;
        const int node = hamlet_place(builder, on_road);
        if (node < 0) {
            continue;
        }
        const Hamlet hamlet{builder.names.word(), node};
        if (!on_road) {
            const int route = builder.plan().add_route(hamlet.name + " Road", RoadKind::paved);
            builder.plan().add_path(builder.way_to_road(node, town_taste), route);
        }
        builder.roads.hamlets.push_back(hamlet);
    }
    for (const Hamlet& hamlet : builder.roads.hamlets) {
        lay_hamlet_streets(builder, hamlet);
    }
}

// From hamlet to hamlet, so that the town does not hang on the state roads alone.
void lay_cross_roads(Builder& builder) {
    const std::vector<Hamlet>& hamlets = builder.roads.hamlets;
    for (std::size_t i = 1; i < hamlets.size(); ++i) {
        std::size_t nearest = 0;
        double best = no_way;
        for (std::size_t k = 0; k < i; ++k) {
            const double off =
                metres_between(builder.place(hamlets[i].node), builder.place(hamlets[k].node));
            if (off < best) {
                best = off;
                nearest = k;
            }
        }
        const auto path = builder.way_to(hamlets[i].node, hamlets[nearest].node,
                                         {.reuse = 0.75, .crossing_river = 700, .crowding = 1.6});
        builder.plan().add_path(
            path, builder.plan().add_route(builder.names.road("Road"), RoadKind::paved));
    }
}

void lay_town_gates(Builder& builder) {
    const Gates& gates = builder.gates;
    for (const Point gate :
         {gates.town_west, gates.town_east, gates.town_south, gates.town_north}) {
        const int node = add_gate(builder, gate);
        const auto path = builder.way(node, town_taste, [&](int at) {
            return builder.plan().is_road(at) && builder.outline.inside_by(builder.place(at)) > 700;
        });
        builder.plan().add_path(
            path, builder.plan().add_route(builder.names.road("Road"), RoadKind::paved));
    }
}

// A road around part of the lake for the camps, reached by a town lane.
void lay_lake_road(Builder& builder) {
    RoadPlan& plan = builder.plan();
    std::vector<int> shore;
    for (int node = 0; node < plan.grid().grid_size(); ++node) {
        if (plan.is_open(node) && plan.metres_to_shore(node) < 130) {
            shore.push_back(node);
        }
    }
    if (shore.size() < 8) {
        return;
    }
    const int landing = shore[builder.random.index(shore.size())];
    const std::string lake_name = builder.names.word();
    plan.add_path(builder.way_to_road(landing, town_taste),
                  plan.add_route(lake_name + " Landing Road", RoadKind::paved_lane));
    builder.roads.lake_route = plan.add_route(lake_name + " Camp Road", RoadKind::private_road);
    RouteTaste taste = town_taste;
    taste.near_shore = 4;
    for (int i = 0; i < 3; ++i) {
        const int camp = shore[builder.random.index(shore.size())];
        if (!plan.is_road(camp)) {
            plan.add_path(builder.way_to_road(camp, taste, 4000), builder.roads.lake_route);
        }
    }
}

// One more way from `node` to a road far from where the first way ended. Empty if there is none.
std::vector<int> other_way(Builder& builder, int node, Point first_end, double limit) {
    return builder.way(
        node, second_way,
        [&](int at) {
            return builder.plan().is_road(at) &&
                   metres_between(builder.place(at), first_end) > 1300;
        },
        limit);
}

// The open place farthest from roads, a little by chance; -1 if all is near. `highland` > 0 looks
// for high ground.
int farthest_place(Builder& builder, int least_steps, double highland) {
    const std::vector<int> steps = builder.plan().steps_from_roads();
    int best = -1;
    double best_score = -1;
    for (int node = 0; node < builder.plan().grid().grid_size(); ++node) {
        const int away = steps[static_cast<std::size_t>(node)];
        if (away < least_steps || builder.outline.inside_by(builder.place(node)) < 450) {
            continue;
        }
        const double score = std::min(away, 14) * (1 + builder.random.between(-0.25, 0.25)) +
                             highland * builder.plan().height(node) + 1000;
        if (score > best_score) {
            best = node;
            best_score = score;
        }
    }
    return best;
}

// A road over `node` from one existing road to another. False (and nothing laid) if there is no
// second end.
bool lay_through(Builder& builder, int node, RoadKind kind, const std::string& name) {
    const auto first = builder.way_to_road(node, town_taste);
    if (first.empty()) {
        return false;
    }
    const auto second = other_way(builder, node, builder.place(first.back()), 9000);
    if (second.empty()) {
        return false;
    }
    const int route = builder.plan().add_route(name, kind);
    builder.plan().add_path(first, route);
    builder.plan().add_path(second, route);
    return true;
}

void lay_special_roads(Builder& builder) {
    const int pass = farthest_place(builder, 6, 0.05);
    if (pass >= 0) {
        lay_through(builder, pass, RoadKind::seasonal, builder.names.road("Mountain Road"));
    }
    const int works = farthest_place(builder, 5, 0);
    if (works >= 0) {
        lay_through(builder, works, RoadKind::gated, builder.names.road("Reservoir Road"));
    }
}

// Gravel to wherever the town is still far from a road; about half of it goes through.
void lay_gravel(Builder& builder) {
    const int wanted = static_cast<int>(builder.square_km() * 0.27);
    for (int i = 0; i < wanted; ++i) {
        const int node = farthest_place(builder, 6, -0.012);
        if (node < 0) {
            return;
        }
        const RoadKind kind = builder.random.chance(0.25) ? RoadKind::paved : RoadKind::gravel;
        const std::string name =
            builder.names.road(builder.random.chance(0.3) ? "Hill Road" : "Road");
        if (!builder.random.chance(0.62) || !lay_through(builder, node, kind, name)) {
            const auto path = builder.way_to_road(node, town_taste);
            if (!path.empty()) {
                builder.plan().add_path(path, builder.plan().add_route(name, kind));
            }
        }
    }
}

// Dead-end lanes: narrow public ones and private ones.
void lay_lanes(Builder& builder) {
    const int wanted = static_cast<int>(builder.square_km() * 0.30);
    for (int i = 0; i < wanted; ++i) {
        const std::vector<int> steps = builder.plan().steps_from_roads();
        std::vector<int> choices;
        for (int node = 0; node < builder.plan().grid().grid_size(); ++node) {
            const int away = steps[static_cast<std::size_t>(node)];
            if (away >= 3 && away <= 7 && builder.outline.inside_by(builder.place(node)) > 300) {
                choices.push_back(node);
            }
        }
        if (choices.empty()) {
            return;
        }
        const auto path =
            builder.way_to_road(choices[builder.random.index(choices.size())], town_taste, 2600);
        const bool is_private = builder.random.chance(0.4);
        const std::string name = builder.names.road(is_private ? "Way" : "Lane");
        builder.plan().add_path(
            path,
            builder.plan().add_route(name, is_private ? RoadKind::private_road : RoadKind::narrow));
    }
}

}  // namespace

TownRoads lay_roads(const Outline& outline, const Gates& gates, const Ground& ground,
                    std::uint64_t tile_seed, Names& names) {
    Builder builder{outline,
                    gates,
                    ground,
                    names,
                    Random(mixed(tile_seed, 41U)),
                    {RoadPlan(outline, ground, tile_seed), {}, {}, -1}};
    builder.roads.village = lay_village(builder.plan(), ground.village, tile_seed);
    lay_state_roads(builder);
    lay_hamlets(builder);
    lay_town_gates(builder);
    lay_cross_roads(builder);
    lay_lake_road(builder);
    lay_special_roads(builder);
    lay_gravel(builder);
    lay_lanes(builder);
    return std::move(builder.roads);
}

}  // namespace farwater::sample
