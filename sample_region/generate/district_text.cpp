#include "sample_region/generate/district_text.h"

namespace farwater::sample {
namespace {

constexpr const char* head = R"(# Written by generate_region beside its data.
name = "Alder Notch"
data_date = 2026-05-31

[roads]
file = "county.gpkg"
layer = "roads"
columns = { name = "ROAD_NAME", class = "CLASS", access = "ACCESS", one_way = "ONEWAY", bridge = "BRIDGE", rail_crossing = "RAILXING", maintained_months = "MAINT_MO", speed_limit_mph = "SPEED", width_ft = "WIDTH_FT", weight_limit_lb = "POSTED_TON" }
units = { weight_limit_lb = "short_ton" }

[roads.values.class]
"II" = "state"
"IV" = "paved"
"V-P" = "paved"
"V-L" = "paved_lane"
"V-G" = "gravel"
"V-N" = "narrow"
"VI" = "narrow"
"PR" = "narrow"
"DR" = "drive"

[roads.values.access]
"O" = "open"
"P" = "private"
"G" = "gated"
"N" = "unmaintained"

[roads.values.one_way]
"B" = "both"
"F" = "forward"
)";

constexpr const char* region_parcels = R"(
[parcels]
file = "county.gpkg"
layer = "parcels"
columns = { parcel_id = "PARCEL_ID", address = "ADDRESS", zone = "FIRE_ZONE", buildings = "BLDGS", needed_gpm = "NEED_GPM" }
)";

constexpr const char* alone_parcels = R"(
[parcels]
file = "county.gpkg"
layer = "parcels"
columns = { parcel_id = "PARCEL_ID", address = "ADDRESS", zone = "FIRE_ZONE" }

[[join]]
file = "assessor.csv"
key = "MBLU"
parcel_key = "MAP_LOT"
columns = { buildings = "BLDGS", needed_gpm = "FIRE_FLOW" }
)";

constexpr const char* with_buildings = R"(
[buildings]
file = "county.gpkg"
layer = "buildings"
columns = { building_id = "BLDG_ID" }

[address_points]
file = "county.gpkg"
layer = "address_points"
)";

constexpr const char* supplies = R"(
[water_sources]
file = "water_sources.csv"
crs = "EPSG:4326"
open_options = ["X_POSSIBLE_NAMES=LON", "Y_POSSIBLE_NAMES=LAT"]
columns = { source_id = "ID", name = "NAME", kind = "KIND", standing = "STANDING", standing_by = "BY", tested_on = "TESTED", use = "USE", own_parcel = "OWN_PARCEL", system = "SYSTEM", open_months = "MONTHS", frost_proof = "FROSTOK", rate_gpm = "GPM", usable_gal = "GALLONS", inflow_gpm = "INFLOW", places = "PLACES", reach = "REACH", fills_without_engine = "NOENGINE", static_lift_ft = "LIFT_FT", all_weather = "ALLWX", lane = "LANE", note = "NOTE", static_psi = "STATIC", residual_psi = "RESIDUAL", test_flow_gpm = "TESTFLOW", pitot_psi = "PITOT", outlet_in = "OUTLET_IN", outlet_coefficient = "COEFF", colour_class = "COLOUR", main_in = "MAIN_IN", dead_end_main = "DEADEND", pipe_ft = "PIPE_FT", pipe_diameter_in = "PIPE_IN", pipe_material = "MATERIAL", elbows_90 = "ELBOWS90", elbows_45 = "ELBOWS45", strainer_loss_ft = "STRAINER", drought_area_acre = "ACRES", intake_depth_ft = "DEPTH_FT", sounded = "SOUNDED", ice_ft = "ICE_FT", system_rate_gpm = "SYSTEMGPM", agreement = "AGREEMENT", certified_by = "CERT_BY", certified_on = "CERT_ON", cross_street = "CROSS" }

[mapped_water]
file = "county.gpkg"
layer = "hydrography"
columns = { name = "NAME" }

[stations]
file = "county.gpkg"
layer = "stations"
columns = { station_id = "STATION", name = "NAME", aid = "AID", staffed = "STAFFED", to_gate_min = "TO_GATE" }

[apparatus]
file = "apparatus.csv"
columns = { unit_id = "Unit", station_id = "Station", kind = "Type", tank_gal = "Tank gal", pump_gpm = "Pump gpm", fill_limit_gpm = "Fill gpm", offload_gpm = "Dump gpm", tested_on = "Timed on", portable_tank_gal = "Folding tanks gal", portable_tanks = "Folding tanks", crew = "Crew", min_crew = "Min crew", loaded_lb = "Loaded lb", empty_lb = "Empty lb", hose_2_5in_ft = "2.5 in ft", hose_3in_ft = "3 in ft", hose_4in_ft = "4 in ft", hose_5in_ft = "5 in ft", jet_siphons = "Jet siphons", low_level_strainers = "Low level strainers", hard_suction_ft = "Hard suction ft", backs_to_offload = "Rear dump only" }

[apparatus.values.kind]
"Engine" = "engine"
"Tanker" = "tanker"

[elevation]
file = "elevation.tif"

[season.summer]
months = "4-11"

[season.winter]
months = "12-3"
speed_factor = 0.75
extra_setup_min = 3
ice = true
closed_access = ["unmaintained"]
)";

constexpr const char* alone_lists = R"(
[staffing]
file = "staffing.csv"
columns = { unit_id = "UNIT", station_id = "STATION", period = "PERIOD", crew = "CREW", turnout_min = "TURNOUT" }

[response_zones]
file = "response_zones.csv"
columns = { zone = "ZONE", alarm = "ALARM", unit_id = "UNIT" }

[timed_runs]
file = "timed_runs.csv"
crs = "EPSG:4326"
open_options = ["X_POSSIBLE_NAMES=LON", "Y_POSSIBLE_NAMES=LAT"]
columns = { run_id = "INC_NO", unit_id = "UNIT", date = "INC_DATE", period = "SHIFT", toned_at = "TONES", rolling_at = "ENROUTE", arrived_at = "ONSCENE" }

[dump_site_places]
file = "county.gpkg"
layer = "dump_places"
columns = { place_id = "PLACE", name = "NAME", lane = "LANE", portable_tanks = "TANKS" }

[turnarounds]
file = "county.gpkg"
layer = "turnarounds"
columns = { turnaround_id = "TURN", name = "NAME" }

[proposals]
file = "proposals.csv"
crs = "EPSG:4326"
open_options = ["X_POSSIBLE_NAMES=LON", "Y_POSSIBLE_NAMES=LAT"]
columns = { proposal_id = "ID", name = "NAME", kind = "KIND", cost = "COST", rate_gpm = "GPM", usable_gal = "GALLONS", static_lift_ft = "LIFT_FT", pipe_ft = "PIPE_FT", pipe_diameter_in = "PIPE_IN", pipe_material = "MATERIAL", note = "NOTE" }

[targets]
file = "county.gpkg"
layer = "targets"
columns = { target_id = "TARGET", name = "NAME", needed_gpm = "GPM", duration_min = "MINUTES" }

[period.night]
turnout_volunteer_min = 6

[period.weekday_day]
turnout_volunteer_min = 8
)";

}  // namespace

std::string district_text(bool alone, bool buildings) {
    std::string text = head;
    text += alone ? alone_parcels : region_parcels;
    text += alone || buildings ? with_buildings : "";
    text += supplies;
    text += alone ? alone_lists : "";
    return text;
}

}  // namespace farwater::sample
