// The routing stage on a million junctions, a million parcels and 2,000 sources, 20 minutes: every
// step with one thread and with two, and its peak memory over the loaded network. Results of one
// thread and of two that differ fail.
//   bench_routing_stage_bench [nodes] [parcels] [sources]
#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

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

std::vector<FillSitePlace> fill_sites_of(const District& district) {
    std::vector<FillSitePlace> fill_sites;
    for (std::size_t s = 0; s < district.sources.size(); ++s) {
        fill_sites.push_back(
            {SourceIndex(s), district.sources[s].place, static_cast<std::uint8_t>(s % 3)});
    }
    return fill_sites;
}

bool equal_trips(const RoundTrips& a, const RoundTrips& b) {
    bool equal = a.fill_trips.size() == b.fill_trips.size();
    for (std::size_t row = 0; equal && row < a.fill_trips.size(); ++row) {
        equal = std::ranges::equal(a.fill_trips[row], b.fill_trips[row]);
    }
    return equal;
}

// Wall seconds from the first to the last chunk of the searches for round trips, told by progress.
class SearchClock {
public:
    Work watched(unsigned threads) {
        Work work;
        work.threads = threads;
        work.progress = [this](std::string_view stage, std::size_t, std::size_t) {
            const std::scoped_lock lock(mutex_);
            if (stage == "round trips") {
                last_ = std::chrono::steady_clock::now();
                first_ = first_.value_or(last_);
            }
        };
        return work;
    }
    double seconds() const { return std::chrono::duration<double>(last_ - *first_).count(); }

private:
    using Time = std::chrono::steady_clock::time_point;
    std::mutex mutex_;
    std::optional<Time> first_;
    Time last_;
};

// What one run of the stage gave and took.
struct Stage {
    AccessResult access;
    DumpSites dump_sites;
    RoundTrips trips;
    Seconds access_took, dump_sites_took, trips_took;
    double search_wall = 0.0;
    double peak = 0.0;  // MiB over what was there
};

Stage run_stage(const RuralNetwork& roads, unsigned threads) {
    SearchClock clock;
    const Work work = clock.watched(threads);
    const std::vector<FillSitePlace> fill_sites = fill_sites_of(roads.district);
    const double before = resident_mib();
    forget_peak();
    Stage stage;
    stage.access_took = seconds_of(
        [&] { stage.access = find_access(roads.district, roads.network, roads.profiles, work); });
    const Access& access = stage.access.access;
    stage.dump_sites_took = seconds_of([&] {
        stage.dump_sites = find_dump_sites(roads.district, roads.network, access, roads.profiles,
                                           std::vector<bool>(access.points.size(), true), work);
    });
    stage.trips_took = seconds_of([&] {
        stage.trips = round_trips({roads.district, roads.network, access, roads.profiles},
                                  stage.dump_sites, fill_sites, SeasonIndex(0), work);
    });
    stage.search_wall = clock.seconds();
    stage.peak = peak_mib() - before;
    return stage;
}

void print(const char* what, double cpu, double one, double two) {
    fmt::print("{:<22} {:8.2f} {:8.2f} {:8.2f} {:8.2f}\n", what, cpu, one, two, two / one);
}

// Of runs in turn, the quickest with one thread and with two; whether results are always equal.
bool compare_threads(const RuralNetwork& roads) {
    Stage one = run_stage(roads, 1);
    Stage two = run_stage(roads, 2);
    const bool equal = equal_trips(one.trips, two.trips);
    fmt::print("{} dump sites; one thread and two: {}\n", one.dump_sites.spots.size(),
               equal ? "equal" : "DIFFERENT");
    const double peak_two = two.peak;
    const double peak_one = one.peak;
    for (int round = 0; round < 2; ++round) {
        for (Stage* best : {&one, &two}) {
            Stage now = run_stage(roads, best == &one ? 1 : 2);
            *best = now.trips_took.wall < best->trips_took.wall ? std::move(now) : std::move(*best);
        }
    }
    fmt::print("{:<22} {:>8} {:>8} {:>8} {:>8}\n", "seconds", "cpu", "wall 1", "wall 2", "ratio");
    print("access points", one.access_took.cpu, one.access_took.wall, two.access_took.wall);
    print("dump sites", one.dump_sites_took.cpu, one.dump_sites_took.wall,
          two.dump_sites_took.wall);
    print("round trips", one.trips_took.cpu, one.trips_took.wall, two.trips_took.wall);
    print("  of these the search", one.search_wall, one.search_wall, two.search_wall);
    fmt::print("search, two threads / one: {:.2f} of the wall (goal: at most 0.6)\n",
               two.search_wall / one.search_wall);
    fmt::print(
        "peak over the loaded network: {:.0f} MiB, two threads {:.0f} MiB (goal: under "
        "600)\n",
        peak_one, peak_two);
    return equal;
}

}  // namespace

int main(int argc, char** argv) {
    const std::size_t nodes = argc > 1 ? std::stoul(argv[1]) : 1'000'000;
    const std::size_t parcels = argc > 2 ? std::stoul(argv[2]) : 1'000'000;
    const std::size_t sources = argc > 3 ? std::stoul(argv[3]) : 2'000;
    RuralNetwork roads({nodes, parcels, sources, 1});
    roads.costs = {};
    roads.graph = {};
    fmt::print("{} junctions, {} parcels, {} sources, ", roads.network.nodes.size(), parcels,
               sources);
    return compare_threads(roads) ? EXIT_SUCCESS : EXIT_FAILURE;
}
