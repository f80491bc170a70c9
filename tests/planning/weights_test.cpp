#include "analyzer/planning/weights.h"

#include <utility>

#include <catch2/catch.hpp>

#include "analyzer/district/building_areas.h"

using namespace farwater;
using namespace farwater::planning;

namespace {

District three_parcels() {
    District district;
    district.parcels = {{.building_area_m2 = 100.0F, .value = 3e9F},
                        {.value = 5e10F, .people = 4.0F},
                        {.improved = false}};
    return district;
}

Change to_held(std::uint32_t row) {
    Change change{.row = row, .before = {}, .after = {}};
    change.before.state = SupplyState::short_flow;
    change.after.state = SupplyState::held;
    change.before.needed = change.after.needed = tenths_of_gpm(5000);
    change.after.cautious = tenths_of_gpm(5000);
    return change;
}

}  // namespace

TEST_CASE("properties count for what is known of them, and for nothing where it is not") {
    const District district = three_parcels();
    CHECK(weights_by(WeighBy::parcels, district).of(2) == 1);
    const Weights people = weights_by(WeighBy::people, district);
    CHECK(people.of_parcel == std::vector<Gain>{0, 4, 0});
    CHECK(people.not_known == 1);  // what has no building needs none
    CHECK(weights_by(WeighBy::building_area, district).of_parcel == std::vector<Gain>{1076, 0, 0});
    CHECK_FALSE(people.all_nothing());
    CHECK(weights_by(WeighBy::people, {.parcels = {Parcel{}}}).all_nothing());
}

TEST_CASE("great weights are counted in a greater unit, so that sums stay exact") {
    const Weights value = weights_by(WeighBy::value, three_parcels());
    CHECK(value.unit == 10.0);
    CHECK(static_cast<double>(value.of(1)) * value.unit == Approx(5e10));
    const std::vector<Change> changes{to_held(1)};
    CHECK(sum_of(changes, value).weighted == value.of(1) * 5000);
    CHECK(sum_of(changes).weighted == 5000);
}

TEST_CASE("covered is what stands on parcels newly held, less those no longer") {
    const District district = three_parcels();
    Change lost = to_held(1);
    std::swap(lost.before, lost.after);
    const std::vector<Change> changes{to_held(0), lost};
    const Covered covered = covered_by(changes, district, building_areas(district));
    CHECK(covered.building_sqft == Approx(1076.39).epsilon(1e-5));
    CHECK(covered.value.value_or(0.0) == Approx(-4.7e10));
    CHECK(covered.people.value_or(0.0) == -4.0);
}
