// Every tunable value of the analysis, each with unit, default, range and source, in one table.
// `io` reads the district file's [assumptions] against the table and `reports` prints it, so a
// value that is used cannot be missing from either. Where values come from: see the rows in
// assumptions.cpp.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "analyzer/district/units.h"

namespace farwater {

struct Assumptions {
    // the alarm and who rolls
    Duration alarm_handling = minutes(1.5);
    Duration turnout_staffed = minutes(1.5);
    Duration turnout_volunteer = minutes(6.0);
    Duration request_delay = minutes(10.0);
    Duration mutual_turnout = minutes(8.0);
    int most_engines = 8;
    int most_tankers = 12;

    // who is needed at a fire with a shuttle, by job: run cards set it against who is there
    int crew_attack = 4;
    int crew_dump_site = 3;
    int crew_offload_slot = 2;
    int crew_fill_site = 3;
    int crew_traffic = 2;
    int crew_water_supply = 1;
    int crew_tanker = 1;

    // what is asked of the water
    Flow initial_attack = gpm(200);
    Duration initial_attack_after_arrival = minutes(1.5);
    Duration start_after_arrival = minutes(15.0);
    Duration duration = minutes(120.0);
    Duration late_horizon = minutes(60.0);
    Flow default_needed = gpm(500);
    double default_storeys = 2.0;
    Length storey_height = feet(9);
    Length roof_rise = feet(6);
    double firm_margin = 1.1;
    double stage_cv = 0.2;

    // tankers
    double delivered_fraction = 0.9;
    double refill_fraction = 1.0;
    Duration fill_before = minutes(1.0);
    Duration fill_after = minutes(1.0);
    Duration offload_before = minutes(1.0);
    Duration offload_after = minutes(0.5);
    Duration backing = minutes(2.0);
    Flow fill_limit = gpm(500);
    Flow offload = gpm(500);
    Flow nurse = gpm(400);
    Duration nurse_hookup = minutes(1.0);
    Speed speed_cap = mph(50);

    // setting up
    Duration setup_portable_tank = minutes(3.0);
    Duration setup_draft = minutes(5.0);
    Duration setup_hydrant = minutes(3.0);
    Duration setup_dry_hydrant = minutes(5.0);
    Duration setup_open_bank = minutes(8.0);

    // the dump site
    int offload_slots = 1;
    int most_portable_tanks = 3;
    int portable_tanks_where_unknown = 1;
    Length portable_tank_length = feet(16);
    Length portable_tank_width = feet(9);
    Length draft_engine_length = feet(35);
    Length free_lane = feet(10);
    Length portable_tank_heel = feet(2.0 / 12.0);
    Length portable_tank_depth = feet(29.7 / 12.0);
    Flow strainer = gpm(1500);
    Flow siphon = gpm(800);
    Flow siphon_drive = gpm(150);
    Flow engine_pump = gpm(750);
    Volume engine_tank = gallons(300);
    Length dump_site_spacing = feet(800);
    Length dump_site_length = feet(100);
    double steepest_dump_site_pct = 5.0;
    Length level_reach = feet(400);
    double portable_tank_slope_loss = 0.03;
    Length standoff = feet(150);
    Length turnaround_reach = feet(1000);
    Length two_way_width = feet(16);

    // hose
    Length hose_reach = feet(1000);
    Length relay_reach = feet(3000);
    Duration lay_1000ft = minutes(5.0);
    Length off_road_hose = feet(300);
    double setback_factor = 1.25;
    Length setback_extra = feet(50);
    Length engine_hose_2_5in = feet(800);
    double supply_line_pressure_psi = 185.0;
    double residual_pressure_psi = 20.0;

    // water sources
    Flow hydrant_rate = gpm(500);
    Flow dry_hydrant_rate = gpm(500);
    Flow draft_site_rate = gpm(250);
    Flow cistern_rate = gpm(500);
    Flow portable_pump_rate = gpm(250);
    Volume hydrant_system_storage = gallons(30000);
    Flow weak_main_rate = gpm(250);
    Length weak_main = inches(4);
    double hydrant_residual_psi = 20.0;
    double outlet_coefficient = 0.7;
    double suction_test_valid_months = 12.0;
    double hydrant_test_valid_months = 60.0;
    int fill_sites_per_class = 3;
    Length one_water_within = feet(2640);

