// A rating stands in every season, so the order in which the district file names them changes
// nothing.
#include <algorithm>
#include <optional>
#include <utility>

#include <catch2/catch.hpp>

#include "analyzer/app/analysis.h"
#include "tests/app/some_of_the_region.h"

using namespace farwater;

namespace {

rating::Rating region_rated(bool seasons_backwards, const Work& work) {
    app::Reading reading = support::some_of_the_region(4, work);
    District& district = reading.read.district;
    REQUIRE(district.seasons.size() == 2);
    if (seasons_backwards) {
        std::ranges::reverse(district.seasons);
    }
    std::optional<app::Analysis> found =
        app::analyse_flow(district, std::move(reading.needs), work);
    REQUIRE(found);
    REQUIRE(found->rating);
    return std::move(*found->rating);
}

}  // namespace

TEST_CASE("the order of the seasons changes no rating", "[golden]") {
    const Work work;
    const rating::Rating forwards = region_rated(false, work);
    const rating::Rating backwards = region_rated(true, work);
    std::size_t no_way_in_winter = 0;
    for (std::size_t row = 0; row < forwards.places.size(); ++row) {
        const rating::PlaceRating& one = forwards.places[row];
        const rating::PlaceRating& other = backwards.places[row];
        INFO("row " << row);
        CHECK(one.category == other.category);
        CHECK(one.fails == other.fails);
        CHECK(one.credited == other.credited);
        CHECK(one.start == other.start);
        CHECK(one.station_mi == other.station_mi);
        CHECK(one.nearest == other.nearest);
        if (forwards.brought.supplies[row].state == SupplyState::unreached) {
            CHECK(one.category == rating::Category::otherwise);
            CHECK(one.credited == HeldFlow{});
            ++no_way_in_winter;
        }
    }
    CHECK(no_way_in_winter > 0);
    for (std::size_t i = 0; i < forwards.sources.size(); ++i) {
        CHECK(forwards.sources[i].lacks == backwards.sources[i].lacks);
    }
}
