// What a bounded search costs per label, that is per junction that a source reaches:
//   bench_search_bench curve [most nodes]     seconds at 10k, 100k, 1M and 5M junctions
//   bench_search_bench labels NODES           50 sources, for tests/bench/instructions_per_label
//   bench_search_bench edges NODES FILE       the network as CSV, and our seconds for 20 sources,
//                                             for tests/bench/against_pgrouting
// Networks are invented (support/rural_district.h), the limit is 20 minutes.
#include <algorithm>
#include <cstdlib>
#include <fstream>
#include <string>
#include <string_view>

#include <fmt/format.h>
#if __has_include(<valgrind/callgrind.h>)
#include <valgrind/callgrind.h>
#else
#define CALLGRIND_START_INSTRUMENTATION
#define CALLGRIND_STOP_INSTRUMENTATION
#endif

#include "routing/search/search.h"
#include "routing/search/spot_ends.h"
#include "tests/bench/support/measured.h"
#include "tests/bench/support/rural_network.h"

namespace {

using namespace farwater;
using namespace farwater::bench;
using namespace farwater::routing;

void start_at(const RuralNetwork& roads, RoadSpot spot, Search& search) {
    const Edge& edge = at(roads.network.edges, spot.edge);
    const EndCosts starts = end_costs(roads.network, roads.costs, spot, Heading::away);
    search.start(static_cast<std::uint32_t>(edge.from.position()), starts.from_end);
    search.start(static_cast<std::uint32_t>(edge.to.position()), starts.to_end);
}

// One search a source, as round trips do it; returns the labels.
std::size_t search_from(const RuralNetwork& roads, const std::vector<RoadSpot>& sources,
                        Search& search) {
    std::size_t labels = 0;
    for (const RoadSpot source : sources) {
        start_at(roads, source, search);
        search.run(roads.graph, twenty_minutes);
        labels += search.reached().size();
        search.clear();
    }
    return labels;
}

// The same with the times at so many spots along the roads.
std::size_t measure_from(const RuralNetwork& roads, const std::vector<RoadSpot>& sources,
                         const std::vector<RoadSpot>& spots, const SpotEnds& ends, SpotTimes& times,
                         Search& search) {
    std::size_t pairs = 0;
    for (const RoadSpot source : sources) {
        times.measure(roads.away(), source, spots, ends, twenty_minutes, search);
        search.clear();
        pairs += times.reached().size();
        times.clear();
    }
    return pairs;
}

void print_curve(std::size_t most_nodes) {
    fmt::print("{:>9} {:>9} {:>8} {:>8} {:>8} {:>9} {:>10} {:>7} {:>9}\n", "junctions", "roads",
               "network", "costs", "graph", "labels/", "ns a", "MiB", "MiB with");
    fmt::print("{:>9} {:>9} {:>8} {:>8} {:>8} {:>9} {:>10} {:>7} {:>9}\n", "", "", "us/node",
               "us/node", "us/node", "source", "label", "roads", "network");
    for (const std::size_t nodes : {10'000U, 100'000U, 1'000'000U, 5'000'000U}) {
        if (nodes > most_nodes) {
            continue;
        }
        const double before = resident_mib();
        District district = rural_district({nodes, 0, 0, 1});
        const double with_roads = resident_mib();
        const Profile profile{.name = "tanker"};
        RuralNetwork roads({4, 0, 0, 1});
        const double per_node = 1e6 / static_cast<double>(nodes);
        const Seconds network =
            seconds_of([&] { roads.network = build_network(district, Work{}).network; });
        const Seconds costs = seconds_of([&] {
            roads.costs = drive_costs(district, roads.network, profile, district.seasons.front(),
                                      Load::loaded);
        });
        const Seconds graph = seconds_of(
            [&] { roads.graph = search_graph(roads.network, roads.costs, Heading::away); });
        const auto sources = roads.random_spots(std::clamp<std::size_t>(nodes / 500, 50, 1000), 2);
        Search search(roads.network.nodes.size());
        std::size_t labels = 0;
        const Seconds searching =
            least_seconds(3, [&] { labels = search_from(roads, sources, search); });
        fmt::print("{:>9} {:>9} {:>8.2f} {:>8.3f} {:>8.3f} {:>9} {:>10.1f} {:>7.0f} {:>9.0f}\n",
                   roads.network.nodes.size(), roads.network.edges.size(), network.cpu * per_node,
                   costs.cpu * per_node, graph.cpu * per_node, labels / sources.size(),
                   searching.cpu * 1e9 / static_cast<double>(labels), with_roads - before,
                   resident_mib() - before);
    }
}

// Instruction counts start and stop here, so that only the searches are counted. The first number
// is labels, the second pairs of a source and one of as many spots as a tenth of the junctions.
void print_labels(std::size_t nodes, bool with_spots) {
    const RuralNetwork roads({nodes, 0, 0, 1});
    const std::vector<RoadSpot> sources = roads.random_spots(50, 2);
    const std::vector<RoadSpot> spots = roads.random_spots(nodes / 10, 3);
    const SpotEnds ends = spot_ends(roads.network, spots, roads.costs, roads.costs);
    Search search(roads.network.nodes.size());
    SpotTimes times(spots.size());
    const std::size_t labels = search_from(roads, sources, search);
    std::size_t counted = 0;
    CALLGRIND_START_INSTRUMENTATION;
    if (with_spots) {
        counted = measure_from(roads, sources, spots, ends, times, search);
    } else {
        counted = search_from(roads, sources, search);
    }
    CALLGRIND_STOP_INSTRUMENTATION;
    fmt::print("{} {}\n", labels, counted);
}

// "id,source,target,cost,reverse_cost" in tenths of a second, -1 where there is no way.
void write_edges(const RuralNetwork& roads, const std::string& path) {
    std::ofstream file(path);
    for (std::size_t e = 0; e < roads.network.edges.size(); ++e) {
        const Edge& edge = roads.network.edges[e];
        const auto cost = [&](bool as_drawn) {
            const std::int32_t known = roads.costs.of(EdgeIndex(e), as_drawn);
            return known == no_way ? -1 : known;
        };
        file << fmt::format("{},{},{},{},{}\n", e, edge.from.position(), edge.to.position(),
                            cost(true), cost(false));
    }
}

// Writes the edges and says the 20 junctions that are searched from, our wall seconds and labels.
void print_edges(std::size_t nodes, const std::string& path) {
    const RuralNetwork roads({nodes, 0, 0, 1});
    write_edges(roads, path);
    std::vector<std::uint32_t> starts;
    for (const RoadSpot spot : roads.random_spots(20, 2)) {
        starts.push_back(
            static_cast<std::uint32_t>(at(roads.network.edges, spot.edge).from.position()));
    }
    Search search(roads.network.nodes.size());
    std::size_t labels = 0;
    const Seconds ours = least_seconds(5, [&] {
        labels = 0;
        for (const std::uint32_t start : starts) {
            search.start(start, 0);
            search.run(roads.graph, twenty_minutes);
            labels += search.reached().size();
            search.clear();
        }
    });
    fmt::print("{:.6f} {} {}\n", ours.wall, labels, fmt::join(starts, ","));
}

}  // namespace

int main(int argc, char** argv) {
    const std::string_view what = argc > 1 ? argv[1] : "curve";
    const std::size_t nodes = argc > 2 ? std::stoul(argv[2]) : 1'000'000;
    if (what == "curve") {
        print_curve(nodes);
    } else if (what == "labels" || what == "pairs") {
        print_labels(nodes, what == "pairs");
    } else if (what == "edges" && argc == 4) {
        print_edges(nodes, argv[3]);
    } else {
        fmt::print("curve [most nodes], labels NODES, pairs NODES, or edges NODES FILE\n");
        return 2;
    }
    return EXIT_SUCCESS;
}
