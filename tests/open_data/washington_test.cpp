// The whole program on a real rural town (tests/open_data/washington_nh).
#include <map>
#include <sstream>

#include <catch2/catch.hpp>

#include "tests/open_data/open_data.h"
#include "tests/open_data/supply_rules.h"

using namespace farwater::open_data;

namespace {

constexpr const char* washington = "washington_nh";

struct RecordCounts {
    long read, used, repaired, set_aside;
    friend bool operator==(const RecordCounts&, const RecordCounts&) = default;
};
std::ostream& operator<<(std::ostream& out, const RecordCounts& c) {
    return out << c.read << " = " << c.used << " + " << c.repaired << " + " << c.set_aside;
}

RecordCounts counts_of(const Package& supply, const std::string& layer) {
    const auto rows = supply.rows(
        "SELECT records_read, used, repaired, set_aside FROM input_records WHERE layer = '" +
        layer + "'");
    REQUIRE(rows.size() == 1);
    return {std::stol(rows[0][0]), std::stol(rows[0][1]), std::stol(rows[0][2]),
            std::stol(rows[0][3])};
}

void require_done(const DistrictCopy::Ended& ended) {
    INFO(ended.said);
    REQUIRE(ended.status == 0);
}

}  // namespace

TEST_CASE("the real town is read record for record", "[open-data]") {
    const auto data = folder_of(washington);
    if (!data) {
        return;
    }
    const DistrictCopy copy(washington, *data);
    require_done(copy.run("first"));
    const Package supply(copy.out("first") / "supply.gpkg");
    CHECK(counts_of(supply, "roads") == RecordCounts{246, 246, 0, 0});
    CHECK(counts_of(supply, "parcels") == RecordCounts{2016, 2008, 8, 0});
    CHECK(counts_of(supply, "buildings") == RecordCounts{1565, 1530, 0, 35});
    CHECK(counts_of(supply, "mapped_water") == RecordCounts{150, 150, 0, 0});
    CHECK(counts_of(supply, "water_sources") == RecordCounts{5, 5, 0, 0});
    CHECK(counts_of(supply, "stations") == RecordCounts{5, 5, 0, 0});
    CHECK(counts_of(supply, "apparatus") == RecordCounts{10, 10, 0, 0});
    CHECK(counts_of(supply, "staffing") == RecordCounts{3, 3, 0, 0});
    CHECK(supply.number("SELECT count(*) FROM input_records WHERE records_read != used + repaired "
                        "+ set_aside") == 0);

    const auto problems = [&](const std::string& id) {
        return supply.number("SELECT count(*) FROM data_problems WHERE problem_id = '" + id + "'");
    };
    CHECK(problems("geometry_repaired") == 8);
    CHECK(problems("building_outside_parcels") == 35);
    CHECK(problems("road_island") == 0);
    CHECK(problems("source_rate_assumed") == 1);
    CHECK(problems("source_test_lapsed") == 1);

    CHECK(supply.number("SELECT count(*) FROM parcel_supply") == 2016);
    CHECK(supply.number("SELECT count(DISTINCT parcel_id) FROM parcel_supply") == 2016);
    CHECK(supply.number("SELECT count(*) FROM parcel_supply WHERE state = 'no_building'") == 844);
    CHECK(supply.number("SELECT count(*) FROM road_times") == 246);
    CHECK(supply.number("SELECT count(DISTINCT component) FROM road_times") == 1);
    CHECK(supply.number("SELECT count(*) FROM fill_sites") == 5);
    CHECK(supply.number("SELECT count(*) FROM worklist WHERE layer = 'mapped_water'") == 150);
    const Package inputs(copy.out("first") / "inputs.gpkg");
    CHECK(inputs.number("SELECT count(*) FROM parcels") == 2016);
    CHECK(inputs.number("SELECT count(*) FROM buildings") == 1565);
}

