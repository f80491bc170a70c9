// A whole district: what is read from well-formed input.
#include <catch2/catch.hpp>

#include "io/fingerprint.h"
#include "tests/io/read_scene.h"

using namespace farwater;
using namespace farwater::io;

TEST_CASE("a small district is read record for record") {
    const ReadResult read =
        ReadScene().top("data_date = 2026-05-31\ntanker_word = \"tender\"").read();
    const District& district = read.district;
    CHECK(district.name == "Scene");
    CHECK(district.tanker_word == "tender");
    CHECK(district.data_date ==
          Date(std::chrono::year(2026), std::chrono::May, std::chrono::day(31)));
    CHECK(read.crs.code == "EPSG:32618");
    REQUIRE(district.parcels.size() == 3);
    CHECK(district.parcels[1].id == "B");
    CHECK(district.parcels[1].row == 1);
    CHECK(district.parcels[1].house == Point{700150, 4770050});
    CHECK(district.parcels[1].house_from == HousePlace::inside_point);
    REQUIRE(district.roads.size() == 1);
    CHECK(district.roads[0].line == Polyline{{700000, 4769990}, {700300, 4769990}});
    CHECK(district.roads[0].kind == RoadClass::state);
    CHECK(district.roads[0].name == "Mill Road");
    CHECK(district.stations.size() == 2);
    REQUIRE(district.units.size() == 3);
    CHECK(at(district.stations, district.units[2].station).id == "S2");
    CHECK(district.seasons.size() == 1);
    CHECK(district.periods.size() == 1);
    for (const RecordCount& count : district.records) {
        CHECK(count.adds_up());
    }
}

TEST_CASE("every input is named with layer, records and sha256") {
    const ReadScene scene;
    const ReadResult read = scene.read();
    REQUIRE(read.inputs.size() == 4);
    CHECK(read.inputs[0].section == "parcels");
    CHECK(read.inputs[0].file == "parcels.csv");
    CHECK(read.inputs[0].layer == "parcels");
    CHECK(read.inputs[0].features == 3);
    CHECK(read.inputs[0].sha256 == sha256_of_file(scene / "parcels.csv"));
    CHECK(read.inputs[0].note.empty());
}

TEST_CASE("without building data every parcel counts as improved, and it is said once") {
    const ReadResult read = ReadScene().read();
    CHECK_FALSE(read.district.buildings_known);
    CHECK(read.district.parcels[0].improved);
    REQUIRE(read.district.problems.size() == 1);
    CHECK(sentence(read.district.problems[0]) ==
          "parcels (parcels.csv): says nothing about buildings; every parcel counts as improved; "
          "add a building layer or "
          "map a column.");
}

TEST_CASE("the largest building of a parcel is its house") {
    const ReadResult read = ReadScene()
                                .layer("buildings",
                                       "building_id,WKT\n"
                                       "b1,\"POLYGON ((700010 4770010,700020 4770010,700020 "
                                       "4770020,700010 4770020,700010 4770010))\"\n"
                                       "b2,\"POLYGON ((700040 4770040,700060 4770040,700060 "
                                       "4770060,700040 4770060,700040 4770040))\"\n"
                                       "b3,POINT (700250 4770090)\n")
                                .read();
    const std::vector<Parcel>& parcels = read.district.parcels;
    CHECK(read.district.buildings_known);
    CHECK(parcels[0].buildings == 2);
    CHECK(parcels[0].improved);
    CHECK(parcels[0].house == Point{700050, 4770050});
    CHECK(parcels[0].house_from == HousePlace::building);
    CHECK(parcels[0].building_area_m2 == 400.0F);
    CHECK(parcels[1].buildings == 0);
    CHECK_FALSE(parcels[1].improved);
    CHECK(parcels[1].house_from == HousePlace::inside_point);
    CHECK(parcels[2].house == Point{700250, 4770090});
    CHECK(parcels[2].building_area_m2 == 0.0F);
    CHECK(count_of(read, "buildings") == "3 = 3 + 0 + 0");
}

