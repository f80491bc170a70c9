// Which columns a district's own files are read by: names that people give, units in them, several
// columns for one field.
#include <algorithm>
#include <tuple>

#include <catch2/catch.hpp>

#include "io/read_district.h"
#include "io/settings/schema.h"
#include "tests/io/draft_folder.h"
#include "tests/support/program.h"

using namespace farwater;
using namespace farwater::io;
using farwater::support::contains;
using Strings = std::vector<std::string>;

namespace {

struct NamedColumn {
    const char* name;
    const char* cell;
    const char* field;
    const char* unit = "";  // in the district file; "" = none
};

// A layer of two columns, the second one asked for.
std::string with_column(const std::string& first, const std::string& cells,
                        const NamedColumn& column) {
    const std::string quoted = std::string(column.name).find_first_of(",\"") != std::string::npos
                                   ? "'" + std::string(column.name) + "'"
                                   : column.name;
    return first + "," + quoted + "\n" + cells + "," + column.cell + "\n";
}

void check_named(const Draft& draft, const char* section, const NamedColumn& one) {
    CAPTURE(section, one.name);
    CHECK(column_for(table_of(draft, section), one.field) == one.name);
    const std::string units = std::string("units = { ") + one.field + " = \"" + one.unit + "\" }";
    CHECK((*one.unit == '\0' ? !contains(draft.district_file, "\nunits = ")
                             : contains(draft.district_file, units)));
}

}  // namespace

TEST_CASE("columns of units are told by the names that departments give them") {
    for (const NamedColumn one : {NamedColumn{"Unit #", "E1", "unit_id"},
                                  {"Unit No", "E1", "unit_id"},
                                  {"UnitNo", "E1", "unit_id"},
                                  {"Apparatus", "E1", "unit_id"},
                                  {"Truck Number", "E1", "unit_id"}}) {
        DraftFolder folder;
        folder.text("apparatus.csv", with_column("Station,Type", "S1,engine", one));
        check_named(folder.draft(), "apparatus", one);
    }
    for (const NamedColumn one : {NamedColumn{"Tank (gal)", "1000", "tank_gal"},
                                  {"TankGallons", "1000", "tank_gal"},
                                  {"Capacity (gal)", "1000", "tank_gal"},
                                  {"Water Tank Gal", "1000", "tank_gal"},
                                  {"Tank (l)", "4000", "tank_gal", "l"},
                                  {"Pump Capacity GPM", "1250", "pump_gpm"},
                                  {"GVWR (lbs)", "38000", "loaded_lb"},
                                  {"Width (in)", "98", "width_ft", "in"},
                                  {"Overall Width m", "2.5", "width_ft", "m"},
                                  {"Crew Size", "4", "crew"},
                                  {"Min. Crew", "2", "min_crew"}}) {
        DraftFolder folder;
        folder.text("apparatus.csv", with_column("Unit,Station,Type", "E1,S1,engine", one));
        check_named(folder.draft(), "apparatus", one);
    }
}

TEST_CASE("columns of roads are told by the names that counties give them") {
    for (const NamedColumn one : {NamedColumn{"PostedSpd", "35", "speed_limit_mph"},
                                  {"POSTED_SPD", "35", "speed_limit_mph"},
                                  {"SPEEDLIM", "35", "speed_limit_mph"},
                                  {"SpdLim", "35", "speed_limit_mph"},
                                  {"SPEED_KMH", "50", "speed_limit_mph", "km/h"},
                                  {"PaveWidthFt", "18", "width_ft"},
                                  {"RdWidth_ft", "18", "width_ft"},
                                  {"PAVE_W_M", "5.5", "width_ft", "m"},
                                  {"IsBridge", "N", "bridge"},
                                  {"BRIDGE_FLG", "N", "bridge"},
                                  {"OneWay_Dir", "B", "one_way"},
                                  {"TRAVEL_DIR", "B", "one_way"},
                                  {"Months open", "4-11", "maintained_months"},
                                  {"WtLimitTon", "10", "weight_limit_lb", "short_ton"},
                                  {"Weight Limit (tonnes)", "10", "weight_limit_lb", "tonne"},
                                  {"WtLimit_lbs", "20000", "weight_limit_lb"},
                                  {"StreetName", "Mill Rd", "name"}}) {
        DraftFolder folder;
        folder.geopackage("roads.gpkg", {lines("roads", {"RDCLASS", one.name}, {"V", one.cell})});
        check_named(folder.draft(), "roads", one);
    }
}