TEST_CASE("every parcel of the real town has one supply state, and its columns bear it out",
          "[open-data]") {
    const auto data = folder_of(washington);
    if (!data) {
        return;
    }
    const DistrictCopy copy(washington, *data);
    require_done(copy.run("first"));
    const Package supply(copy.out("first") / "supply.gpkg");
    for (const Rule& rule : supply_rules()) {
        CAPTURE(rule.what);
        for (const auto& row :
             supply.rows(std::string("SELECT parcel_id, state FROM parcel_supply WHERE ") +
                         rule.broken_where + " LIMIT 3")) {
            CAPTURE(row[0], row[1]);
            CHECK(false);
        }
    }
    // The states that this town is chosen to show.
    for (const char* state : {"held", "late", "short", "tank_only", "unreached"}) {
        CAPTURE(state);
        CHECK(supply.number(std::string("SELECT count(*) FROM parcel_supply WHERE state = '") +
                            state + "'") > 5);
    }
    // What is frozen fills nothing in winter, and the others' names are those of the district file.
    CHECK(supply.number("SELECT count(*) FROM parcel_supply WHERE worst_season = 'winter' AND "
                        "fill_source_id IN ('ASHUELOT', 'MILLEN')") == 0);
    CHECK(supply.number("SELECT count(*) FROM parcel_supply WHERE fill_source_id NOT IN (SELECT "
                        "source_id FROM fill_sites)") == 0);
}

TEST_CASE("water that is only mapped adds nothing in the real town", "[open-data]") {
    const auto data = folder_of(washington);
    if (!data) {
        return;
    }
    DistrictCopy copy(washington, *data);
    require_done(copy.run("with"));
    copy.remove_section("mapped_water");
    require_done(copy.run("without"));
    const Package with(copy.out("with") / "supply.gpkg");
    const Package without(copy.out("without") / "supply.gpkg");
    CHECK(with.number("SELECT count(*) FROM worklist WHERE layer = 'mapped_water'") == 150);
    CHECK(without.number("SELECT count(*) FROM worklist WHERE layer = 'mapped_water'") == 0);
    for (const char* layer : {"parcel_supply", "fill_sites", "dump_sites", "road_times"}) {
        CAPTURE(layer);
        const std::string all = std::string("SELECT * FROM ") + layer + " ORDER BY fid";
        CHECK((with.rows(all) == without.rows(all)));
    }
}

TEST_CASE("a sixth pond that is declared lowers no flow in the real town", "[open-data]") {
    const auto data = folder_of(washington);
    if (!data) {
        return;
    }
    DistrictCopy copy(washington, *data);
    require_done(copy.run("five"));
    // Of no strength class of which three are listed already, so it takes no other's place.
    copy.replace("water_sources.csv", "MILLPOND,",
                 "MAY,May Pond in the state "
                 "park,43.23258,-72.120909,draft_site,declared,ranger,,operations,yes,750,"
                 "unlimited,,2,6,invented\nMILLPOND,");
    require_done(copy.run("six"));
    const Package five(copy.out("five") / "supply.gpkg");
    const Package six(copy.out("six") / "supply.gpkg");
    const std::string sql =
        "SELECT parcel_id, coalesce(cautious_gpm, 0), state = 'held', fill_source_id = 'MAY' FROM "
        "parcel_supply ORDER BY fid";
    const auto before = five.rows(sql);
    const auto after = six.rows(sql);
    REQUIRE(before.size() == after.size());
    long served_by_it = 0;
    for (std::size_t i = 0; i < before.size(); ++i) {
        CAPTURE(before[i][0]);
        CHECK(std::stod(after[i][1]) >= std::stod(before[i][1]));
        CHECK(std::stol(after[i][2]) >= std::stol(before[i][2]));
        served_by_it += after[i][3] == "1" ? 1 : 0;
    }
    CHECK(served_by_it > 0);
}