TEST_CASE("an address point is a better house than a building, by key before by place") {
    const ReadResult read =
        ReadScene()
            .layer("buildings",
                   "building_id,WKT\nb1,POINT (700050 4770050)\nb2,POINT (700150 4770050)\n")
            .layer("address_points",
                   "parcel_id,WKT\n"
                   ",POINT (700005 4770005)\n"
                   ",POINT (700105 4770005)\n"
                   "B,POINT (700195 4770005)\n"
                   "C,POINT (700205 4769999)\n")
            .read();
    const std::vector<Parcel>& parcels = read.district.parcels;
    CHECK(parcels[0].house == Point{700005, 4770005});
    CHECK(parcels[0].house_from == HousePlace::address_point);
    CHECK(parcels[1].house == Point{700195, 4770005});
    CHECK(parcels[2].house == Point{700205, 4769999});
    CHECK_FALSE(parcels[2].improved);
    CHECK(count_of(read, "address_points") == "4 = 4 + 0 + 0");
}

TEST_CASE("a column of building counts tells which parcels are improved") {
    const ReadResult read =
        ReadScene()
            .layer(
                "parcels",
                "parcel_id,buildings,WKT\n"
                "A,2,\"POLYGON ((700000 4770000,700100 4770000,700100 4770100,700000 4770000))\"\n"
                "B,0,\"POLYGON ((700100 4770000,700200 4770000,700200 4770100,700100 4770000))\"\n"
                "C,,\"POLYGON ((700200 4770000,700300 4770000,700300 4770100,700200 4770000))\"\n")
            .read();
    const std::vector<Parcel>& parcels = read.district.parcels;
    CHECK(read.district.buildings_known);
    CHECK(parcels[0].buildings == 2);
    CHECK(parcels[0].improved);
    CHECK_FALSE(parcels[1].improved);
    CHECK(parcels[2].improved);  // not known never helps
}

TEST_CASE("joined tables add fields to the parcels by key") {
    const ReadResult read =
        ReadScene()
            .layer(
                "parcels",
                "parcel_id,lot,WKT\n"
                "A,007,\"POLYGON ((700000 4770000,700100 4770000,700100 4770100,700000 "
                "4770000))\"\n"
                "B,7,\"POLYGON ((700100 4770000,700200 4770000,700200 4770100,700100 4770000))\"\n"
                "C,9,\"POLYGON ((700200 4770000,700300 4770000,700300 4770100,700200 4770000))\"\n")
            .file("assessor.csv", "PID,BLDGS,L\nA,1,60\nB,0,\n")
            .file("lots.csv", "LOT,ZONE,WHERE\n007,west,1 Mill Road\n7,east,\n")
            .section("parcels", "crs = \"EPSG:32618\"\nunits = { setback_ft = \"m\" }")
            .end(
                "[[join]]\nfile = \"assessor.csv\"\nkey = \"PID\"\ncolumns = { buildings = "
                "\"BLDGS\", "
                "setback_ft = \"L\" }\n[[join]]\nfile = \"lots.csv\"\nkey = \"LOT\"\nparcel_key = "
                "\"lot\"\ncolumns = { zone = \"ZONE\", address = \"WHERE\" }\n")
            .read();
    const std::vector<Parcel>& parcels = read.district.parcels;
    CHECK(parcels[0].improved);
    CHECK(in_metres(*parcels[0].setback) == Approx(60.0));
    CHECK(parcels[0].zone == "west");
    CHECK_FALSE(parcels[1].improved);
    CHECK_FALSE(parcels[1].setback);
    CHECK(parcels[1].zone == "east");
    CHECK(parcels[2].zone.empty());
    REQUIRE(read.addresses.size() == 3);
    CHECK(read.addresses[0] == "1 Mill Road");
    CHECK(read.addresses[1].empty());
    CHECK(read.addresses[2].empty());
    CHECK(parcels[2].improved);
    CHECK(read.district.buildings_known);
    CHECK(count_of(read, "join") == "2 = 2 + 0 + 0");
}