TEST_CASE("a weight limit without a unit is taken by its size, the lightest that it may be") {
    for (const NamedColumn one : {NamedColumn{"WGT_LIMIT", "10", "weight_limit_lb", "short_ton"},
                                  {"POSTWT", "3", "weight_limit_lb", "short_ton"},
                                  {"MaxWeight", "20000", "weight_limit_lb"}}) {
        DraftFolder folder;
        folder.geopackage("roads.gpkg", {lines("roads", {"RDCLASS", one.name}, {"V", one.cell})});
        check_named(folder.draft(), "roads", one);
        CHECK(contains(folder.draft().district_file, "its numbers"));
    }
    DraftFolder folder;
    folder.geopackage("roads.gpkg", {lines("roads", {"RDCLASS", "WGT_LIMIT"}, {"V", "500"})});
    CHECK(table_of(folder.draft(), "roads").likely == Strings{"weight_limit_lb"});
}

TEST_CASE("columns without a unit are likely a width, and said to be no more") {
    for (const char* name : {"PaveWidth", "PAVE_W", "RdWidth"}) {
        CAPTURE(name);
        DraftFolder folder;
        folder.geopackage("roads.gpkg", {lines("roads", {"RDCLASS", name}, {"V", "18"})});
        CHECK(table_of(folder.draft(), "roads").likely == Strings{"width_ft"});
    }
}

TEST_CASE("columns of water sources are told by the names that departments give them") {
    for (const NamedColumn one : {NamedColumn{"Status", "tested", "standing"},
                                  {"STATUS", "declared", "standing"},
                                  {"Lift (ft)", "8", "static_lift_ft"},
                                  {"Lift (m)", "2.5", "static_lift_ft", "m"},
                                  {"Months open", "4-11", "open_months"},
                                  {"Open months", "4-11", "open_months"},
                                  {"Flow (gpm)", "500", "rate_gpm"},
                                  {"Flow (l/min)", "1900", "rate_gpm", "l/min"},
                                  {"Date Tested", "2024-05-01", "tested_on"},
                                  {"Main Dia (in)", "8", "main_in"}}) {
        DraftFolder folder;
        folder.text("sources.csv", with_column("Hydrant #,Type,Lon,Lat", "H1,hydrant,-72,43", one));
        check_named(folder.draft(), "water_sources", one);
        CHECK(column_for(table_of(folder.draft(), "water_sources"), "source_id") == "Hydrant #");
    }
    // Of a full pond, or at drought level: nobody says.
    for (const char* name : {"Capacity (gal)", "Cap gal", "CAPACITY_GALLONS"}) {
        CAPTURE(name);
        DraftFolder folder;
        folder.text("sources.csv", with_column("Hydrant #,Type,Lon,Lat", "H1,cistern,-72,43",
                                               {name, "30000", ""}));
        CHECK(table_of(folder.draft(), "water_sources").likely == Strings{"usable_gal"});
    }
}

