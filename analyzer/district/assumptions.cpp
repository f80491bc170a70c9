#include "analyzer/district/assumptions.h"

#include <algorithm>
#include <array>

namespace farwater {
namespace {

using A = Assumptions;
using enum Sure;

constexpr std::string_view practice = "common practice, no source";
constexpr std::string_view alternative_supply =
    "rating schedule, alternative water supplies: begun within 5 min of arrival, raised within 15 "
    "min, held 2 h";
constexpr std::string_view usual_power = "350 to 450 hp are usual in fire apparatus (from memory)";

constexpr std::string_view least_pumper =
    "the least of a pumper by NFPA 1901, chapter 5: 750 gpm and 300 gal (from memory)";
constexpr std::string_view lift_rule =
    "Idaho rating bureau, \"Dry Hydrants\": lift 15 ft or less, total head loss 20 ft or less";
constexpr std::string_view pond_rule =
    "Idaho rating bureau, \"Dry Hydrants\": 2 ft above the suction point and 2 ft at the surface";
constexpr std::string_view nrcs_form = "NRCS form NE-ENG-76, \"Dry Hydrant Design\"";

constexpr std::array rows{
    AssumptionRow{"alarm_handling_min", "Alarm and response", &A::alarm_handling, 0, 30, medium,
                  "Call answered to tones out.", practice},
    AssumptionRow{"turnout_staffed_min", "Alarm and response", &A::turnout_staffed, 0, 60, medium,
                  "Tones to wheels rolling at a staffed station.", practice},
    AssumptionRow{"turnout_volunteer_min", "Alarm and response", &A::turnout_volunteer, 0, 60,
                  medium, "Tones to wheels rolling where volunteers come from home.", practice},
    AssumptionRow{"request_delay_min", "Alarm and response", &A::request_delay, 0, 120, medium,
                  "Mutual aid is asked for this long after the first engine arrives.", practice},
    AssumptionRow{"mutual_turnout_min", "Alarm and response", &A::mutual_turnout, 0, 60, medium,
                  "Request to wheels rolling for mutual aid.", practice},
    AssumptionRow{"most_engines", "Alarm and response", &A::most_engines, 1, 32, medium,
                  "Engines that go to one fire, those that are there first.", practice},
    AssumptionRow{"most_tankers", "Alarm and response", &A::most_tankers, 1, 32, medium,
                  "Tankers that go to one fire, those that are there first.", practice},

    AssumptionRow{"crew_attack", "Crew by job", &A::crew_attack, 0, 50, medium,
                  "People needed at the fire before it is worked on from inside. With the rows of "
                  "this group: a second fill site is opened only with people for all jobs.",
                  "29 CFR 1910.134 (g)(4): two inside, two outside"},
    AssumptionRow{"crew_dump_site", "Crew by job", &A::crew_dump_site, 0, 50, medium,
                  "People needed at the dump site: draft, portable tanks, spotter.", practice},
    AssumptionRow{
        "crew_offload_slot", "Crew by job", &A::crew_offload_slot, 0, 50, low,
        "People needed at each offload slot after the first: one to place the tanker, one "
        "at its valve. The slot is run from when they are there, beside all other jobs; a "
        "unit whose crew nobody lists counts with the fewest that it rolls with.",
        practice},
    AssumptionRow{"crew_fill_site", "Crew by job", &A::crew_fill_site, 0, 50, medium,
                  "People needed at each fill site.", practice},
    AssumptionRow{"crew_traffic", "Crew by job", &A::crew_traffic, 0, 50, medium,
                  "People needed to hold traffic.", practice},
    AssumptionRow{"crew_water_supply", "Crew by job", &A::crew_water_supply, 0, 50, medium,
                  "Water supply officers needed.", practice},
    AssumptionRow{"crew_tanker", "Crew by job", &A::crew_tanker, 0, 50, medium,
                  "People needed on each tanker of the shuttle.", practice},

    AssumptionRow{"initial_attack_gpm", "Demand", &A::initial_attack, 0, 2000, medium,
                  "Drawn from the same water before the start: one line and part of a second.",
                  practice},
    AssumptionRow{"initial_attack_after_arrival_min", "Demand", &A::initial_attack_after_arrival, 0,
                  60, medium, "From the first engine's arrival to water on the fire.", practice},
    AssumptionRow{"start_after_arrival_min", "Demand", &A::start_after_arrival, 0, 240, high,
                  "The flow must hold from here on, counted from the first engine's arrival.",
                  alternative_supply},
    AssumptionRow{"duration_min", "Demand", &A::duration, 1, 1440, high,
                  "How long the flow must hold.", alternative_supply},
    AssumptionRow{"late_horizon_min", "Demand", &A::late_horizon, 0, 480, medium,
                  "A flow that holds only from later than this after the alarm is not counted as "
                  "late, but as short.",
                  practice},
    AssumptionRow{"default_needed_gpm", "Demand", &A::default_needed, 0, 12000, medium,
                  "Needed flow of an improved parcel without one of its own: the schedule's least "
                  "for a dwelling.",
                  "rating schedule, needed fire flow limits 500 to 12,000 gpm"},
    AssumptionRow{"default_storeys", "Demand", &A::default_storeys, 1, 10, medium,
                  "Storeys of a building whose data tell neither storeys nor height.", practice},
    AssumptionRow{"storey_height_ft", "Demand", &A::storey_height, 6, 30, medium,
                  "Height of a storey where a building's volume is told from its storeys.",
                  practice},
    AssumptionRow{"roof_rise_ft", "Demand", &A::roof_rise, 0, 60, low,
                  "From the eaves up to the ridge where the data do not tell both; half of it "
                  "counts as volume.",
                  practice},
    AssumptionRow{
        "firm_margin", "Demand", &A::firm_margin, 1, 3, medium,
        "The margin is firm when the cautious flow is at least this multiple of the need.",
        practice},
    AssumptionRow{"stage_cv", "Demand", &A::stage_cv, 0, 1, medium,
                  "Scatter of stage times (standard deviation over mean) behind the cautious flow; "
                  "drills give the district's own.",
                  practice},

    AssumptionRow{"delivered_fraction", "Tankers", &A::delivered_fraction, 0.1, 1, high,
                  "Share of the tank that reaches the portable tanks.",
                  "rating schedule, alternative water supplies: capacity less 10 %; NFPA 1142 "
                  "annex C (from memory)"},
    AssumptionRow{"refill_fraction", "Tankers", &A::refill_fraction, 0.1, 1.2, high,
                  "Share of the tank that the source gives per load.", practice},
    AssumptionRow{"fill_before_min", "Tankers", &A::fill_before, 0, 60, medium,
                  "Placing and coupling at the fill site.", practice},
    AssumptionRow{"fill_after_min", "Tankers", &A::fill_after, 0, 60, medium,
                  "Uncoupling and pulling out.", practice},
    AssumptionRow{"offload_before_min", "Tankers", &A::offload_before, 0, 60, medium,
                  "Placing at the portable tanks.", practice},
    AssumptionRow{"offload_after_min", "Tankers", &A::offload_after, 0, 60, medium,
                  "Closing the dump valve and pulling out.", practice},
    AssumptionRow{"backing_min", "Tankers", &A::backing, 0, 60, medium,
                  "More per load where the tanker must back with a spotter (dead-end lane).",
                  practice},
    AssumptionRow{"fill_limit_gpm", "Tankers", &A::fill_limit, 50, 5000, medium,
                  "What an untimed tanker's inlet takes.", practice},
    AssumptionRow{"offload_gpm", "Tankers", &A::offload, 50, 5000, medium,
                  "What an untimed tanker's dump valve gives.", practice},
    AssumptionRow{"nurse_gpm", "Tankers", &A::nurse, 50, 5000, medium,
                  "What a tanker pumps off into the attack engine before the draft is up, and no "
                  "more than its pump is rated for; one of which no pump is known nurses nobody.",
                  practice},
    AssumptionRow{"nurse_hookup_min", "Tankers", &A::nurse_hookup, 0, 60, medium,
                  "Coupling that tanker to the engine, from when both are there.", practice},
    AssumptionRow{"speed_cap_mph", "Tankers", &A::speed_cap, 5, 68, medium,
                  "No apparatus is planned faster than this; the apparatus standard caps large "
                  "tankers at 60.",
                  "NFPA 1901 road test limits, secondary source; 50 is common practice"},

    AssumptionRow{"setup_portable_tank_min", "Setting up", &A::setup_portable_tank, 0, 60, low,
                  "From the arrival of the unit that carries it.", practice},
    AssumptionRow{
        "setup_draft_min", "Setting up", &A::setup_draft, 0, 60, low,
        "Draft established, after the portable tank is up and the drafting engine is there.",
        practice},
    AssumptionRow{"setup_hydrant_min", "Setting up", &A::setup_hydrant, 0, 60, low,
                  "Fill site at a hydrant.", practice},
    AssumptionRow{"setup_dry_hydrant_min", "Setting up", &A::setup_dry_hydrant, 0, 60, low,
                  "Fill site at a dry hydrant or cistern.", practice},
    AssumptionRow{"setup_open_bank_min", "Setting up", &A::setup_open_bank, 0, 60, low,
                  "Fill site at an open bank.", practice},

    AssumptionRow{"offload_slots", "Dump site", &A::offload_slots, 1, 8, medium,
                  "Tankers that offload at the same time, once there are people for them "
                  "(crew_offload_slot).",
                  practice},
    AssumptionRow{"most_portable_tanks", "Dump site", &A::most_portable_tanks, 1, 8, medium,
                  "Portable tanks set up in line.", practice},
    AssumptionRow{
        "portable_tanks_where_unknown", "Dump site", &A::portable_tanks_where_unknown, 1, 8, low,
        "Portable tanks that fit where neither the officer nor the road's width tells.", practice},
    AssumptionRow{"portable_tank_length_ft", "Dump site", &A::portable_tank_length, 5, 60, medium,
                  "Road that a portable tank in line takes: 15 ft, less than a foot apart.",
                  practice},
    AssumptionRow{"portable_tank_width_ft", "Dump site", &A::portable_tank_width, 4, 30, medium,
                  "Width of road that a portable tank takes.", practice},
    AssumptionRow{"draft_engine_ft", "Dump site", &A::draft_engine_length, 0, 100, medium,
                  "Road that the drafting engine takes before the first portable tank.", practice},
    AssumptionRow{"free_lane_ft", "Dump site", &A::free_lane, 0, 30, medium,
                  "Width of road that a tanker needs to drive past portable tanks in line; a road "
                  "that leaves less, or of unknown width, takes one tank, and tankers back to it.",
                  practice},
    AssumptionRow{"portable_tank_heel_ft", "Dump site", &A::portable_tank_heel, 0, 2, medium,
                  "Water left below a low-level strainer.", practice},
    AssumptionRow{"portable_tank_depth_ft", "Dump site", &A::portable_tank_depth, 0.5, 6, medium,
                  "Depth of a full portable tank: 2,500 gal in 9 x 15 ft.",
                  "computed: 2,500 gal / 7.4805 gal per cubic foot / 135 square feet"},
    AssumptionRow{"strainer_gpm", "Dump site", &A::strainer, 50, 5000, medium,
                  "Low-level strainer.", practice},
    AssumptionRow{"siphon_gpm", "Dump site", &A::siphon, 100, 3000, low,
                  "What a jet siphon that nobody timed moves from one portable tank into the next; "
                  "about 1,200 by test on a good day.",
                  practice},
    AssumptionRow{"siphon_drive_gpm", "Dump site", &A::siphon_drive, 0, 1000, low,
                  "Drive water of a running jet siphon: the draft pump gives it beside the flow.",
                  practice},
    AssumptionRow{"engine_pump_gpm", "Dump site", &A::engine_pump, 100, 5000, medium,
                  "Rated pump of an engine without one in the apparatus list.", least_pumper},
    AssumptionRow{"engine_tank_gal", "Dump site", &A::engine_tank, 0, 5000, medium,
                  "Tank of an engine without one in the apparatus list.", least_pumper},
    AssumptionRow{"dump_site_spacing_ft", "Dump site", &A::dump_site_spacing, 100, 10000, medium,
                  "Candidate dump sites are at least this far apart along the road.", practice},
    AssumptionRow{
        "dump_site_length_ft", "Dump site", &A::dump_site_length, 20, 1000, medium,
        "Road that the drafting engine, the portable tanks and a tanker beside them take; "
        "its steepest stretch is the grade of the dump site.",
        practice},
    AssumptionRow{"steepest_dump_site_pct", "Dump site", &A::steepest_dump_site_pct, 0, 20, medium,
                  "On a steeper grade no dump site is proposed; places of the officer's own stay "
                  "and are reported.",
                  practice},
    AssumptionRow{"level_reach_ft", "Dump site", &A::level_reach, 0, 5000, medium,
                  "Where a point of the road is too steep, the nearest level stretch of the same "
                  "road this near stands in.",
                  practice},
    AssumptionRow{"portable_tank_slope_loss", "Dump site", &A::portable_tank_slope_loss, 0, 0.2,
                  medium, "Share of a portable tank that is lost with every 1 % of grade.",
                  practice},
    AssumptionRow{"standoff_ft", "Dump site", &A::standoff, 0, 2000, medium,
                  "A dump site is at least this far from the building it serves.", practice},
    AssumptionRow{
        "turnaround_reach_ft", "Dump site", &A::turnaround_reach, 0, 20000, low,
        "As far a tanker drives on from the dump site to a turnaround, or to a loop on which "
        "it comes back; where none is so near it backs.",
        practice},
    AssumptionRow{"two_way_width_ft", "Dump site", &A::two_way_width, 8, 40, medium,
                  "On a narrower road, or a narrow one of unknown width, two tankers cannot meet.",
                  practice},

    AssumptionRow{"hose_reach_ft", "Hose", &A::hose_reach, 0, 20000, high,
                  "Longest supply line that is laid.",
                  "rating schedule: creditable supply within 1,000 ft as hose can be laid"},
    AssumptionRow{"relay_reach_ft", "Hose", &A::relay_reach, 0, 20000, medium,
                  "A house farther than this from a source by hose is not supplied direct or by "
                  "relay.",
                  practice},
    AssumptionRow{"lay_1000ft_min", "Hose", &A::lay_1000ft, 0, 60, medium,
                  "Laying 1,000 ft of one supply line.", practice},
    AssumptionRow{"off_road_hose_ft", "Hose", &A::off_road_hose, 0, 5000, medium,
                  "Hose lies along roads and drives; straight over land only this far.", practice},
    AssumptionRow{"setback_factor", "Hose", &A::setback_factor, 1, 3, medium,
                  "Measured setback times this is the length of a driveway.", practice},
    AssumptionRow{"setback_extra_ft", "Hose", &A::setback_extra, 0, 1000, medium,
                  "Hose from the end of the driveway to the engine.", practice},
    AssumptionRow{"engine_hose_2_5in_ft", "Hose", &A::engine_hose_2_5in, 0, 10000, medium,
                  "2 1/2-in hose of an engine whose hose is not listed; no large hose.", practice},
    AssumptionRow{
        "supply_line_pressure_psi", "Hose", &A::supply_line_pressure_psi, 20, 400, medium,
        "Discharge pressure of a supply line.",
        "\"Relay Pumping Operations\" (IFSTA outline) p. 3: 185 psi for 4- and 5-in hose"},
    AssumptionRow{"residual_pressure_psi", "Hose", &A::residual_pressure_psi, 0, 100, high,
                  "Pressure left at the receiving pump.",
                  "\"Relay Pumping Operations\" (IFSTA outline) p. 3: 20 psi"},

    AssumptionRow{
        "hydrant_rate_gpm", "Water sources", &A::hydrant_rate, 0, 5000, low,
        "Hydrant without rate, flow test or colour class, on a main known to be larger than "
        "weak_main_in and fed from both sides.",
        practice},
    AssumptionRow{"dry_hydrant_rate_gpm", "Water sources", &A::dry_hydrant_rate, 0, 5000, low,
                  "Dry hydrant without a rate.", practice},
    AssumptionRow{"draft_site_rate_gpm", "Water sources", &A::draft_site_rate, 0, 5000, low,
                  "Open-water draft site without a rate.", practice},
    AssumptionRow{"cistern_rate_gpm", "Water sources", &A::cistern_rate, 0, 5000, low,
                  "Cistern without a rate.", practice},
    AssumptionRow{"portable_pump_rate_gpm", "Water sources", &A::portable_pump_rate, 0, 1000,
                  medium, "Most that a source gives that only a portable pump reaches.", practice},
    AssumptionRow{
        "hydrant_system_storage_gal", "Water sources", &A::hydrant_system_storage, 0, 10000000, low,
        "Storage behind a hydrant whose system's storage is not known; no inflow.", practice},
    AssumptionRow{"weak_main_rate_gpm", "Water sources", &A::weak_main_rate, 0, 5000, low,
                  "The same hydrant on any other main, one of which nothing is known among them; "
                  "and a hydrant with a red bonnet, which says no more than less than 500.",
                  practice},
    AssumptionRow{"weak_main_in", "Water sources", &A::weak_main, 1, 24, medium,
                  "A main no larger than this is weak.", practice},
    AssumptionRow{"hydrant_residual_psi", "Water sources", &A::hydrant_residual_psi, 20, 100, high,
                  "Pressure to which flow tests are carried on; never below 20.",
                  "NFPA 291, hydrant flow tests (from memory): rated at 20 psi"},
    AssumptionRow{"outlet_coefficient", "Water sources", &A::outlet_coefficient, 0.5, 1, high,
                  "Discharge coefficient of an outlet of which nothing is known.",
                  "NFPA 291 (from memory): 0.9 smooth and rounded, 0.8 square, 0.7 projecting into "
                  "the barrel"},
    AssumptionRow{"suction_test_valid_months", "Water sources", &A::suction_test_valid_months, 1,
                  240, medium, "An older test of a suction point counts as declared.", practice},
    AssumptionRow{"hydrant_test_valid_months", "Water sources", &A::hydrant_test_valid_months, 1,
                  240, medium, "An older hydrant flow test counts as declared.", practice},
    AssumptionRow{"fill_sites_per_class", "Water sources", &A::fill_sites_per_class, 1, 8, high,
                  "Nearest fill sites kept per strength class and dump site.",
                  "model choice: no listed site is beaten in both nearness and strength"},
    AssumptionRow{
        "one_water_within_ft", "Water sources", &A::one_water_within, 0, 26400, low,
        "Two places on open water nearer than this, of which one has no system, are taken "
        "for one water and do not fill at the same time.",
        practice},

    AssumptionRow{"most_lift_ft", "Suction", &A::most_lift, 1, 25, high,
                  "Highest static lift from the drought level; a blank lift counts as this.",
                  lift_rule},
    AssumptionRow{"most_suction_head_ft", "Suction", &A::most_suction_head, 1, 25, high,
                  "Most that lift, losses and velocity head use up together; less where the air is "
                  "thin or the water warm.",
                  lift_rule},
    AssumptionRow{"suction_hose_ft", "Suction", &A::suction_hose, 0, 200, high,
                  "Hard suction between the water, or the hydrant's head, and the pump.",
                  "rating test of fire pumps: 20 ft of suction hose (course cards)"},
    AssumptionRow{"suction_hose_in", "Suction", &A::suction_hose_bore, 2, 12, medium,
                  "Bore of hard suction and pump inlet.", practice},
    AssumptionRow{"unknown_pipe_ft", "Suction", &A::unknown_pipe, 0, 2000, low,
                  "Suction pipe of unknown length, of a dry hydrant or cistern.", practice},
    AssumptionRow{"unknown_pipe_in", "Suction", &A::unknown_pipe_bore, 2, 24, medium,
                  "Suction pipe of unknown bore.", "NFPA 1142: 6 in or larger (from memory)"},
    AssumptionRow{"unknown_elbows_90", "Suction", &A::unknown_elbows_90, 0, 50, low,
                  "90-degree elbows in a pipe of which they are not counted.", practice},
    AssumptionRow{"unknown_elbows_45", "Suction", &A::unknown_elbows_45, 0, 50, low,
                  "45-degree elbows and reducers in such a pipe.", practice},
    AssumptionRow{"elbow_90_ft", "Suction", &A::elbow_90, 0, 200, high,
                  "A 90-degree elbow as a length of pipe.", nrcs_form},
    AssumptionRow{"elbow_45_ft", "Suction", &A::elbow_45, 0, 200, high,
                  "A 45- or 30-degree elbow or a reducer as a length of pipe.", nrcs_form},
    AssumptionRow{"pipe_strainer_loss_ft", "Suction", &A::pipe_strainer_loss, 0, 30, high,
                  "Lost in strainer and standpipe of a dry hydrant or cistern at 500 gpm.",
                  nrcs_form},
    AssumptionRow{"hose_strainer_loss_ft", "Suction", &A::hose_strainer_loss, 0, 30, low,
                  "Lost in a strainer on hard suction at 500 gpm.", practice},
    AssumptionRow{"altitude_ft", "Suction", &A::altitude, -500, 15000, low,
                  "Height above the sea of sources for which no elevation is given.",
                  "NFPA 1901 (from memory): pumps are rated up to 2,000 ft"},
    AssumptionRow{"water_temperature_f", "Suction", &A::water_temperature_f, 32, 120, medium,
                  "Warmest water that is drafted, Fahrenheit; warm water boils sooner.", practice},
    AssumptionRow{"strainer_depth_ft", "Suction", &A::strainer_depth, 0, 10, high,
                  "Water that must stand over an intake, or it draws air.", pond_rule},
    AssumptionRow{"surface_loss_ft", "Suction", &A::surface_loss, 0, 10, high,
                  "Taken from the depth for ice, unless the intake is frost-proof and the ice is "
                  "known.",
                  pond_rule},
    AssumptionRow{"unsounded_share", "Suction", &A::unsounded_share, 0, 1, medium,
                  "Share of the drought area over which the depth at the intake is taken to hold "
                  "where nobody sounded the pond.",
                  "NRCS Agriculture Handbook 590 (from memory): a pond holds 0.4 of its area times "
                  "its greatest depth"},

    AssumptionRow{
        "new_pipe_reach_ft", "Proposed sources", &A::new_pipe_reach, 0, 2000, medium,
        "From a road that tankers may use to the shore of mapped water, at most, for a dry "
        "hydrant to be proposed.",
        practice},
    AssumptionRow{"new_pipe_beyond_shore_ft", "Proposed sources", &A::new_pipe_beyond_shore, 0, 500,
                  low, "Its pipe goes on so far under water.", practice},
    AssumptionRow{"new_pipe_in", "Proposed sources", &A::new_pipe_bore, 4, 24, medium,
                  "Bore of its pipe.", "NFPA 1142: 6 in or larger (from memory); 8 in is practice"},
    AssumptionRow{"new_pump_height_ft", "Proposed sources", &A::new_pump_height, 0, 10, medium,
                  "The pump's inlet above the road.", practice},
    AssumptionRow{"drought_drop_ft", "Proposed sources", &A::drought_drop, 0, 50, low,
                  "Drought level of mapped water below its level in the elevation.", practice},
    AssumptionRow{"new_source_gpm", "Proposed sources", &A::new_source, 100, 5000, medium,
                  "What a proposed dry hydrant is built for; lift and pipe may give less.",
                  "NFPA 1142 (from memory): dry hydrants are built for 1,000 gpm"},
    AssumptionRow{"most_drawdown_ft", "Proposed sources", &A::most_drawdown, 0.1, 100, low,
                  "Mapped water that would have to give more than this over its whole area is too "
                  "small to be proposed.",
                  practice},
    AssumptionRow{"dry_hydrant_cost", "Proposed sources", &A::dry_hydrant_cost, 0, 1e9, low,
                  "What a proposed dry hydrant costs, in your money; 0 = not known.", practice},
    AssumptionRow{
        "most_new_cisterns", "Proposed sources", &A::most_new_cisterns, 0, 1000, low,
        "So many junctions and public parcels are looked at as places of a cistern, those "
        "with most flow missing near them; each takes the time of part of a run.",
        practice},
    AssumptionRow{"new_cistern_apart_ft", "Proposed sources", &A::new_cistern_apart, 0, 52800, low,
                  "So near to a source as strong, or to a place that is looked at, none is "
                  "looked at.",
                  practice},
    AssumptionRow{"new_cistern_serves_ft", "Proposed sources", &A::new_cistern_serves, 100, 52800,
                  low,
                  "Parcels so near, in a straight line, count for whether a place of a cistern is "
                  "worth a look; its gain is worked out for all.",
                  practice},
    AssumptionRow{"new_cistern_gal", "Proposed sources", &A::new_cistern, 1000, 1e6, medium,
                  "Usable water of a proposed cistern.",
                  "NFPA 1142 (from memory): cisterns of 30,000 gal usable or more"},
    AssumptionRow{"new_cistern_lift_ft", "Proposed sources", &A::new_cistern_lift, 0, 30, low,
                  "From the strainer of its riser to the pump's inlet.", practice},
    AssumptionRow{"new_cistern_riser_ft", "Proposed sources", &A::new_cistern_riser, 1, 500, low,
                  "Length of that riser, a pipe of new_pipe_in.", practice},
    AssumptionRow{"cistern_cost", "Proposed sources", &A::cistern_cost, 0, 1e9, low,
                  "What a proposed cistern costs, in your money; 0 = not known.", practice},

    AssumptionRow{"tanker_chassis_lb", "Weights", &A::tanker_chassis, 5000, 80000, low,
                  "Tanker without a weight, loaded: this plus the water term. It slows the tanker "
                  "on grades; posted bridges are open to it only where you give this.",
                  practice},
    AssumptionRow{"tanker_pounds_per_gallon", "Weights", &A::tanker_pounds_per_gallon, 8.34, 20,
                  low, "Water and the tank around it, per gallon.", practice},
    AssumptionRow{
        "engine_loaded_lb", "Weights", &A::engine_loaded, 5000, 80000, medium,
        "Engine without a weight, loaded. Posted bridges are open to it only where you give "
        "this.",
        practice},
    AssumptionRow{"tanker_power_hp", "Weights", &A::tanker_power, 50, 1000, low,
                  "Engine power of a tanker without one; used on grades, where elevation is given.",
                  usual_power},
    AssumptionRow{"engine_power_hp", "Weights", &A::engine_power, 50, 1000, low,
                  "The same of an engine.", usual_power},

    AssumptionRow{"speed_state_mph", "Roads and speeds", &A::speed_state, 5, 68, medium,
                  "Planning average, loaded, on a state road.", practice},
    AssumptionRow{"speed_paved_mph", "Roads and speeds", &A::speed_paved, 5, 68, medium,
                  "On another paved two-lane road.",
                  "35 mph: rating organisation's travel-time rule T = 0.65 + 1.7 D"},
    AssumptionRow{"speed_paved_lane_mph", "Roads and speeds", &A::speed_paved_lane, 5, 68, medium,
                  "On a paved lane.", practice},
    AssumptionRow{
        "speed_gravel_mph", "Roads and speeds", &A::speed_gravel, 5, 60, medium,
        "On gravel, whatever the class; NIOSH F2005-27 describes a tanker lost at about 40.",
        practice},
    AssumptionRow{"speed_narrow_mph", "Roads and speeds", &A::speed_narrow, 3, 60, medium,
                  "On a narrow road or one of unknown class.", practice},
    AssumptionRow{"speed_drive_mph", "Roads and speeds", &A::speed_drive, 3, 40, medium,
                  "On a driveway.", practice},
    AssumptionRow{"empty_speed_factor", "Roads and speeds", &A::empty_speed_factor, 1, 2, medium,
                  "Empty against loaded; never above the posted speed.", practice},
    AssumptionRow{"access_reach_ft", "Roads and speeds", &A::access_reach, 10, 20000, medium,
                  "A parcel farther than this from every road has no access point.", practice},
    AssumptionRow{"frontage_slack_ft", "Roads and speeds", &A::frontage_slack, 0, 1000, low,
                  "Where no tanker may use the nearest road, one that a tanker may use serves the "
                  "house if it is no more than this farther.",
                  practice},
    AssumptionRow{"join_tolerance_ft", "Roads and speeds", &A::join_tolerance, 0, 30, high,
                  "Road ends closer than this are the same junction.",
                  "0.05 m: below survey accuracy, above rounding"},
    AssumptionRow{
        "join_crossings", "Roads and speeds", &A::join_crossings, 0, 1, medium,
        "Do roads join where they cross or touch without a shared vertex? Never where one "
        "is a bridge or a tunnel or their levels differ.",
        practice},
    AssumptionRow{
        "gap_tolerance_ft", "Roads and speeds", &A::gap_tolerance, 0, 200, medium,
        "A dead end closer than this to a road that it does not meet is reported; nothing "
        "is joined.",
        practice},
    AssumptionRow{"trip_limit_min", "Roads and speeds", &A::trip_limit, 1, 240, medium,
                  "Longest leg that a shuttle drives, and longest response that is searched for.",
                  practice},
    AssumptionRow{"private_roads_usable", "Roads and speeds", &A::private_roads_usable, 0, 1,
                  medium, "May tankers use private roads?", practice},
    AssumptionRow{"gated_roads_usable", "Roads and speeds", &A::gated_roads_usable, 0, 1, medium,
                  "May tankers use gated roads?", practice},
    AssumptionRow{"unmaintained_roads_usable", "Roads and speeds", &A::unmaintained_roads_usable, 0,
                  1, medium, "May tankers use unmaintained roads?", practice},
    AssumptionRow{"max_profiles", "Roads and speeds", &A::max_profiles, 1, 4, high,
                  "Vehicles are grouped into at most this many routing profiles; a group takes its "
                  "slowest member's speeds.",
                  "model choice: bounds the number of searches"},
};

template <class Base>
double factor_of(std::string_view key) {
    if constexpr (std::is_same_v<Base, Length>) {
        return in_metres(key.ends_with("_mi")   ? miles(1)
                         : key.ends_with("_in") ? inches(1)
                                                : feet(1));
    } else {
        return 1.0;
    }
}

}  // namespace

bool Assumptions::is_given(std::string_view key) const {
    return std::ranges::find(given, key) != given.end();
}

std::span<const AssumptionRow> assumption_rows() { return rows; }

double value_in_key_unit(const Assumptions& assumptions, const AssumptionRow& row) {
    return std::visit(
        [&](auto member) -> double {
            const auto& value = assumptions.*member;
            using Value = std::remove_cvref_t<decltype(value)>;
            if constexpr (std::is_arithmetic_v<Value>) {
                return static_cast<double>(value);
            } else {
                return value.in_base() / factor_of<Value>(row.key);
            }
        },
        row.member);
}

void set_in_key_unit(Assumptions& assumptions, const AssumptionRow& row, double value) {
    std::visit(
        [&](auto member) {
            auto& slot = assumptions.*member;
            using Value = std::remove_cvref_t<decltype(slot)>;
            if constexpr (std::is_same_v<Value, bool>) {
                slot = value != 0.0;
            } else if constexpr (std::is_arithmetic_v<Value>) {
                slot = static_cast<Value>(value);
            } else {
                slot = Value::from_base(value * factor_of<Value>(row.key));
            }
        },
        row.member);
}

}  // namespace farwater