TEST_CASE("ids stay text, with their leading zeros") {
    const ReadResult read =
        ReadScene()
            .layer(
                "parcels",
                "parcel_id,WKT\n"
                "007,\"POLYGON ((700000 4770000,700100 4770000,700100 4770100,700000 4770000))\"\n"
                "7,\"POLYGON ((700100 4770000,700200 4770000,700200 4770100,700100 4770000))\"\n")
            .read();
    CHECK(read.district.parcels[0].id == "007");
    CHECK(read.district.parcels[1].id == "7");
}

TEST_CASE(
    "columns are mapped by name, by other upper and lower case, and through values and units") {
    const ReadResult read =
        ReadScene()
            .layer("roads",
                   "CLS,Access,DIR,w,limit,NAME,MaxKg,WKT\n"
                   "II,,T,6,80,Mill Road,9000,\"LINESTRING (700000 4769990,700300 4769990)\"\n")
            .section("roads", R"(crs = "EPSG:32618"
columns = { class = "CLS", one_way = "DIR", width_ft = "w", speed_limit_mph = "limit", weight_limit_lb = "maxkg" }
units = { width_ft = "m", speed_limit_mph = "km/h", weight_limit_lb = "kg" }
values = { class = { II = "state" }, one_way = { F = "forward", T = "backward" } })")
            .read();
    const Road& road = read.district.roads.at(0);
    CHECK(road.kind == RoadClass::state);
    CHECK(road.access == RoadAccess::open);
    CHECK(road.one_way == OneWay::backward);
    CHECK(road.name == "Mill Road");
    CHECK(in_metres(*road.width) == Approx(6.0));
    CHECK(in_mph(*road.posted_speed) == Approx(49.7096953789867));
    CHECK(in_pounds(*road.weight_limit) == Approx(9000.0 / 0.45359237));
    CHECK_FALSE(road.height_limit);
}

TEST_CASE("a value that is mapped to nothing is not known and no problem") {
    ReadScene scene;
    scene
        .layer(
            "roads",
            "class,speed_limit_mph,WKT\npaved,999,\"LINESTRING (700000 4769990,700300 4769990)\"\n")
        .section("roads", "crs = \"EPSG:32618\"\nvalues = { speed_limit_mph = { 999 = \"\" } }");
    CHECK_FALSE(scene.read().district.roads.at(0).posted_speed);
    CHECK(scene.sentences().empty());
}

TEST_CASE("roads take all their fields") {
    const ReadResult read =
        ReadScene()
            .layer("roads",
                   "class,access,one_way,bridge,tunnel,level,rail_crossing,maintained_months,"
                   "height_limit_ft,WKT\n"
                   "gravel,private,-1,yes,1,2,Y,4-11,12.5,\"LINESTRING (700000 4769990,700300 "
                   "4769990)\"\n"
                   "drive,closed,yes,no,,,,,,\"LINESTRING Z (700000 4769990 5,700300 4769990 6)\"\n"
                   "narrow,,no,,,,,,,\"LINESTRING (700000 4769990,700300 4769990)\"\n"
                   ",closed,,,,,,,,\"LINESTRING (700000 4769990,700300 4769990)\"\n")
            .read();
    const Road& first = read.district.roads.at(0);
    CHECK(first.kind == RoadClass::gravel);
    CHECK(first.access == RoadAccess::private_road);
    CHECK(first.one_way == OneWay::backward);
    CHECK(first.bridge);
    CHECK(first.tunnel);
    CHECK(first.rail_crossing);
    CHECK(first.level == 2);
    CHECK_FALSE(first.maintained.contains(std::chrono::January));
    CHECK(first.maintained.contains(std::chrono::April));
    CHECK(in_feet(*first.height_limit) == Approx(12.5));
    const Road& second = read.district.roads.at(1);
    CHECK(second.one_way == OneWay::forward);
    CHECK_FALSE(second.bridge);
    CHECK(second.maintained == MonthSet::all());
    CHECK(second.line.size() == 2);
    CHECK(read.district.roads.at(2).one_way == OneWay::both);
    CHECK(read.district.roads.at(2).kind_known);
    CHECK(read.district.roads.at(3).kind == RoadClass::narrow);
    CHECK_FALSE(read.district.roads.at(3).kind_known);
}