TEST_CASE("columns of parcels are told by the names that counties give them") {
    for (const char* id : {"PIN", "MAP_LOT", "MAPLOT", "MapLot", "ParcelNo", "PARCEL_NUM", "PCL_ID",
                           "TaxMapLot", "MAP_BLK_LOT"}) {
        CAPTURE(id);
        DraftFolder folder;
        folder.geopackage("parcels.gpkg", {lots("parcels", id)});
        CHECK(column_for(table_of(folder.draft(), "parcels"), "parcel_id") == id);
    }
    for (const NamedColumn one : {NamedColumn{"FireDist", "East", "zone"},
                                  {"FIRE_DIST", "East", "zone"},
                                  {"NumStories", "2", "storeys"},
                                  {"TotAssdVal", "250000", "value"}}) {
        DraftFolder folder;
        MadeLayer layer = lots("parcels", "PIN");
        layer.columns.emplace_back(one.name);
        for (auto& row : layer.rows) {
            row.second.emplace_back(one.cell);
        }
        folder.geopackage("parcels.gpkg", {layer});
        check_named(folder.draft(), "parcels", one);
    }
    for (const char* address : {"SitusAddr", "LOC_ADDR", "SITUSADDRESS", "PropLoc", "PHYSADDR"}) {
        CAPTURE(address);
        DraftFolder folder;
        MadeLayer layer = lots("parcels", "PIN");
        layer.columns[1] = address;
        folder.geopackage("parcels.gpkg", {layer});
        CHECK(column_for(table_of(folder.draft(), "parcels"), "address") == address);
    }
}

