// On random small networks our times equal LEMON's; and a wrong time is found by both comparisons.
#include <random>

#include <catch2/catch.hpp>

#include "tests/reference/lemon_times.h"
#include "tests/reference/our_times.h"
#include "tests/reference/scipy_times.h"

using namespace farwater::reference;
using farwater::routing::Heading;

namespace {

// With loops, repeated arcs, arcs that cost nothing and nodes that nothing reaches.
StreetGraph random_streets(std::mt19937& random) {
    StreetGraph graph{1 + static_cast<std::uint32_t>(random() % 40), {}};
    for (std::size_t arcs = random() % 120; arcs > 0; --arcs) {
        graph.arcs.push_back({static_cast<std::uint32_t>(random() % graph.nodes),
                              static_cast<std::uint32_t>(random() % graph.nodes),
                              static_cast<std::int32_t>(random() % 50)});
    }
    return graph;
}

Sample every_node(const StreetGraph& graph) {
    Sample sample;
    for (std::uint32_t node = 0; node < graph.nodes; ++node) {
        sample.sources.push_back(node);
        sample.targets.push_back(node);
    }
    return sample;
}

}  // namespace

TEST_CASE("times on random networks equal LEMON's, both ways, with and without a limit") {
    for (unsigned seed = 1; seed <= 300; ++seed) {
        CAPTURE(seed);
        std::mt19937 random(seed);
        const StreetGraph graph = random_streets(random);
        const Sample all = every_node(graph);
        const auto limit = static_cast<std::int32_t>(random() % 150);
        const Streets streets(graph);
        const Times away = lemon_times(graph, all);
        const Times towards = lemon_times(turned_round(graph), all);
        for (const std::int32_t most : {limit, farwater::routing::most_cost}) {
            CHECK((our_times(streets, Heading::away, all, most) == within(away, most)));
            CHECK((our_times(streets, Heading::towards, all, most) == within(towards, most)));
        }
    }
}

TEST_CASE("SciPy's comparison passes equal times and finds one that differs") {
    if (!scipy_installed()) {
        return;
    }
    std::mt19937 random(7);
    const StreetGraph graph = random_streets(random);
    const Sample all = every_node(graph);
    Times times = lemon_times(graph, all);
    CHECK(compare_with_scipy(graph, all, times).equal);
    times.back() += 1;
    const Compared compared = compare_with_scipy(graph, all, times);
    CHECK_FALSE(compared.equal);
    CHECK_THAT(compared.said, Catch::Contains("1 differ"));
}