TEST_CASE("a line of several parts becomes several roads of the same row") {
    const ReadResult read =
        ReadScene()
            .layer("roads",
                   "class,WKT\npaved,\"LINESTRING (700000 4769990,700300 4769990)\"\n"
                   "state,\"MULTILINESTRING ((700000 4769990,700100 4769990),(700200 "
                   "4769990,700300 4769990))\"\n")
            .read();
    REQUIRE(read.district.roads.size() == 3);
    CHECK(read.district.roads[1].row == 1);
    CHECK(read.district.roads[2].row == 1);
    CHECK(read.district.roads[2].line.front() == Point{700200, 4769990});
    CHECK(count_of(read, "roads") == "2 = 2 + 0 + 0");
}

TEST_CASE("water sources take all their fields") {
    const ReadResult read = ReadScene()
                                .layer("water_sources",
                                       "source_id,name,kind,standing,standing_by,tested_on,use,own_"
                                       "parcel,system,open_months,frost_proof,rate_gpm,"
                                       "usable_gal,inflow_gpm,places,reach,fills_without_engine,"
                                       "static_lift_ft,all_weather,lane,owner,note,WKT\n"
                                       "H1,Main,hydrant,tested,Chief,2025-06-01,rating,A,village,4-"
                                       "11,yes,750,unlimited,10,2,portable_pump,no,8.5,"
                                       "no,dead_end,Smith,gate code,POINT (700050 4769990)\n"
                                       "P1,,draft_site,,,,,,,,,,\"65000\",,,,,,,,,,"
                                       "\"POLYGON ((700000 4770200,700100 4770200,700100 "
                                       "4770300,700000 4770300,700000 4770200))\"\n")
                                .read();
    REQUIRE(read.district.sources.size() == 2);
    const WaterSource& hydrant = read.district.sources[0];
    CHECK(hydrant.id == "H1");
    CHECK(hydrant.name == "Main");
    CHECK(hydrant.kind == SourceKind::hydrant);
    CHECK(hydrant.standing == Standing::tested);
    CHECK(hydrant.standing_by == "Chief");
    CHECK(hydrant.tested_on ==
          Date(std::chrono::year(2025), std::chrono::June, std::chrono::day(1)));
    CHECK(hydrant.use == SourceUse::rating);
    REQUIRE(hydrant.degrees);  // by the transverse Mercator series of Krueger, computed apart
    CHECK(hydrant.degrees->latitude == Approx(43.0562492).margin(1e-6));
    CHECK(hydrant.degrees->longitude == Approx(-72.5434605).margin(1e-6));
    CHECK(hydrant.own_parcel == "A");
    CHECK(hydrant.system == "village");
    CHECK_FALSE(hydrant.open_months.contains(std::chrono::March));
    CHECK(hydrant.frost_proof);
    CHECK(hydrant.rate == gpm(750));
    CHECK(hydrant.usable == UsableWater::unlimited());
    CHECK(hydrant.inflow == gpm(10));
    CHECK(hydrant.places == 2);
    CHECK(hydrant.reach == Reach::portable_pump);
    CHECK(hydrant.fills_without_engine == false);
    CHECK(in_feet(hydrant.suction.lift.value()) == Approx(8.5));
    CHECK(hydrant.all_weather == false);
    CHECK(hydrant.lane == LaneClass::dead_end);
    CHECK(hydrant.owner == "Smith");
    CHECK(hydrant.note == "gate code");
    const WaterSource& pond = read.district.sources[1];
    CHECK(pond.place == Point{700050, 4770250});
    CHECK(pond.standing == Standing::mapped);
    CHECK(pond.usable == UsableWater::of(gallons(65000)));
    CHECK(pond.reach == Reach::engine);
    CHECK_FALSE(pond.fills_without_engine);
    CHECK_FALSE(pond.rate);
    CHECK(read.district.problems.size() == 1);
}

