// The whole program on an OpenStreetMap extract (tests/open_data/capecod_ma).
#include <catch2/catch.hpp>

#include "tests/open_data/open_data.h"
#include "tests/open_data/supply_rules.h"

using namespace farwater::open_data;

namespace {

constexpr const char* coast = "capecod_ma";

}  // namespace

TEST_CASE("an OpenStreetMap extract is read through GDAL with tags as columns", "[open-data]") {
    const auto data = folder_of(coast);
    if (!data) {
        return;
    }
    const DistrictCopy copy(coast, *data);
    const DistrictCopy::Ended ended = copy.run("first");
    INFO(ended.said);
    REQUIRE(ended.status == 0);
    const Package supply(copy.out("first") / "supply.gpkg");
    const auto read = [&](const std::string& layer) {
        return supply.number("SELECT records_read FROM input_records WHERE layer = '" + layer +
                             "'");
    };
    // 654 ways to drive on; 57 paths, 50 footways, 8 flights of steps and 3 cycleways are left out.
    CHECK(read("roads") == 772);
    CHECK(supply.number("SELECT used FROM input_records WHERE layer = 'roads'") == 654);
    CHECK(supply.rows("SELECT detail FROM data_problems WHERE problem_id = 'road_left_out'") ==
          std::vector<std::vector<std::string>>{{"3 cycleway, 50 footway, 57 path, 8 steps"}});
    CHECK(read("parcels") == 4046);  // 4,043 ways and 3 relations
    CHECK(read("buildings") == 4046);
    CHECK(read("mapped_water") == 15);
    CHECK(supply.number("SELECT count(*) FROM input_records WHERE records_read != used + repaired "
                        "+ set_aside") == 0);
    CHECK(supply.number("SELECT count(*) FROM data_problems WHERE problem_id = 'id_missing' AND "
                        "layer = 'parcels'") == 3);
    CHECK(supply.number(
              "SELECT count(*) FROM data_problems WHERE problem_id = 'value_not_in_list'") == 0);

    CHECK(supply.number("SELECT count(*) FROM parcel_supply") == 4046);
    CHECK(supply.number("SELECT count(DISTINCT parcel_id) FROM parcel_supply") == 4046);
    CHECK(supply.number("SELECT count(*) FROM parcel_supply WHERE state = 'no_building'") == 0);
    CHECK(supply.number("SELECT count(*) FROM road_times") == 654);
    CHECK(supply.number("SELECT count(DISTINCT component) FROM road_times") == 14);
    for (const Rule& rule : supply_rules()) {
        CAPTURE(rule.what);
        for (const auto& row :
             supply.rows(std::string("SELECT parcel_id, state FROM parcel_supply WHERE ") +
                         rule.broken_where + " LIMIT 3")) {
            CAPTURE(row[0], row[1]);
            CHECK(false);
        }
    }
    for (const char* state : {"held", "late", "short", "unreached"}) {
        CAPTURE(state);
        CHECK(supply.number(std::string("SELECT count(*) FROM parcel_supply WHERE state = '") +
                            state + "'") > 10);
    }
}
