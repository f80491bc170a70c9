// The routing stage on a million junctions, a million parcels and 2,000 sources, 20 minutes: every
// step with one thread and with two, and its peak memory over the loaded network. Results of one
// thread and of two that differ fail.
//   bench_routing_stage_bench [nodes] [parcels] [sources]
#include <algorithm>
#include <cstdlib>
#include <string>

#include <fmt/format.h>

#include "routing/access.h"
#include "routing/drive_times.h"
#include "routing/dump_sites.h"
#include "tests/bench/support/measured.h"
#include "tests/bench/support/rural_network.h"

namespace {

using namespace farwater;
using namespace farwater::bench;
using namespace farwater::routing;

Work with_threads(unsigned threads) {
    Work work;
    work.threads = threads;
    return work;
}

std::vector<FillSitePlace> fill_sites_of(const District& district) {
    std::vector<FillSitePlace> fill_sites;
    for (std::size_t s = 0; s < district.sources.size(); ++s) {
        fill_sites.push_back(
            {SourceIndex(s), district.sources[s].place, static_cast<std::uint8_t>(s % 3)});
    }
    return fill_sites;
}

bool equal_trips(const RoundTrips& a, const RoundTrips& b) {
    return a.fill_trips.begin == b.fill_trips.begin &&
           std::ranges::equal(
               a.fill_trips.items, b.fill_trips.items, [](const FillTrip& x, const FillTrip& y) {
                   return x.fill_site == y.fill_site && x.legs[0].loaded == y.legs[0].loaded &&
                          x.legs[1].loaded == y.legs[1].loaded &&
                          x.legs[1].empty == y.legs[1].empty;
               });
}

void print(const char* what, Seconds one, Seconds two) {
    fmt::print("{:<16} {:8.2f} {:8.2f} {:8.2f} {:8.2f}\n", what, one.cpu, one.wall, two.wall,
               two.wall / one.wall);
}

struct Stage {
    AccessResult access;
    DumpSites dump_sites;
    RoundTrips trips;
};

}  // namespace

int main(int argc, char** argv) {
    const std::size_t nodes = argc > 1 ? std::stoul(argv[1]) : 1'000'000;
    const std::size_t parcels = argc > 2 ? std::stoul(argv[2]) : 1'000'000;
    const std::size_t sources = argc > 3 ? std::stoul(argv[3]) : 2'000;
    RuralNetwork roads({nodes, parcels, sources, 1});
    roads.costs = {};
    roads.graph = {};
    const std::vector<FillSitePlace> fill_sites = fill_sites_of(roads.district);
    const auto run_access = [&](Stage& stage, const Work& work) {
        stage.access = find_access(roads.district, roads.network, roads.profiles, work);
    };
    const auto run_sites = [&](Stage& stage, const Work& work) {
        stage.dump_sites = find_dump_sites(roads.district, roads.network, stage.access.access,
                                           roads.profiles, work);
    };
    const auto run_trips = [&](Stage& stage, const Work& work) {
        stage.trips =
            round_trips({roads.district, roads.network, stage.access.access, roads.profiles},
                        stage.dump_sites, fill_sites, SeasonIndex(0), work);
    };

    const double before = resident_mib();
    forget_peak();
    Stage one;
    const Work alone = with_threads(1);
    Seconds access = seconds_of([&] { run_access(one, alone); });
    Seconds sites = seconds_of([&] { run_sites(one, alone); });
    Seconds trips = seconds_of([&] { run_trips(one, alone); });
    const double peak_alone = peak_mib() - before;

    Stage two;
    const Work both = with_threads(2);
    Seconds access_two = seconds_of([&] { run_access(two, both); });
    Seconds sites_two = seconds_of([&] { run_sites(two, both); });
    Seconds trips_two = seconds_of([&] { run_trips(two, both); });
    const bool equal = equal_trips(one.trips, two.trips);
    for (int round = 0; round < 2; ++round) {  // in turn, so that a busy machine hits both
        const auto least = [](Seconds a, Seconds b) {
            return Seconds{std::min(a.cpu, b.cpu), std::min(a.wall, b.wall)};
        };
        trips = least(trips, seconds_of([&] { run_trips(one, alone); }));
        trips_two = least(trips_two, seconds_of([&] { run_trips(two, both); }));
    }
    one = {};
    two = {};
    const double before_two = resident_mib();
    forget_peak();
    run_access(two, both);
    run_sites(two, both);
    run_trips(two, both);
    const double peak_both = peak_mib() - before_two;

    fmt::print("{} junctions, {} parcels, {} dump sites, {} sources; one thread and two {}\n",
               nodes, parcels, two.dump_sites.spots.size(), sources, equal ? "equal" : "DIFFERENT");
    fmt::print("{:<16} {:>8} {:>8} {:>8} {:>8}\n", "", "cpu", "wall 1", "wall 2", "ratio");
    print("access points", access, access_two);
    print("dump sites", sites, sites_two);
    print("round trips", trips, trips_two);
    fmt::print("two threads / one, round trips: {:.2f} of the wall (goal: at most 0.6)\n",
               trips_two.wall / trips.wall);
    fmt::print(
        "peak over the loaded network: {:.0f} MiB, two threads {:.0f} MiB (goal: under "
        "600)\n",
        peak_alone, peak_both);
    return equal ? EXIT_SUCCESS : EXIT_FAILURE;
}
