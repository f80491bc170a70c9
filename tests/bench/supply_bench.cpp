// What the supply stage costs on a district, by season and period, on one thread:
//   bench_supply_bench [sample_region/district.toml]
// In processor time, so that a busy machine matters less. Prints the cases (distinct dump site,
// ways, lane, first arrival, duration and zone) that parcels share, how many there are per parcel,
// and microseconds per case, of the cases alone and of the whole stage (bounds, other lays and hose
// from sources with them). Not a test; nothing fails by being slow.
#include <algorithm>
#include <cstddef>
#include <ctime>
#include <optional>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "analyzer/app/analysis.h"
#include "analyzer/app/reading.h"
#include "analyzer/supply/assess.h"
#include "analyzer/supply/places/assessor.h"
#include "io/district_file.h"

namespace {

using namespace farwater;

template <class Do>
double seconds_of(const Do& work) {
    const std::clock_t began = std::clock();
    work();
    return static_cast<double>(std::clock() - began) / CLOCKS_PER_SEC;
}

// The lay behind an answer; none: no shuttle was looked at.
std::optional<std::size_t> lay_of(const supply::Situation& situation,
                                  const supply::ParcelSupply& supply, std::size_t row) {
    const std::span<const HoseLay> lays = situation.trips.hose_lays[row];
    for (std::size_t lay = 0; lay < lays.size(); ++lay) {
        if (supply.has_round_trip() && lays[lay].dump_site == supply.dump_site &&
            lays[lay].lane == supply.lane && lays[lay].ways() == supply.approach) {
            return lay;
        }
    }
    return std::nullopt;
}

void measure(const app::VariantSeen& seen) {
    Work work;
    work.threads = 1;
    std::vector<supply::ParcelSupply> supplies;
    const double whole = seconds_of(
        [&] { supplies = supply::assess(seen.situation, seen.needs, seen.first_arrivals, work); });
    const supply::Assessor assessor(seen.situation, seen.needs, seen.first_arrivals);
    std::vector<supply::Keyed> items;
    std::set<supply::CaseKey> cases;
    for (std::size_t row = 0; row < supplies.size(); ++row) {
        if (const auto lay = lay_of(seen.situation, supplies[row], row)) {
            items.push_back(assessor.keyed(row, *lay, row));
            cases.insert(items.back().key);
        }
    }
    const std::size_t parcels = items.size();
    const double alone = seconds_of([&] { assessor.answer(std::move(items), supplies, work); });
    const auto count = static_cast<double>(std::max<std::size_t>(1, cases.size()));
    fmt::print(
        "season {} period {}: {:6} parcels with a shuttle, {:5} cases, {:.2f} a parcel, "
        "{:7.1f} us a case, {:7.1f} us with the whole stage\n",
        seen.situation.trips.season.position(), seen.situation.period.position(), parcels,
        cases.size(), count / static_cast<double>(std::max<std::size_t>(1, parcels)),
        alone * 1e6 / count, whole * 1e6 / count);
}

}  // namespace

int main(int argc, char** argv) {
    const std::string file = argc > 1 ? argv[1] : "sample_region/district.toml";
    const Work work;
    app::Reading reading = app::read_with_needs(io::read_district_file(file), work);
    const app::Onlooker onlooker{.wanted = {}, .sees = measure};
    const auto analysis = app::analyse(
        reading.read.district, std::move(reading.needs), work, [](std::string_view) {}, onlooker);
    return analysis ? 0 : 1;
}