TEST_CASE("what is proposed for the real town is what a run with it gives", "[open-data]") {
    const auto data = folder_of(washington);
    if (!data) {
        return;
    }
    const DistrictCopy copy(washington, *data);
    farwater::support::put(copy.district_file(),
                           farwater::support::bytes_of(copy.district_file()) +
                               "most_new_cisterns = 2\n");  // for the time it takes
    require_done(copy.run("before"));
    require_done(copy.run("proposed", "--sites 1", "propose"));
    const Package proposed(copy.out("proposed") / "proposals.gpkg");
    REQUIRE(proposed.number("SELECT count(*) FROM source_proposals") == 1);
    // Each of the town's waters once, and 83 over other owners' ground that stand by.
    CHECK(proposed.number("SELECT count(*) FROM proposal_candidates WHERE origin = "
                          "'mapped_water' AND proposal_id NOT LIKE 'DH-%-%'") == 150);
    CHECK(proposed.number("SELECT count(*) FROM proposal_candidates WHERE stands_in_for IS NOT "
                          "NULL") == 83);
    farwater::support::put(copy.district_file(),
                           farwater::support::bytes_of(copy.district_file()) +
                               "\n[what_if_sources]\nfile = \"" +
                               (copy.out("proposed") / "proposals.gpkg").string() +
                               "\"\nlayer = \"source_proposals\"\n");
    require_done(copy.run("after"));
    const auto held = [&](const std::string& out) {
        return Package(copy.out(out) / "supply.gpkg")
            .number(
                "SELECT sum(cast(round(10 * min(needed_gpm, max(cautious_gpm, "
                "ifnull(runner_up_gpm, 0)))) AS integer)) FROM parcel_supply WHERE needed_gpm "
                "IS NOT NULL AND cautious_gpm IS NOT NULL");
    };
    const long gained =
        proposed.number("SELECT cast(round(10 * gained_gpm) AS integer) FROM source_proposals");
    CHECK(gained > 0);
    CHECK(held("after") - held("before") == gained);
}

// The town's sources with papers (invented): use, test, certificate, access in all weather, the
// owner's permission.
TEST_CASE("what is rated in the real town begins in time, is credited enough, and says what by",
          "[open-data]") {
    const auto data = folder_of(washington);
    if (!data) {
        return;
    }
    DistrictCopy copy(washington, *data);
    farwater::support::put(
        copy.district_file().parent_path() / "water_sources.csv",
        "source_id,lat,lon,kind,standing,tested_on,use,frost_proof,rate_gpm,usable_gal,places,"
        "static_lift_ft,all_weather,certified_by,certified_on,agreement\n"
        "HALFMOON,43.18051,-72.082501,draft_site,tested,2026-04-25,rating,yes,1000,3000000,2,6,"
        "yes,engineer,2025-01-01,town\n"
        "ISLAND,43.171408,-72.059307,draft_site,tested,2026-04-25,rating,yes,1000,unlimited,2,5,"
        "yes,engineer,2025-01-01,town\n"
        "MILLEN,43.171217,-72.120391,draft_site,tested,2026-04-25,rating,yes,750,4000000,1,7,yes,"
        "engineer,2025-01-01,town\n"
        "MILLPOND,43.190843,-72.018981,draft_site,tested,2026-04-25,operations,yes,500,15000,1,9,"
        "yes,engineer,2025-01-01,town\n");
    copy.replace("district.toml", "[period.night]",
                 "[rating]\nterms = \"schedule\"\n\n[period.night]");
    require_done(copy.run("rated"));
    const Package supply(copy.out("rated") / "supply.gpkg");
    const auto count = [&](const std::string& where) {
        return supply.number("SELECT count(*) FROM parcel_supply WHERE " + where);
    };
    const std::string by_apparatus =
        "rating_fails_first = 'nothing' AND coalesce(creditable_hose_ft, 9999) > 1000";
    CHECK(count(by_apparatus) > 30);
    CHECK(count(by_apparatus + " AND NOT (rating_start_min <= 5 AND credited_gpm >= 250)") == 0);
    CHECK(
        count("rating_fails_first = 'start' AND NOT (rating_start_min > 5 AND credited_gpm = 0)") ==
        0);
    CHECK(count("rating_fails_first = 'minimum_flow' AND rating_start_min IS NOT NULL") == 0);
    CHECK(count("creditable_source_id = 'MILLPOND'") == 0);
}