TEST_CASE("sources take what is known of hydrant, pipe and pond, in other units too") {
    const ReadResult read =
        ReadScene()
            .layer("water_sources",
                   "source_id,kind,static_psi,residual_psi,test_flow_gpm,pitot_psi,outlet_in,"
                   "outlet_coefficient,colour_class,main_in,dead_end_main,pipe_ft,pipe_diameter_in,"
                   "pipe_material,elbows_90,elbows_45,strainer_loss_ft,suction_hose_ft,"
                   "drought_area_acre,intake_depth_ft,sounded,ice_ft,system_rate_gpm,WKT\n"
                   "H1,hydrant,64,48,1000,16,2.5,0.9,green,150,yes,,,,,,,,,,,,1500,"
                   "POINT (700050 4769990)\n"
                   "D1,dry_hydrant,,,,,,,,,,60,8,plastic,2,1,4,10,0.4,6,yes,1.5,,"
                   "POINT (700060 4769990)\n")
            .section("water_sources",
                     "crs = \"EPSG:32618\"\n"
                     "units = { main_in = \"mm\", drought_area_acre = \"ha\" }")
            .read();
    REQUIRE(read.district.sources.size() == 2);
    const HydrantData& hydrant = read.district.sources[0].hydrant;
    CHECK(hydrant.static_psi == 64.0);
    CHECK(hydrant.residual_psi == 48.0);
    CHECK(hydrant.test_flow == gpm(1000));
    CHECK(hydrant.pitot_psi == 16.0);
    CHECK(in_inches(hydrant.outlet.value()) == Approx(2.5));
    CHECK(hydrant.outlet_coefficient == 0.9);
    CHECK(hydrant.colour == HydrantColour::green);
    CHECK(in_inches(hydrant.main.value()) == Approx(5.90551));
    CHECK(hydrant.dead_end_main == true);
    CHECK(read.district.sources[0].system_rate == gpm(1500));
    const SuctionData& suction = read.district.sources[1].suction;
    CHECK(in_feet(suction.pipe.value()) == Approx(60));
    CHECK(in_inches(suction.pipe_diameter.value()) == Approx(8));
    CHECK(suction.material == PipeMaterial::plastic);
    CHECK(suction.elbows_90 == 2);
    CHECK(suction.elbows_45 == 1);
    CHECK(in_feet(suction.strainer_loss.value()) == Approx(4));
    CHECK(in_feet(suction.hose.value()) == Approx(10));
    const StillWater& still = read.district.sources[1].still;
    CHECK(in_acres(still.area.value()) == Approx(0.98842));
    CHECK(in_feet(still.over_intake.value()) == Approx(6));
    CHECK(still.sounded);
    CHECK(in_feet(still.ice.value()) == Approx(1.5));
}

TEST_CASE("what cannot be true of a source is a problem and not known") {
    const ReadResult read = ReadScene()
                                .layer("water_sources",
                                       "source_id,kind,pipe_diameter_in,residual_psi,pipe_ft,"
                                       "colour_class,pipe_material,dead_end_main,sounded,WKT\n"
                                       "D1,dry_hydrant,60,-5,-1,purple,straw,perhaps,perhaps,"
                                       "POINT (700050 4769990)\n")
                                .read();
    REQUIRE(read.district.sources.size() == 1);
    const WaterSource& source = read.district.sources[0];
    CHECK_FALSE(source.suction.pipe_diameter);
    CHECK_FALSE(source.hydrant.residual_psi);
    CHECK_FALSE(source.suction.pipe);
    CHECK(source.hydrant.colour == HydrantColour::red);
    CHECK(source.suction.material == PipeMaterial::old_iron);
    CHECK(source.hydrant.dead_end_main == true);
    CHECK_FALSE(source.still.sounded);
    std::size_t out_of_range = 0;
    std::size_t unmapped = 0;
    for (const Problem& problem : read.district.problems) {
        out_of_range += problem.id == ProblemId::number_out_of_range ? 1 : 0;
        unmapped += problem.id == ProblemId::value_not_mapped ? 1 : 0;
    }
    CHECK(out_of_range == 3);
    CHECK(unmapped == 4);
}

