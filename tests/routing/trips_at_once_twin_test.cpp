// Round trips worked out for a few dump sites after the others against all at once.
#include <algorithm>
#include <cstdint>
#include <functional>

#include <catch2/catch.hpp>

#include "routing/trips/season_trips.h"
#include "tests/routing/random_district.h"
#include "tests/routing/routed.h"

using namespace farwater;
using test::Routed;

namespace {

template <class ListsOf, class Same>
bool equal_rows(const ListsOf& a, const ListsOf& b, Same same) {
    for (std::size_t row = 0; row < std::max(a.size(), b.size()); ++row) {
        if (a.size() != b.size() || !std::ranges::equal(a[row], b[row], same)) {
            return false;
        }
    }
    return true;
}

template <class DriveLists>
bool equal_drives(const DriveLists& a, const DriveLists& b) {
    return equal_rows(a, b, [](const StationDrive& x, const StationDrive& y) {
        return x.station == y.station && x.loaded == y.loaded;
    });
}

}  // namespace

TEST_CASE("round trips are the same however many dump sites are worked on together", "[twin]") {
    std::size_t approaches = 0;
    for (std::uint64_t seed = 1; seed <= 12; ++seed) {
        const District district = test::random_district(seed);
        const Routed routed(district);
        const auto trips_by = [&](std::size_t at_once) {
            return routing::round_trips_by(routed.roads(), routed.dump_sites, routed.fill_sites,
                                           SeasonIndex(0), at_once, routed.work);
        };
        const RoundTrips all = trips_by(1'000'000);
        approaches += all.fill_trips.size() - all.dump_sites.size();
        for (const std::size_t at_once : {1U, 2U, 7U}) {
            CAPTURE(seed, at_once);
            const RoundTrips some = trips_by(at_once);
            REQUIRE(equal_rows(some.fill_trips, all.fill_trips, std::equal_to<>()));
            REQUIRE(equal_drives(some.stations_of_dump_site, all.stations_of_dump_site));
            REQUIRE(equal_drives(some.stations_of_fill_site, all.stations_of_fill_site));
            REQUIRE(std::ranges::equal(some.hose_lays.items, all.hose_lays.items, {},
                                       &HoseLay::approach, &HoseLay::approach));
        }
    }
    CHECK(approaches > 100);
}
