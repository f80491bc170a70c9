// Very many sources ranked by one way: 20,000 against 2,000, on a million junctions, with the lists
// compared with those of full searches. A difference fails.
//   bench_dense_sources_bench [nodes]
#include <algorithm>
#include <cstdlib>
#include <string>

#include <fmt/format.h>

#include "routing/search/nearest_sources.h"
#include "routing/search/search.h"
#include "routing/search/spot_ends.h"
#include "tests/bench/support/measured.h"
#include "tests/bench/support/rural_network.h"

namespace {

using namespace farwater;
using namespace farwater::bench;
using namespace farwater::routing;

constexpr std::size_t most = 8;

// A full search from every source; what each place keeps.
std::vector<std::vector<NearSource>> full_lists(const RuralNetwork& roads,
                                                const std::vector<RoadSpot>& sources,
                                                const std::vector<RoadSpot>& places) {
    const SpotEnds ends = spot_ends(roads.network, places, roads.costs, roads.costs);
    Search search(roads.network.nodes.size());
    SpotTimes times(places.size());
    std::vector<std::vector<NearSource>> lists(places.size());
    for (std::uint32_t s = 0; s < sources.size(); ++s) {
        times.measure(roads.away(), sources[s], places, ends, twenty_minutes, search);
        search.clear();
        for (const std::uint32_t place : times.reached()) {
            std::vector<NearSource>& list = lists[place];
            list.push_back({times.cost(place), s});
            for (std::size_t i = list.size() - 1; i > 0 && list[i] < list[i - 1]; --i) {
                std::swap(list[i], list[i - 1]);
            }
            list.resize(std::min(list.size(), most));
        }
        times.clear();
    }
    return lists;
}

// Processor seconds of the ranking; 0 where the lists differ.
double ranked_seconds(const RuralNetwork& roads, std::size_t count,
                      const std::vector<RoadSpot>& places) {
    const std::vector<RoadSpot> sources = roads.random_spots(count, 2);
    Lists<NearSource> lists;
    const Seconds pruned = least_seconds(3, [&] {
        lists = nearest_sources(roads.away(), sources, places, most, twenty_minutes, Work{});
    });
    std::vector<std::vector<NearSource>> expected;
    const Seconds full = seconds_of([&] { expected = full_lists(roads, sources, places); });
    bool equal = true;
    for (std::size_t p = 0; p < places.size(); ++p) {
        equal &= std::ranges::equal(lists[p], expected[p]);
    }
    fmt::print("{:>8} {:>9.2f} {:>9.2f} {:>10.1f}  {}\n", count, pruned.cpu, full.cpu,
               static_cast<double>(lists.items.size()) / static_cast<double>(places.size()),
               equal ? "equal" : "DIFFERENT");
    return equal ? pruned.cpu : 0.0;
}

}  // namespace

int main(int argc, char** argv) {
    const std::size_t nodes = argc > 1 ? std::stoul(argv[1]) : 1'000'000;
    const RuralNetwork roads({nodes, 0, 0, 1});
    const std::vector<RoadSpot> places = roads.random_spots(nodes / 10, 3);
    fmt::print("{} junctions, {} places, {} nearest, cpu s\n", nodes, places.size(), most);
    fmt::print("{:>8} {:>9} {:>9} {:>10}  lists\n", "sources", "ranking", "in full", "kept");
    const double few = ranked_seconds(roads, 2'000, places);
    const double many = ranked_seconds(roads, 20'000, places);
    fmt::print("20,000 sources take {:.2f} of the time of 2,000 (goal: at most 4)\n", many / few);
    return few > 0.0 && many > 0.0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