TEST_CASE("mapped water has a place and an area") {
    const ReadResult read = ReadScene()
                                .layer("mapped_water",
                                       "name,WKT\nLong Pond,\"POLYGON ((700000 4770200,700100 "
                                       "4770200,700100 4770300,700000 4770300,700000 4770200))\"\n")
                                .read();
    REQUIRE(read.district.mapped_water.size() == 1);
    CHECK(read.district.mapped_water[0].id == "row 1");
    CHECK(read.district.mapped_water[0].name == "Long Pond");
    CHECK(read.district.mapped_water[0].area_m2 == Approx(10000.0));
}

TEST_CASE("a truck that weighs less full than empty and its water together has no known weight") {
    const ReadResult read =
        ReadScene()
            .table("apparatus",
                   "unit_id,station_id,kind,tank_gal,loaded_lb,empty_lb\n"
                   "T1,S1,tanker,3000,22000,\n"       // its water alone weighs 25,020 lb
                   "T2,S1,tanker,3000,40000,35000\n"  // loaded and empty exchanged, or so
                   "T3,S1,tanker,3000,58000,35000\n"
                   "T4,S1,tanker,3000,46000,\n"
                   "E1,S1,engine,,9000,\n"  // of its tank nothing is known
                   "E2,S1,engine,1000,9000,\n")
            .read();
    const std::vector<Unit>& units = read.district.units;
    REQUIRE(units.size() == 6);
    CHECK_FALSE(units[0].loaded);
    CHECK_FALSE(units[1].loaded);
    CHECK(units[1].empty == pounds(35000));
    CHECK(units[2].loaded == pounds(58000));
    CHECK(units[3].loaded == pounds(46000));
    CHECK(units[4].loaded == pounds(9000));
    CHECK_FALSE(units[5].loaded);
    std::vector<std::string> told;
    for (const Problem& problem : read.district.problems) {
        if (problem.field == "loaded_lb") {
            CHECK(problem.id == ProblemId::number_out_of_range);
            told.push_back(problem.record + ": " + problem.detail);
        }
    }
    REQUIRE(told.size() == 3);
    CHECK(told[0] ==
          "T1: 22000 lb is less than the empty truck and its water weigh, 25518 lb at least");
}

