#include "analyzer/planning/input_changes.h"

#include <algorithm>

#include <catch2/catch.hpp>

using namespace farwater;
using namespace farwater::planning;

namespace {

StoredResult with_table(StoredTable table) {
    StoredResult result;
    result.tables.push_back(std::move(table));
    return result;
}

StoredResult with_settings(StoredRecord settings) {
    StoredResult result;
    result.settings = std::move(settings);
    return result;
}

const StoredTable fleet_before{
    .name = "fleet",
    .columns = {"unit_id", "kind", "tank_gal", "crew"},
    .rows = {{"T1", "tanker", "2500", "2"}, {"T2", "tanker", "2000", ""}}};

}  // namespace

TEST_CASE("units that came, are gone or carry other values") {
    const StoredTable after{.name = "fleet",
                            .columns = {"unit_id", "kind", "tank_gal", "crew"},
                            .rows = {{"T3", "tanker", "3000", ""}, {"T1", "tanker", "2500", ""}}};
    const auto changes = input_changes(with_table(fleet_before), with_table(after));
    REQUIRE(changes.size() == 3);
    CHECK(changes[0] == InputChange{Topic::fleet, InputHappened::came, "T3", "", "",
                                    "kind tanker, tank_gal 3000"});
    CHECK(changes[1] == InputChange{Topic::fleet, InputHappened::changed, "T1", "crew", "2", ""});
    CHECK(changes[2] == InputChange{Topic::fleet, InputHappened::gone, "T2", "",
                                    "kind tanker, tank_gal 2000", ""});
}

TEST_CASE("a column or a table that one result does not have is said once, and never compared") {
    const StoredTable after{
        .name = "fleet",
        .columns = {"unit_id", "kind", "tank_gal", "pump_gpm"},
        .rows = {{"T1", "tanker", "2500", "500"}, {"T2", "tanker", "2000", ""}}};
    const auto changes = input_changes(with_table(fleet_before), with_table(after));
    REQUIRE(changes.size() == 2);
    CHECK(changes[0].column == "pump_gpm");
    CHECK(changes[0].happened == InputHappened::only_told_after);
    CHECK(changes[1].column == "crew");
    CHECK(changes[1].happened == InputHappened::only_told_before);
    const auto table = input_changes(with_table(fleet_before), StoredResult{});
    REQUIRE(table.size() == 1);
    CHECK(table[0] == InputChange{Topic::fleet, InputHappened::only_told_before, "", "", "", ""});
}

TEST_CASE("a table without records has lost or won all of the other's") {
    const StoredTable none{.name = "fleet", .columns = {}, .rows = {}};
    const auto gone = input_changes(with_table(fleet_before), with_table(none));
    REQUIRE(gone.size() == 2);
    CHECK(gone[0].happened == InputHappened::gone);
    CHECK(input_changes(with_table(none), with_table(fleet_before)).size() == 2);
    CHECK(input_changes(with_table(none), with_table(none)).empty());
}

TEST_CASE("units with one id are told apart by their number") {
    StoredTable before = fleet_before;
    before.rows.push_back({"T1", "tanker", "999", ""});
    const auto changes = input_changes(with_table(before), with_table(fleet_before));
    REQUIRE(changes.size() == 1);
    CHECK(changes[0].record == "T1 (2)");
    CHECK(changes[0].happened == InputHappened::gone);
}

TEST_CASE("seasons and periods have their own topic, and assumptions are told by their table") {
    const auto changes = input_changes(
        with_settings(
            {{"name", "N"}, {"season.winter.months", "12-3"}, {"assumptions.x_min", "1"}}),
        with_settings({{"name", "N"},
                       {"season.winter.months", "11-3"},
                       {"assumptions.x_min", "2"},
                       {"crs", "EPSG:1"}}));
    REQUIRE(changes.size() == 2);
    CHECK(changes[0] ==
          InputChange{Topic::district_file, InputHappened::came, "crs", "", "", "EPSG:1"});
    CHECK(changes[1] == InputChange{Topic::seasons_and_periods, InputHappened::changed,
                                    "season.winter.months", "", "12-3", "11-3"});
}

TEST_CASE("the run record is compared key by key, without the texts that others tell") {
    StoredResult before;
    before.record = {{"program", "farwater 1"}, {"district_file_text", "a"},
                     {"caution", "x"},          {"routing_profile", "p"},
                     {"routing_profile", "q"},  {"need_method", "fixed"}};
    StoredResult after;
    after.record = {{"program", "farwater 2"},
                    {"district_file_text", "b"},
                    {"routing_profile", "q"},
                    {"routing_profile", "r"},
                    {"need_method", "fixed"}};
    const auto changes = input_changes(before, after);
    REQUIRE(changes.size() == 3);
    CHECK(changes[0] == InputChange{Topic::program, InputHappened::changed, "program", "",
                                    "farwater 1", "farwater 2"});
    CHECK(changes[1] ==
          InputChange{Topic::data, InputHappened::came, "routing_profile", "", "", "r"});
    CHECK(changes[2] ==
          InputChange{Topic::data, InputHappened::gone, "routing_profile", "", "p", ""});
}
