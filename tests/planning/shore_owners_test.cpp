// Whom a pipe to mapped water asks, and who stands in for whom.
#include "analyzer/planning/shore_owners.h"

#include <string>
#include <utility>
#include <vector>

#include <catch2/catch.hpp>

#include "analyzer/planning/stand_ins.h"

using namespace farwater;
using namespace farwater::planning;

namespace {

District five_parcels() {
    District district;
    for (int i = 0; i < 5; ++i) {
        Parcel parcel;
        parcel.id = std::string(1, static_cast<char>('a' + i));
        district.parcels.push_back(parcel);
    }
    return district;
}

RoadNearWater way(std::uint32_t water, double feet_apart, const std::vector<std::size_t>& ground) {
    RoadNearWater way;
    way.water = water;
    way.road = RoadIndex(0);
    way.apart = feet(feet_apart);
    for (const std::size_t parcel : ground) {
        way.ground.emplace_back(parcel);
    }
    return way;
}

// Parcels a and b are Smith's; of the others nobody knows whose they are.
std::string_view owner_of(ParcelIndex parcel) { return parcel.position() < 2 ? "Smith" : ""; }

std::vector<std::string> owners(const std::vector<RoadNearWater>& ways) {
    std::vector<std::string> words;
    for (const RoadNearWater& each : ways) {
        words.push_back(each.owner);
    }
    return words;
}

Candidate place_at(double x) {
    Candidate place;
    place.source.id = "at " + std::to_string(static_cast<int>(x));
    place.source.place = {x, 0.0};
    return place;
}

}  // namespace

TEST_CASE("the shortest way by each owner is kept, and none that asks more people than a shorter") {
    const District district = five_parcels();
    const auto kept =
        shortest_by_owner(district,
                          {way(0, 10, {0}), way(0, 20, {1}), way(0, 30, {2, 3}), way(0, 40, {0, 4}),
                           way(0, 50, {3}), way(0, 60, {2, 3}), way(1, 5, {4}), way(2, 9, {0})},
                          owner_of);
    CHECK(owners(kept) == std::vector<std::string>{
                              "Smith (parcel a)", "the owner of parcel c and the owner of parcel d",
                              "the owner of parcel d", "the owner of parcel e",
                              "Smith (parcel a)"});
    CHECK(kept[2].apart == feet(50));
}

TEST_CASE("ground of nobody that is known outdoes no other") {
    const District district = five_parcels();
    const auto kept = shortest_by_owner(
        district, {way(0, 10, {}), way(0, 20, {}), way(0, 30, {0, 2}), way(0, 40, {1})}, owner_of);
    CHECK(owners(kept) == std::vector<std::string>{"", "Smith (parcel a) and the owner of parcel c",
                                                   "Smith (parcel b)"});
}

TEST_CASE("places near a better one at the same water stand in for it, one after the other") {
    std::vector<Candidate> places{place_at(-50), place_at(0),  place_at(100),
                                  place_at(900), place_at(60), place_at(950)};
    tell_stand_ins(places, 1, metres(500));
    CHECK_FALSE(places[0].stands_in_for);
    CHECK_FALSE(places[1].stands_in_for);
    CHECK(places[2].stands_in_for == 1U);
    CHECK_FALSE(places[3].stands_in_for);
    CHECK(places[3].caution == "it draws on the water of at 0: what is sounded must do for both");
    CHECK(places[4].stands_in_for == 1U);
    CHECK(places[5].stands_in_for == 3U);
    CHECK(stand_ins_of(places, 4) == std::vector<std::uint32_t>{1, 2});
    CHECK(stand_ins_of(places, 0).empty());

    const auto stand = [&](std::vector<std::pair<std::size_t, Ruling>> asked) {
        std::vector<Ruling> rulings(places.size(), Ruling::open);
        for (const auto& [place, ruling] : asked) {
            rulings[place] = ruling;
        }
        const std::vector<std::uint32_t> by = let_stand_by(places, rulings);
        for (const std::uint32_t place : by) {
            CHECK(rulings[place] == Ruling::ruled_out);
        }
        return by;
    };
    using Places = std::vector<std::uint32_t>;
    CHECK(stand({}) == Places{2, 4, 5});
    CHECK(stand({{1, Ruling::ruled_out}}) == Places{4, 5});
    CHECK(stand({{1, Ruling::ruled_out}, {2, Ruling::ruled_out}}) == Places{5});
    CHECK(stand({{4, Ruling::planned}}) == Places{1, 2, 5});
    CHECK(stand({{5, Ruling::planned}, {2, Ruling::planned}}) == Places{1, 3, 4});
}