TEST_CASE("units take all their fields") {
    const ReadResult read = ReadScene()
                                .table("apparatus",
                                       "unit_id,station_id,kind,aid,tank_gal,pump_gpm,fill_limit_"
                                       "gpm,offload_gpm,tested_on,portable_tank_gal,"
                                       "portable_tanks,crew,min_crew,loaded_lb,empty_lb,width_ft,"
                                       "height_ft,top_speed_mph,power_hp,hose_2_5in_ft,hose_3in_ft,"
                                       "hose_4in_ft,hose_5in_ft,jet_siphons,low_level_strainers,"
                                       "hard_suction_ft,backs_to_offload\n"
                                       "T1,S1,tanker,automatic,3000,500,900,1000,2024-05-01,5000,2,"
                                       "2,1,60000,35000,8.5,11,55,410,200,,,1000,1,1,20,no\n"
                                       "E1,S2,engine,,,,,,,2500,,,,,,,,,,,,,,,,,\n"
                                       "X1,S2,other,,,,,,,,,,,,,,,,,,,,,,,,\n")
                                .layer("stations",
                                       "station_id,name,aid,staffed,to_gate_min,WKT\nS1,North,own,"
                                       "yes,,POINT (700010 4769995)\n"
                                       "S2,Far,mutual,,7.5,POINT (700290 4769995)\n")
                                .read();
    const std::vector<Unit>& units = read.district.units;
    REQUIRE(units.size() == 3);
    CHECK(units[0].kind == UnitKind::tanker);
    CHECK(units[0].aid == Aid::automatic);
    CHECK(units[0].tank == gallons(3000));
    CHECK(units[0].pump == gpm(500));
    CHECK(units[0].fill_limit == gpm(900));
    CHECK(units[0].offload == gpm(1000));
    CHECK(units[0].tested_on ==
          Date(std::chrono::year(2024), std::chrono::May, std::chrono::day(1)));
    CHECK(units[0].portable_tank == gallons(5000));
    CHECK(units[0].portable_tanks == 2);
    CHECK(units[0].crew == 2);
    CHECK(units[0].min_crew == 1);
    CHECK(units[0].loaded == pounds(60000));
    CHECK(units[0].empty == pounds(35000));
    CHECK(in_feet(units[0].width.value()) == Approx(8.5));
    CHECK(in_feet(units[0].height.value()) == Approx(11));
    CHECK(units[0].top_speed == mph(55));
    CHECK(units[0].power == horsepower(410));
    CHECK_FALSE(units[1].power);
    REQUIRE(units[0].hose);
    CHECK(in_feet(units[0].hose->hose_2_5in) == Approx(200));
    CHECK(in_feet(units[0].hose->hose_3in) == 0.0);
    CHECK(in_feet(units[0].hose->hose_5in) == Approx(1000));
    CHECK(units[0].jet_siphons == 1);
    CHECK(units[0].low_level_strainers == 1);
    CHECK(in_feet(units[0].hard_suction.value()) == Approx(20));
    CHECK_FALSE(units[0].backs_to_offload);
    CHECK(units[1].aid == Aid::mutual);  // its station's
    CHECK(units[1].tank == gallons(300));
    CHECK_FALSE(units[1].tank_known);
    CHECK(units[1].portable_tank_known);
    CHECK_FALSE(units[2].portable_tank_known);
    CHECK(units[1].portable_tanks == 1);
    CHECK_FALSE(units[1].hose);
    CHECK(units[1].backs_to_offload);
    CHECK(units[2].tank == gallons(0));
    CHECK(read.district.stations[0].staffed);
    CHECK(read.district.stations[0].name == "North");
    CHECK(read.district.stations[1].to_gate == minutes(7.5));
}

TEST_CASE("staffing, zones, targets, dump site places and turnarounds refer to what was read") {
    const ReadResult read =
        ReadScene()
            .table("staffing",
                   "unit_id,station_id,period,crew,turnout_min\nE1,,noon,2,\n,S2,night,,6.5\n")
            .table("response_zones", "zone,alarm,unit_id\nwest,1,E1\nwest,2,T2\n")
            .layer("targets",
                   "target_id,name,needed_gpm,duration_min,WKT\nM,Mill,1000,60,POINT (700500 "
                   "4770500)\n")
            .layer("dump_site_places",
                   "name,lane,turnaround,portable_tanks,WKT\nGreen,through,yes,2,POINT (700020 "
                   "4769990)\n")
            .layer("turnarounds", "turnaround_id,name,WKT\nT1,Circle,POINT (700030 4769990)\n")
            .end("[period.noon]\n[period.night]\n")
            .read();
    const District& district = read.district;
    REQUIRE(district.staffing.size() == 2);
    CHECK(at(district.units, district.staffing[0].unit).id == "E1");
    CHECK_FALSE(district.staffing[0].station.valid());
    CHECK(at(district.periods, district.staffing[0].period).name == "noon");
    CHECK(district.staffing[0].crew == 2);
    CHECK_FALSE(district.staffing[1].unit.valid());
    CHECK(at(district.stations, district.staffing[1].station).id == "S2");
    CHECK(district.staffing[1].turnout == minutes(6.5));
    REQUIRE(district.response_rules.size() == 2);
    CHECK(district.response_rules[1].zone == "west");
    CHECK(district.response_rules[1].alarm == 2);
    CHECK(at(district.units, district.response_rules[1].unit).id == "T2");
    REQUIRE(district.targets.size() == 1);
    CHECK(district.targets[0].name == "Mill");
    CHECK(district.targets[0].needed == gpm(1000));
    REQUIRE(district.dump_site_places.size() == 1);
    CHECK(district.dump_site_places[0].id == "row 1");
    CHECK(district.dump_site_places[0].lane == LaneClass::through);
    CHECK(district.dump_site_places[0].portable_tanks == 2);
    CHECK(district.dump_site_places[0].turnaround);
    REQUIRE(district.turnarounds.size() == 1);
    CHECK(district.turnarounds[0].id == "T1");
    CHECK(district.turnarounds[0].name == "Circle");
}

