// Whether report.html stays quick with many parcels.
#include <array>
#include <cmath>
#include <random>
#include <utility>

#include <catch2/catch.hpp>

#include "reports/map_page.h"
#include "tests/browser/node.h"
#include "tests/reports/found.h"
#include "tests/support/temporary_folder.h"

using namespace farwater;
using namespace farwater::support;
using namespace farwater::reports;

namespace {

constexpr double parcel_m = 110.0;

constexpr std::array<std::pair<double, double>, 12> twelve{{{0, 0},
                                                            {1, 0},
                                                            {2, 0},
                                                            {3, 0},
                                                            {3, 1},
                                                            {3, 2},
                                                            {3, 3},
                                                            {2, 3},
                                                            {1, 3},
                                                            {0, 3},
                                                            {0, 2},
                                                            {0, 1}}};

// A ring of 12 vertices that wobble, so that none of them falls away.
Polyline wobbly_square(Point corner, std::mt19937& random) {
    std::uniform_real_distribution<double> wobble(-9.0, 9.0);
    Polyline ring;
    for (const auto& [east, north] : twelve) {
        ring.push_back({corner.x + east * parcel_m / 3.0 + wobble(random),
                        corner.y + north * parcel_m / 3.0 + wobble(random)});
    }
    ring.push_back(ring.front());
    return ring;
}

// Parcels row by row, a road along every fourth row.
struct ManyParcels {
    test::Found found;
    std::vector<Polyline> rings;

    explicit ManyParcels(std::size_t count) {
        std::mt19937 random(6);
        const auto across = static_cast<std::size_t>(std::sqrt(static_cast<double>(count)));
        std::vector<supply::ParcelSupply> supplies;
        found.district.parcels.clear();
        found.assessment = {};
        for (std::size_t i = 0; i < count; ++i) {
            const Point corner{static_cast<double>(i % across) * parcel_m,
                               static_cast<double>(i / across) * parcel_m};
            Parcel& parcel = found.district.parcels.emplace_back();
            parcel.id = "P" + std::to_string(1000000 + i).substr(1);
            parcel.row = static_cast<std::uint32_t>(i);
            parcel.house = {corner.x + parcel_m / 2.0, corner.y + parcel_m / 2.0};
            rings.push_back(wobbly_square(corner, random));
            const auto state = static_cast<SupplyState>(random() % words_of(SupplyState{}).size());
            supplies.push_back(test::answer(state, 500, static_cast<int>(random() % 1500)));
        }
        found.access.resize(count);
        found.station_miles.resize(count);
        found.assessment.keep({SeasonIndex(0), PeriodIndex(0)}, std::move(supplies), count);
        for (std::size_t line = 0; line < across; line += 4) {
            Road& road = found.district.roads.emplace_back();
            for (std::size_t i = 0; i <= across; ++i) {
                road.line.push_back(
                    {static_cast<double>(i) * parcel_m,
                     static_cast<double>(line) * parcel_m + static_cast<double>(i % 3) * 5.0});
            }
        }
        found.roads.tanker_may_use.assign(found.district.roads.size(), true);
    }

    void write(const std::filesystem::path& file) const {
        const Findings findings = found.findings();
        const PageGrid grid = PageGrid::at(extent_of(found.district));
        PackedShapes areas(grid);
        for (const Polyline& ring : rings) {
            areas.add_areas({&ring, 1});
        }
        std::vector<std::string> addresses;
        for (std::size_t i = 0; i < rings.size(); ++i) {
            addresses.push_back(std::to_string(i % 900) + " Road " + std::to_string(i / 900));
        }
        const RunRecord record;
        std::string html;
        write_map_page({findings, record, grid, &areas,
                        [&](std::size_t i) -> std::string_view { return addresses[i]; }},
                       [&](std::string_view bytes) { html += bytes; });
        put(file, html);
    }
};

}  // namespace

TEST_CASE("report.html opens, moves and finds in time with 20,000 and 100,000 parcels", "[alone]") {
    if (!has_browser()) {
        return;
    }
    const auto [parcels, open_ms] =
        GENERATE(values<std::pair<std::size_t, const char*>>({{20000, "2000"}, {100000, "4000"}}));
    CAPTURE(parcels);
    const TemporaryFolder folder;
    ManyParcels(parcels).write(folder / "report.html");
    const Ended ended =
        run_script("speed.mjs", {(folder / "report.html").string(), open_ms, "400", "150", "100"});
    INFO(ended.out << ended.err);
    CHECK(ended.exit_code == 0);
}