TEST_CASE("a unit in a column's name is the unit that its numbers are read in") {
    DraftFolder folder;
    folder.geopackage("county.gpkg",
                      {lots("parcels", "PIN"),
                       lines("roads", {"RDCLASS", "PaveWidth_m", "WtLimitTon", "SpdLim_kmh"},
                             {"V", "5", "10", "50"})});
    folder.text("stations.csv", "Station,Lon,Lat\nS1,-71.99,43\n");
    folder.text("apparatus.csv", "Unit #,Station,Type,Tank (l)\nE1,S1,engine,3785.41\n");
    folder.text("sources.csv", "Hydrant #,Type,Lift (m),Lon,Lat\nW1,dry hydrant,3,-71.99,43\n");
    const Draft draft = folder.draft();
    const ReadResult read = read_district(
        parse_district_file(draft.district_file, draft.folder / "district.toml"), Work{});
    const Road& road = read.district.roads.front();
    CHECK(in_feet(*road.width) == Approx(16.404).margin(0.01));
    CHECK(in_pounds(*road.weight_limit) == Approx(20'000.0));
    REQUIRE(read.district.units.size() == 1);
    CHECK(in_gallons(read.district.units.front().tank) == Approx(1000.0).margin(0.1));
}

TEST_CASE("where two columns compete for a field the better is taken and both are said") {
    DraftFolder folder;
    folder.geopackage("roads.gpkg",
                      {lines("roads", {"SPEEDLIM", "POSTED_SPD", "RDCLASS"}, {"30", "35", "V"})});
    const Draft draft = folder.draft();
    const DraftTable roads = table_of(draft, "roads");
    CHECK(column_for(roads, "speed_limit_mph") == "SPEEDLIM");
    CHECK(contains(draft.district_file,
                   "# speed_limit_mph could be SPEEDLIM or POSTED_SPD; SPEEDLIM is taken, for its "
                   "name is the nearer"));
    CHECK(
        roads.competing ==
        Strings{"speed_limit_mph could be SPEEDLIM or POSTED_SPD; SPEEDLIM is taken, for its name "
                "is the nearer one"});
    // One that is empty is none.
    DraftFolder empty;
    empty.geopackage("roads.gpkg",
                     {lines("roads", {"SPEEDLIM", "POSTED_SPD", "RDCLASS"}, {"", "35", "V"})});
    CHECK(column_for(table_of(empty.draft(), "roads"), "speed_limit_mph") == "POSTED_SPD");
    CHECK(table_of(empty.draft(), "roads").competing.empty());
}

TEST_CASE("a column that nothing reads and that could make an answer worse is said") {
    struct Unread {
        const char* name;
        const char* cell;
        const char* sentence;
    };
    for (const Unread one :
         {Unread{"BRG_LOAD", "300",
                 "roads.BRG_LOAD looks like a weight limit, but is not read; if it is, write "
                 "weight_limit_lb = \"BRG_LOAD\" in [roads.columns], and its unit in units"},
          {"WinterOpen", "N",
           "roads.WinterOpen looks like when the road is ploughed or closed, but is not read; if "
           "it "
           "is, write maintained_months = \"WinterOpen\" in [roads.columns] with the months in "
           "which each of its words leaves the road open in [roads.values.maintained_months]"},
          {"SEASONAL", "Y",
           "roads.SEASONAL looks like when the road is ploughed or closed, but is not read; if it "
           "is, take the # away from maintained_months in [roads.columns] with the months in which "
           "each of its words leaves the road open in [roads.values.maintained_months]"},
          {"LockedGate", "Y",
           "roads.LockedGate looks like who may use the road, but is not read; if it is, write "
           "access = \"LockedGate\" in [roads.columns]"},
          {"OneWayCode", "9", ""},
          {"F_ZLEV", "0",
           "roads.F_ZLEV looks like which of two roads that cross is above, but is not read; if it "
           "is, write level = \"F_ZLEV\" in [roads.columns]"}}) {
        DraftFolder folder;
        folder.geopackage("roads.gpkg", {lines("roads", {"RDCLASS", one.name}, {"V", one.cell})});
        const Draft draft = folder.draft();
        CAPTURE(one.name);
        const Strings said = table_of(draft, "roads").overlooked;
        REQUIRE(said.size() == 1);
        CHECK((*one.sentence == '\0' || said.front() == one.sentence));
        CHECK(
            contains(draft.district_file, "# NOT READ: roads." + std::string(one.name) + " looks"));
    }
    // What says nothing of the kind, or holds nothing, is not said.
    for (const auto& [name, cell] :
         {std::pair{"CREATED_BY", "x"}, {"SEASONAL", ""}, {"SHLDR_WIDTH", "3"}, {"RTE_NO", "9"}}) {
        CAPTURE(name);
        DraftFolder folder;
        folder.geopackage("roads.gpkg", {lines("roads", {"RDCLASS", name}, {"V", cell})});
        CHECK(table_of(folder.draft(), "roads").overlooked.empty());
    }
}

TEST_CASE("an empty column that is read does not hide one that says something") {
    DraftFolder folder;
    folder.geopackage("roads.gpkg",
                      {lines("roads", {"RDCLASS", "Oneway", "Operation"}, {"V", "", "2"})});
    const DraftTable roads = table_of(folder.draft(), "roads");
    CHECK(column_for(roads, "one_way") == "Oneway");
    REQUIRE(roads.overlooked.size() == 1);
    CHECK(contains(roads.overlooked.front(), "roads.Operation looks like a one-way rule, but"));
}

TEST_CASE("a source's standing and a unit's state are said where nothing reads them") {
    DraftFolder folder;
    folder.text("sources.csv",
                "Hydrant #,Type,Status,Lon,Lat\nH1,hydrant,Out of service,-72,43\n"
                "H2,hydrant,Active,-72,43\n");
    folder.text("apparatus.csv", "Unit,Station,Type,Status\nE1,S1,engine,Reserve\n");
    const Draft draft = folder.draft();
    const Strings sources = table_of(draft, "water_sources").overlooked;
    REQUIRE(sources.size() == 1);
    CHECK(
        sources.front() ==
        "water_sources.Status looks like whether the source works or was tested, but is not read; "
        "if it is, take the # away from standing in [water_sources.columns]");
    // Its words stand there to be told.
    CHECK(contains(draft.district_file, "\n# [water_sources.values.standing]\n"));
    CHECK(contains(draft.district_file, "\n# \"Out of service\" = \"\"\n"));
    const Strings units = table_of(draft, "apparatus").overlooked;
    REQUIRE(units.size() == 1);
    CHECK(units.front() ==
          "apparatus.Status looks like whether the unit is in service, but is not read; no field "
          "holds it, so keep the records that count by where = \"\\\"Status\\\" = 'WORD'\" in "
          "[apparatus]");
}

TEST_CASE("a second limit beside the one that is read is said") {
    DraftFolder folder;
    folder.geopackage("roads.gpkg",
                      {lines("roads", {"RDCLASS", "POSTED_TON", "BRIDGE_WT"}, {"V", "10", "3"})});
    const DraftTable roads = table_of(folder.draft(), "roads");
    CHECK(column_for(roads, "weight_limit_lb") == "POSTED_TON");
    REQUIRE(roads.overlooked.size() == 1);
    CHECK(contains(
        roads.overlooked.front(),
        "roads.BRIDGE_WT looks like a weight limit, but is not read, only POSTED_TON is; "));
}

TEST_CASE("words of all records are told, not of the first ones") {
    DraftFolder folder;
    MadeLayer roads = lines("roads", {"RDCLASS", "POSTED"}, {"V", "35"});
    roads.rows.resize(1);
    for (int i = 1; i < 1000; ++i) {
        roads.rows.push_back(roads.rows.front());
    }
    roads.rows[200].second[0] = "VI";
    roads.rows[999].second[0] = "PVT";
    folder.geopackage("roads.gpkg", {roads});
    const std::string text = folder.draft().district_file;
    CHECK(contains(text, "# Words of the column RDCLASS in all 1000 records."));
    CHECK(contains(text, "\n# \"V\" = \"\"\n# \"VI\" = \"\"\n# \"PVT\" = \"\"\n"));
}

TEST_CASE("a limit of the last record tells that its column is no tons") {
    DraftFolder folder;
    MadeLayer roads = lines("roads", {"RDCLASS", "WGT_LIMIT"}, {"V", "10"});
    roads.rows.resize(1);
    for (int i = 1; i < 300; ++i) {
        roads.rows.push_back(roads.rows.front());
    }
    folder.geopackage("roads.gpkg", {roads});
    CHECK(column_for(table_of(folder.draft(), "roads"), "weight_limit_lb") == "WGT_LIMIT");
    roads.rows[299].second[1] = "20000";
    DraftFolder other;
    other.geopackage("roads.gpkg", {roads});
    CHECK(column_for(table_of(other.draft(), "roads"), "weight_limit_lb").empty());
}

TEST_CASE("of very many different words some are kept, and that there are more is said") {
    DraftFolder folder;
    MadeLayer roads = lines("roads", {"RDCLASS"}, {"V"});
    roads.rows.resize(1);
    for (int i = 0; i < 700; ++i) {
        roads.rows.push_back({roads.rows.front().first, {"C" + std::to_string(i)}});
    }
    folder.geopackage("roads.gpkg", {roads});
    const std::string text = folder.draft().district_file;
    CHECK(contains(text, "\n# \"C98\" = \"\"\n# ... and at least 400 more.\n"));
}

TEST_CASE("periods of all rows of a staffing table get a table") {
    DraftFolder folder;
    std::string rows = "unit,period,crew\n";
    for (int i = 0; i < 300; ++i) {
        rows += "E" + std::to_string(i) + (i < 250 ? ",day,2\n" : ",night,2\n");
    }
    folder.geopackage("parcels.gpkg", {lots("parcels", "PIN")});
    folder.text("staffing.csv", rows);
    CHECK(contains(folder.draft().district_file, "\n[period.\"day\"]\n[period.\"night\"]\n"));
}

TEST_CASE("of two layers that nothing tells apart it is said which is taken") {
    DraftFolder folder;
    folder.geopackage("lots_2023.gpkg", {lots("parcels", "PIN")});
    folder.geopackage("lots_2025.gpkg", {lots("parcels", "PIN")});
    const Draft draft = folder.draft();
    const DraftTable parcels = table_of(draft, "parcels");
    CHECK(parcels.source == "lots_2023.gpkg");
    REQUIRE(parcels.others.size() == 1);
    CHECK(parcels.others.front().second == "nothing tells them apart, so the first one is taken");
    CHECK(std::ranges::find(draft.missing,
                            "parcels: see whether it is lots_2023.gpkg or lots_2025.gpkg; nothing "
                            "tells them apart, and the first is taken") != draft.missing.end());
    CHECK(contains(draft.district_file, "is not used: lots_2025.gpkg (40 records): nothing"));
    // A larger one is another case.
    MadeLayer more = lots("parcels", "PIN");
    more.rows.push_back({square_wkt(40, 0, 1), {"9-9", "41 Mill Rd"}});
    DraftFolder sized;
    sized.geopackage("a.gpkg", {lots("parcels", "PIN")}).geopackage("b.gpkg", {more});
    const DraftTable larger = table_of(sized.draft(), "parcels");
    CHECK(larger.source == "b.gpkg");
    CHECK(larger.others.front().second ==
          "it has fewer records, and nothing else tells them apart");
}

TEST_CASE("inches of a pipe are its bore, and no length") {
    DraftFolder folder;
    folder.text("sources.csv",
                "Hydrant #,Type,PIPE_IN,Lift (in),Lon,Lat\nH1,dry hydrant,6,96,-72,43\n");
    const DraftTable sources = table_of(folder.draft(), "water_sources");
    CHECK(column_for(sources, "pipe_ft").empty());
    CHECK(column_for(sources, "pipe_diameter_in") == "PIPE_IN");
    CHECK(column_for(sources, "static_lift_ft").empty());
}

TEST_CASE("a joined table's column that is only likely is said to be unread") {
    DraftFolder folder;
    MadeLayer parcels = lots("parcels", "PIN");
    std::string rows = "MBLU,STORIES,FIRE_FLOW\n";
    for (const auto& row : parcels.rows) {
        rows += row.second[0] + ",2,1000\n";
    }
    folder.geopackage("parcels.gpkg", {parcels}).text("assessor.csv", rows);
    const Draft draft = folder.draft();
    const std::string said =
        "FIRE_FLOW of assessor.csv looks like the parcels' needed_gpm, but is not read; if it is, "
        "add needed_gpm = \"FIRE_FLOW\" to columns of that [[join]]";
    CHECK(table_of(draft, "join").overlooked == Strings{said});
    CHECK(contains(draft.district_file, "# NOT READ: FIRE_FLOW of assessor.csv looks like"));
}

TEST_CASE("words of a winter column are months to be told") {
    DraftFolder folder;
    folder.geopackage("county.gpkg", {lots("parcels", "PIN"),
                                      lines("roads", {"RDCLASS", "SEASONAL"}, {"V", "Y"})});
    folder.text("stations.csv", "Station,Lon,Lat\nS1,-71.99,43\n");
    folder.text("apparatus.csv", "Unit #,Station,Type\nE1,S1,engine\n");
    folder.text("sources.csv", "Hydrant #,Type,Lon,Lat\nW1,hydrant,-71.99,43\n");
    const Draft draft = folder.draft();
    std::string text = draft.district_file;
    // Taken up as it says: the road is open in those months.
    for (const auto& [from, to] :
         {std::pair{"# maintained_months = \"SEASONAL\"", "maintained_months = \"SEASONAL\" #"},
          {"# [roads.values.maintained_months]\n# \"Y\" = \"\"",
           "[roads.values.maintained_months]\n\"Y\" = \"4-11\""}}) {
        REQUIRE(contains(text, from));
        text.replace(text.find(from), std::string(from).size(), to);
    }
    const ReadResult read =
        read_district(parse_district_file(text, draft.folder / "district.toml"), Work{});
    const MonthSet months = read.district.roads.front().maintained;
    CHECK(months.contains(std::chrono::April));
    CHECK_FALSE(months.contains(std::chrono::January));
}