TEST_CASE("layers in other coordinate systems land in the same place") {
    // The road of the scene in degrees and in New Hampshire feet.
    const auto line_of = [](const std::string& crs, const std::string& wkt) {
        return ReadScene()
            .layer("roads", "class,WKT\nstate,\"" + wkt + "\"\n")
            .section("roads", "crs = \"" + crs + "\"")
            .read()
            .district.roads.at(0)
            .line;
    };
    const Polyline degrees =
        line_of("EPSG:4326", "LINESTRING (-72.5440739 43.0562624,-72.5403933 43.0561833)");
    REQUIRE(degrees.size() == 2);
    CHECK(degrees[0].x == Approx(700000).margin(1.0));
    CHECK(degrees[0].y == Approx(4769990).margin(1.0));
    CHECK(degrees[1].x == Approx(700300).margin(1.0));
}

TEST_CASE("a district in feet is read in metres of its own coordinate system") {
    ReadScene scene;
    for (const char* name : {"parcels", "roads", "stations"}) {
        scene.section(name, "crs = \"EPSG:3437\"");
    }
    const ReadResult read =
        scene
            .layer("parcels",
                   "parcel_id,WKT\nA,\"POLYGON ((900000 200000,900100 200000,900100 200100,900000 "
                   "200100,900000 200000))\"\n")
            .section("parcels", "crs = \"EPSG:3437\"")
            .layer("roads", "class,WKT\nstate,\"LINESTRING (900000 199990,900300 199990)\"\n")
            .section("roads", "crs = \"EPSG:3437\"")
            .layer("stations",
                   "station_id,WKT\nS1,POINT (900000 199990)\nS2,POINT (900000 199990)\n")
            .section("stations", "crs = \"EPSG:3437\"")
            .read();
    CHECK(read.crs.code == "EPSG:3437");
    CHECK(read.crs.metres_per_unit == Approx(0.304800609601219));
    CHECK(in_metres(length_of(read.district.roads[0].line)) == Approx(300 * 1200.0 / 3937.0));
    CHECK(read.district.parcels[0].house.x == Approx(900050 * 1200.0 / 3937.0));
}

TEST_CASE("rows count the records under the section's filter") {
    const ReadResult read =
        ReadScene()
            .layer("parcels",
                   "parcel_id,town,WKT\n"
                   "A,Other,\"POLYGON ((700000 4770000,700100 4770000,700100 4770100,700000 "
                   "4770000))\"\n"
                   "B,Ours,\"POLYGON ((700100 4770000,700200 4770000,700200 4770100,700100 "
                   "4770000))\"\n")
            .section("parcels", "crs = \"EPSG:32618\"\nwhere = \"town = 'Ours'\"")
            .read();
    REQUIRE(read.district.parcels.size() == 1);
    CHECK(read.district.parcels[0].id == "B");
    CHECK(read.district.parcels[0].row == 0);
    CHECK(read.inputs[0].features == 1);
}

TEST_CASE("a run that is stopped comes back without an error") {
    std::stop_source stop;
    Work work;
    work.stop = stop.get_token();
    stop.request_stop();
    CHECK(ReadScene().read(work).district.parcels.empty());
}

TEST_CASE("progress names each layer and ends with its count") {
    std::vector<std::string> stages;
    Work work;
    work.progress = [&](std::string_view stage, std::size_t done, std::size_t total) {
        stages.push_back(std::string(stage) + " " + std::to_string(done) + "/" +
                         std::to_string(total));
    };
    ReadScene().read(work);
    CHECK(stages == std::vector<std::string>{"reading parcels 3/3", "reading roads 1/1",
                                             "reading stations 2/2", "reading apparatus 3/3"});
}
