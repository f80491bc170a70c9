// Needed flow by published methods on the footprints of a real rural town. The footprints are real;
// use, construction and storeys are not in the data, so every need rests on the stated defaults.
#include <map>

#include <catch2/catch.hpp>

#include "tests/open_data/open_data.h"

using namespace farwater::open_data;

namespace {

constexpr const char* town_folder = "washington_nh";

// The town with this method instead of the invented flows by use code.
void run_town(DistrictCopy& copy, const std::string& need) {
    copy.remove_section("join");
    copy.replace("district.toml", "[parcels]\n", "[need]\n" + need + "\n[parcels]\n");
    const auto ended = copy.run("out");
    INFO(ended.said);
    REQUIRE(ended.status == 0);
}

using Counts = std::map<std::string, long>;

Counts counts(const Package& supply, const std::string& column) {
    Counts found;
    for (const auto& row : supply.rows(
             "SELECT CAST(" + column +
             " AS TEXT), count(*) FROM parcel_supply WHERE state != 'no_building' GROUP BY 1")) {
        found[row[0]] = std::stol(row[1]);
    }
    return found;
}

}  // namespace

TEST_CASE("the rural standard on a real town's footprints", "[open-data]") {
    const auto data = folder_of(town_folder);
    if (!data) {
        return;
    }
    DistrictCopy copy(town_folder, *data);
    run_town(copy, "method = \"rural_supply\"");
    const Package supply(copy.out("out") / "supply.gpkg");
    CHECK(counts(supply, "need_from") == Counts{{"method", 1172}});
    CHECK(counts(supply, "need_defaults") == Counts{{"use,construction,storeys", 1172}});
    CHECK(counts(supply, "evidence IS NULL OR evidence = 'assumed'") == Counts{{"1", 1172}});
    CHECK(counts(supply, "needed_gpm") ==
          Counts{{"250.0", 25}, {"500.0", 743}, {"750.0", 338}, {"1000.0", 66}});
    // By hand from the columns: 21 ft of height, hazard 7, frame, floors and exposures; footprints
    // are taken to a tenth of a square foot.
    CHECK(
        supply.number(
            "SELECT count(*) FROM parcel_supply WHERE state != 'no_building' AND abs("
            "method_total_gal - max(CASE WHEN separation_ft <= 50.002 THEN 3000 ELSE 2000 END, "
            "worst_building_sqft * 21 / 7 * 1.5 * CASE WHEN separation_ft <= 50.002 THEN 1.5 ELSE "
            "1 END)) > 0.4") == 0);
    CHECK(supply.number("SELECT count(*) FROM parcel_supply WHERE separation_ft <= 50.0") == 309);
    CHECK(supply.number("SELECT count(*) FROM parcel_supply WHERE separation_ft > 50.01 OR "
                        "separation_ft < 0") == 0);
    const auto problems = [&](const std::string& id) {
        return supply.number("SELECT count(*) FROM data_problems WHERE problem_id = '" + id + "'");
    };
    CHECK(problems("need_input_defaulted") == 3);
    CHECK(problems("building_outside_parcels") == 35);
    CHECK(problems("building_across_parcels") == 131);
    CHECK(problems("building_overlap") == 1);
    CHECK(problems("building_area_doubtful") == 0);
    // The parcels' own column `use` holds words that are none of ours: told, not guessed at.
    CHECK(problems("value_not_in_list") == 2001);
    CHECK(supply.number("SELECT count(*) FROM input_records WHERE records_read != used + repaired "
                        "+ set_aside") == 0);
    CHECK(supply.number("SELECT count(*) FROM need_standard WHERE certainty LIKE 'from memory%'") ==
          15);
}

TEST_CASE("the rating schedule on a real town's footprints, by both tables", "[open-data]") {
    const auto data = folder_of(town_folder);
    if (!data) {
        return;
    }
    DistrictCopy older(town_folder, *data);
    run_town(older, "method = \"rating_schedule\"");
    CHECK(counts(Package(older.out("out") / "supply.gpkg"), "needed_gpm") ==
          Counts{{"500.0", 549}, {"750.0", 466}, {"1000.0", 114}, {"1500.0", 43}});
    DistrictCopy newer(town_folder, *data);
    run_town(newer, "method = \"rating_schedule\"\nseparation_table = \"newer\"");
    const Package supply(newer.out("out") / "supply.gpkg");
    // Two storeys by default, of which the upper one counts half.
    const std::string small = "worst_building_sqft * 1.5 <= 4800";
    CHECK(counts(supply, "CASE WHEN " + small + " THEN needed_gpm ELSE 'large' END") ==
          Counts{{"500.0", 913}, {"750.0", 55}, {"1000.0", 47}, {"1500.0", 34}, {"large", 123}});
    // By hand: frame, to the nearest 250 gpm up to 2,500, then 500; what stands near only adds.
    const std::string by_area = "18 * 1.5 * sqrt(worst_building_sqft * 1.5)";
    CHECK(
        supply.number("SELECT count(*) FROM parcel_supply WHERE state != 'no_building' AND NOT (" +
                      small + ") AND needed_gpm < min(8000, " + by_area + " - CASE WHEN " +
                      by_area + " > 2500 THEN 250 ELSE 125 END) - 0.5") == 0);
}
