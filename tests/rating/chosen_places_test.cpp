// Which places an assessor sees one by one.
#include "analyzer/rating/chosen_places.h"

#include <catch2/catch.hpp>

using namespace farwater;
using namespace farwater::rating;

namespace {

PlaceRating place(Category category, int credited, std::optional<int> start, float miles) {
    PlaceRating place;
    place.category = category;
    place.credited = tenths_of_gpm(credited * 10);
    place.station_mi = miles;
    if (start) {
        place.start = supply::TenthsMinute{*start * 10};
    }
    return place;
}

}  // namespace

TEST_CASE("worst and usual places are chosen, each once, with all that they were chosen as") {
    std::vector<PlaceRating> places{
        place(Category::near_with_water, 300, 4, 1), place(Category::near_with_water, 250, 5, 2),
        place(Category::near_with_water, 500, 3, 3), place(Category::near_without_water, 0, 20, 4),
        place(Category::no_building, 0, 90, 9)};
    places[3].fails = Fails::flow;
    const auto chosen = chosen_places(places);
    REQUIRE(chosen.size() == 4);
    CHECK(chosen[0].row == 1);
    CHECK(chosen[0].why == "least credited of those with water; usual start of brought water");
    CHECK(chosen[1].row == 0);
    CHECK(chosen[1].why == "usual among those with water");
    CHECK(chosen[2].row == 2);
    CHECK(chosen[2].why == "earliest brought water");
    CHECK(chosen[3].row == 3);
    CHECK(chosen[3].why ==
          "latest brought water; farthest from a station; a place where the minimum flow is not "
          "held");
    CHECK(chosen_places({}).empty());
}