    // suction: how water gets to a pump, and how much of a pond it can have
    Length most_lift = feet(15);
    Length most_suction_head = feet(20);
    Length suction_hose = feet(20);
    Length suction_hose_bore = inches(6);
    Length unknown_pipe = feet(100);
    Length unknown_pipe_bore = inches(6);
    int unknown_elbows_90 = 2;
    int unknown_elbows_45 = 2;
    Length elbow_90 = feet(20);
    Length elbow_45 = feet(10);
    Length pipe_strainer_loss = feet(4.8);
    Length hose_strainer_loss = feet(0.5);
    Length altitude = feet(2000);
    double water_temperature_f = 80.0;
    Length strainer_depth = feet(2);
    Length surface_loss = feet(2);
    double unsounded_share = 0.4;

    // sources that are proposed: what would be built where a road comes near mapped water
    Length new_pipe_reach = feet(150);
    Length new_pipe_beyond_shore = feet(25);
    Length new_pipe_bore = inches(8);
    Length new_pump_height = feet(3);
    Length drought_drop = feet(3);
    Flow new_source = gpm(1000);
    Length most_drawdown = feet(6);
    double dry_hydrant_cost = 0.0;

    // and the cisterns that are proposed at junctions and on public land
    int most_new_cisterns = 12;
    Length new_cistern_apart = feet(2640);
    Length new_cistern_serves = feet(5280);
    Volume new_cistern = gallons(30000);
    Length new_cistern_lift = feet(12);
    Length new_cistern_riser = feet(30);
    double cistern_cost = 0.0;

    // weights and engine power where the apparatus list has none
    Weight tanker_chassis = pounds(22000);
    double tanker_pounds_per_gallon = 10.0;
    Weight engine_loaded = pounds(40000);
    Power tanker_power = horsepower(350);
    Power engine_power = horsepower(350);

    // roads and speeds (planning averages, loaded)
    Speed speed_state = mph(45);
    Speed speed_paved = mph(35);
    Speed speed_paved_lane = mph(30);
    Speed speed_gravel = mph(25);
    Speed speed_narrow = mph(20);
    Speed speed_drive = mph(10);
    double empty_speed_factor = 1.1;
    Length access_reach = feet(1500);
    Length frontage_slack = feet(50);
    Length join_tolerance = metres(0.05);
    bool join_crossings = true;
    Length gap_tolerance = feet(15);
    Duration trip_limit = minutes(30.0);
    bool private_roads_usable = false;
    bool gated_roads_usable = false;
    bool unmaintained_roads_usable = false;
    int max_profiles = 4;

    // Keys that the district file gave, in the file's order; all others rest on their default.
    std::vector<std::string> given;
    bool is_given(std::string_view key) const;
};

// How far a default can be defended.
enum class Sure : std::uint8_t { high, medium, low };

struct AssumptionRow {
    using Member = std::variant<Duration Assumptions::*, Flow Assumptions::*, Volume Assumptions::*,
                                Length Assumptions::*, Speed Assumptions::*, Weight Assumptions::*,
                                Power Assumptions::*, double Assumptions::*, int Assumptions::*,
                                bool Assumptions::*>;
    std::string_view
        key;  // ends in its unit: _min _mi _ft _gal _gpm _mph _lb _hp _in; none for plain numbers
    std::string_view group;  // heading of the reference page
    Member member;
    double low, high;  // allowed range, in the key's unit
    Sure sure;
    std::string_view what;    // one sentence
    std::string_view source;  // published source, "from memory", or "common practice, no source"
};

std::span<const AssumptionRow> assumption_rows();  // in the order of the struct

// The value in the unit that the key names (feet for _ft, 1 or 0 for a yes/no).
double value_in_key_unit(const Assumptions& assumptions, const AssumptionRow& row);
// The same with `value` in the key's unit put in. Precondition: low <= value <= high.
void set_in_key_unit(Assumptions& assumptions, const AssumptionRow& row, double value);

}  // namespace farwater
