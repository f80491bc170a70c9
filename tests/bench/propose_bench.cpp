// What proposals cost on a district, and how much of them a bound refuses:
//   bench_propose_bench [sample_region/district.toml [sites [cisterns [twin]]]]
// Prints places, pairs of a place and a parcel that it may change, of both how many were worked
// out, processor seconds and peak memory, each time apart from working out the district as it is.
// With `twin` also the same with every place worked out, and whether the choice and its gains are
// the same. Not a test; nothing fails by being slow.
#include <cstdlib>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <fmt/format.h>
#include <sys/resource.h>

#include "analyzer/app/pipes_to_water.h"
#include "analyzer/app/propose.h"
#include "analyzer/app/reading.h"
#include "analyzer/app/what_if.h"
#include "io/district_file.h"

namespace {

using namespace farwater;

struct Used {
    double cpu_s = 0.0;
    double peak_mb = 0.0;
};

Used used() {
    rusage usage{};
    ::getrusage(RUSAGE_SELF, &usage);
    const auto seconds = [](const timeval& time) {
        return static_cast<double>(time.tv_sec) + static_cast<double>(time.tv_usec) / 1e6;
    };
    return {seconds(usage.ru_utime) + seconds(usage.ru_stime),
            static_cast<double>(usage.ru_maxrss) / 1024.0};
}

std::optional<reports::ProposalFindings> measured(app::WhatIf& district,
                                                  std::span<const RoadNearWater> pipes,
                                                  const app::ProposeOptions& options) {
    const Used before = used();
    auto findings = app::propose(district, pipes, options, Work{}, [](std::string_view stage) {
        fmt::print("    {:<40} from cpu s {:8.1f}\n", stage, used().cpu_s);
    });
    const Used after = used();
    if (!findings) {
        return findings;
    }
    const reports::PlacesLookedAt looked = reports::places_looked_at(*findings);
    fmt::print("  {} places: {} worked out, {} refused by a bound\n",
               looked.worked_out + looked.refused, looked.worked_out, looked.refused);
    fmt::print("  cpu s {:.1f}, peak MB {:.0f}; chosen:", after.cpu_s - before.cpu_s,
               after.peak_mb);
    for (const reports::Proposal& proposal : findings->proposals) {
        fmt::print(" {} {:.1f}", findings->found.candidates[proposal.candidate].source.id,
                   proposal.added.gpm());
    }
    fmt::print("\n  gap {:.3f}\n", findings->gap);
    return findings;
}

bool same_choice(const reports::ProposalFindings& a, const reports::ProposalFindings& b) {
    bool same = a.proposals.size() == b.proposals.size();
    for (std::size_t i = 0; same && i < a.proposals.size(); ++i) {
        same = a.proposals[i].candidate == b.proposals[i].candidate &&
               a.proposals[i].added.weighted == b.proposals[i].added.weighted;
    }
    return same;
}

}  // namespace

int main(int argc, char** argv) {
    const std::string file = argc > 1 ? argv[1] : "sample_region/district.toml";
    app::ProposeOptions options;
    options.terms.sites = argc > 2 ? std::strtoul(argv[2], nullptr, 10) : 10;
    const io::DistrictFile district_file = io::read_district_file(file);
    app::Reading reading = app::read_with_needs(district_file, Work{});
    if (argc > 3) {
        reading.read.district.assumptions.most_new_cisterns = std::atoi(argv[3]);
    }
    const Used read = used();
    auto district = app::WhatIf::of(std::move(reading.read.district), std::move(reading.needs),
                                    Work{}, [](std::string_view) {});
    if (!district) {
        return 1;
    }
    fmt::print("{} parcels, {} junctions; as it is: cpu s {:.1f}, peak MB {:.0f}\n",
               district->district().parcels.size(), district->network().nodes.size(),
               used().cpu_s - read.cpu_s, used().peak_mb);
    const std::vector<RoadNearWater> pipes = app::pipes_to_water(
        district->district(), district->profiles(), district_file, reading.read, Work{});
    const auto bounded = measured(*district, pipes, options);
    if (argc > 4 && bounded) {
        options.every_gain = true;
        const auto twin = measured(*district, pipes, options);
        fmt::print("  {}\n", twin && same_choice(*bounded, *twin) ? "the same choice and gains"
                                                                  : "ANOTHER CHOICE");
    }
    return bounded ? 0 : 1;
}
