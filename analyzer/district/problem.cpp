#include "analyzer/district/problem.h"

#include <array>

namespace farwater {
namespace {

using enum Severity;
using Id = ProblemId;

constexpr std::array kinds{
    ProblemKind{Id::geometry_missing, "geometry_missing", set_aside, "has no geometry",
                "draw it, or delete the record"},
    ProblemKind{Id::geometry_empty, "geometry_empty", set_aside, "has an empty geometry",
                "draw it, or delete the record"},
    ProblemKind{Id::geometry_wrong_kind, "geometry_wrong_kind", set_aside,
                "has a geometry of the wrong kind", "name the right layer in the district file"},
    ProblemKind{Id::geometry_repaired, "geometry_repaired", repaired,
                "crosses or touches itself and was repaired",
                "check the repaired shape in the result"},
    ProblemKind{Id::geometry_beyond_repair, "geometry_beyond_repair", set_aside,
                "has a geometry that cannot be repaired", "draw it again"},
    ProblemKind{Id::geometry_outside_district, "geometry_outside_district", set_aside,
                "lies far outside the district", "check the layer's coordinate system"},
    ProblemKind{Id::number_unreadable, "number_unreadable", note,
                "holds something that is no plain number; the value counts as not known",
                "write digits only, with a point for decimals"},
    ProblemKind{Id::number_out_of_range, "number_out_of_range", note,
                "holds a number that cannot be right; the value counts as not known",
                "check the value and its unit"},
    ProblemKind{Id::value_not_in_list, "value_not_in_list", note,
                "holds a word that is not in the list; the value counts as not known",
                "use a word of the list"},
    ProblemKind{
        Id::value_not_mapped, "value_not_mapped", note,
        "holds a value that the district file does not map; the most cautious meaning is taken",
        "add it to the layer's values table"},
    ProblemKind{Id::date_unreadable, "date_unreadable", note,
                "holds something that is no date; the date counts as not known",
                "write dates as 2026-05-31"},
    ProblemKind{Id::id_missing, "id_missing", repaired, "has no id; its row number stands in",
                "give every record an id"},
    ProblemKind{Id::id_duplicate, "id_duplicate", repaired,
                "has an id that an earlier record has too; a number was added",
                "give every record an id of its own"},
    ProblemKind{
        Id::join_key_duplicate, "join_key_duplicate", set_aside,
        "has a key that an earlier row of the joined table has too; the earlier row is used",
        "keep one row per key"},
    ProblemKind{Id::join_key_unmatched, "join_key_unmatched", set_aside,
                "has a key that no parcel has", "check the key columns of the join"},
    ProblemKind{Id::building_outside_parcels, "building_outside_parcels", set_aside,
                "lies in no parcel", "check the parcel layer there, or name the place as a target"},
    ProblemKind{Id::road_zero_length, "road_zero_length", set_aside, "has no length", "delete it"},
    ProblemKind{Id::road_island, "road_island", note, "is not connected to the main road network",
                "check for a gap in the digitised lines"},
    ProblemKind{Id::road_no_speed, "road_no_speed", note,
                "has no class; the speed of a narrow road is taken",
                "map its class in the district file"},
    ProblemKind{Id::road_edge_of_data, "road_edge_of_data", note,
                "ends at the edge of the data; what comes from beyond is not seen",
                "add the neighbours' roads, or name gate points for their stations"},
    ProblemKind{Id::parcel_no_road_in_reach, "parcel_no_road_in_reach", set_aside,
                "is farther from every road than the access reach",
                "add the missing road, or raise access_reach_ft"},
    ProblemKind{Id::parcel_no_usable_road, "parcel_no_usable_road", note,
                "is reached only by roads that a tanker may not use",
                "say which roads tankers may use: private_roads_usable, gated_roads_usable, "
                "unmaintained_roads_usable"},
    ProblemKind{Id::source_no_road_in_reach, "source_no_road_in_reach", set_aside,
                "is farther from every usable road than the access reach",
                "add the access road, or raise access_reach_ft"},
    ProblemKind{Id::station_no_road_in_reach, "station_no_road_in_reach", set_aside,
                "is farther from every road than the access reach",
                "move the station's point to its road"},
    ProblemKind{Id::place_no_road_in_reach, "place_no_road_in_reach", set_aside,
                "is farther from every usable road than the access reach",
                "move the point to its road"},
    ProblemKind{Id::source_mapped_only, "source_mapped_only", note,
                "is only mapped; it does not count until somebody declares or tests it",
                "look at it, then set its standing, name and date"},
    ProblemKind{Id::source_volume_unknown, "source_volume_unknown", note,
                "has no usable volume; it does not count",
                "give the usable gallons at drought level, or write unlimited"},
    ProblemKind{Id::source_rate_assumed, "source_rate_assumed", note,
                "has no tested or declared rate; the planning default is taken", "test its flow"},
    ProblemKind{Id::source_test_lapsed, "source_test_lapsed", note,
                "was tested too long ago; it counts as declared", "test it again"},
    ProblemKind{Id::source_kind_unknown, "source_kind_unknown", set_aside,
                "has no kind that the analysis knows",
                "use hydrant, dry_hydrant, draft_site or cistern"},
    ProblemKind{Id::system_volume_unknown, "system_volume_unknown", note,
                "has no storage; the planning default is taken for the system "
                "(hydrant_system_storage_gal)",
                "ask the water works for storage and inflow"},
    ProblemKind{Id::unit_station_unknown, "unit_station_unknown", set_aside,
                "names a station that is not in the station layer, or was set aside there",
                "correct the station id, here or in the station layer"},
    ProblemKind{Id::unit_kind_unknown, "unit_kind_unknown", set_aside,
                "has no kind that the analysis knows", "use engine, tanker or other"},
    ProblemKind{Id::unit_tank_unknown, "unit_tank_unknown", set_aside,
                "is a tanker without a tank size", "give its gallons"},
    ProblemKind{Id::unit_rate_assumed, "unit_rate_assumed", note,
                "was never timed; planning defaults are taken for fill and offload",
                "time one fill and one offload"},
    ProblemKind{Id::fleet_without_tankers, "fleet_without_tankers", grave, "has no tanker",
                "add the tankers, own and aid, to the apparatus list"},
    ProblemKind{Id::fleet_without_engines, "fleet_without_engines", grave, "has no engine",
                "add the engines to the apparatus list"},
    ProblemKind{Id::no_source_counts, "no_source_counts", grave,
                "has no source that counts: none is declared or tested with a known volume and "
                "within reach of a road",
                "declare the sources you have pumped from"},
    ProblemKind{Id::need_defaulted, "need_defaulted", note,
                "has no needed flow of its own; the default is taken",
                "map a needed-flow column, or accept the default"},
    ProblemKind{Id::no_building_data, "no_building_data", note,
                "says nothing about buildings; every parcel counts as improved",
                "add a building layer or map a column"},
    ProblemKind{Id::unit_unknown, "unit_unknown", set_aside,
                "names a unit that is not in the apparatus list", "correct the unit id"},
    ProblemKind{Id::period_unknown, "period_unknown", set_aside,
                "names a period that the district file does not have",
                "add its [period.NAME] table, or correct the name"},
    ProblemKind{Id::value_missing, "value_missing", set_aside,
                "lacks a value without which it says nothing", "fill it in"},
    ProblemKind{Id::portable_tank_unknown, "portable_tank_unknown", note,
                "carries portable tanks of unknown size; they do not count",
                "give portable_tank_gal"},
    ProblemKind{Id::source_no_station, "source_no_station", note,
                "counts, but no station gets there within the trip limit",
                "check the roads between it and the stations, and what may use them"},
    ProblemKind{Id::road_left_out, "road_left_out", set_aside,
                "holds lines that are no roads for apparatus; they are left out",
                "where apparatus drive on such lines, name their class in the values of [roads]"},
    ProblemKind{Id::point_no_road_in_reach, "point_no_road_in_reach", set_aside,
                "has no road in reach that the vehicles may use; it has no drives",
                "check its place, the roads around it, and access_reach_ft"},
    ProblemKind{Id::road_duplicate, "road_duplicate", set_aside,
                "is drawn twice; it is one road, with the stricter of what the two records say",
                "correct the record that is wrong and delete one of the two"},
    ProblemKind{Id::road_crossing_joined, "road_crossing_joined", note,
                "meets a road without a shared vertex; they were joined there",
                "if one passes over the other, give it a level, a bridge or a tunnel; "
                "join_crossings = false joins none"},
    ProblemKind{Id::road_overlap, "road_overlap", note,
                "is drawn on another road over a part; it may look like a second way",
                "keep one line where there is one road"},
    ProblemKind{Id::road_gap, "road_gap", note,
                "ends close to a road that it does not meet; nothing was joined there",
                "draw its end to the road, if they meet"},
    ProblemKind{Id::flow_test_incomplete, "flow_test_incomplete", note,
                "has a flow test that lacks a pressure or the flow; the test does not count",
                "give static and residual pressure, and the flow, or pitot reading and outlet"},
    ProblemKind{Id::flow_test_impossible, "flow_test_impossible", note,
                "has a flow test that cannot be right: the pressure did not fall while it flowed; "
                "the test does not count",
                "check both pressures, and test again"},
    ProblemKind{Id::flow_test_small_drop, "flow_test_small_drop", note,
                "was tested with less than a quarter of the static pressure as drop, too little to "
                "carry on to 20 psi; no more counts than what flowed",
                "test again with more outlets open"},
    ProblemKind{Id::hydrant_pressure_low, "hydrant_pressure_low", note,
                "gives nothing at the residual pressure that must be left in the main; it does not "
                "count",
                "check the static pressure; never pull a main below 20 psi"},
    ProblemKind{Id::source_lift_too_high, "source_lift_too_high", note,
                "lies deeper below the pump than may be lifted at drought level; it does not count",
                "find a lower stand for the engine, or check the lift"},
    ProblemKind{Id::source_cannot_draft, "source_cannot_draft", note,
                "cannot be drafted: lift uses up all the head that air and water leave there; it "
                "does not count",
                "find a lower stand for the engine, or check lift and altitude"},
    ProblemKind{Id::source_suction_assumed, "source_suction_assumed", note,
                "draws less than its stated rate through a lift or pipe of which not all is known; "
                "the lower flow counts",
                "measure lift and pipe, or flow test it"},
    ProblemKind{Id::source_test_above_suction, "source_test_above_suction", note,
                "was tested at more than its lift and pipe give at drought level; the test counts",
                "check the lift at drought level, and test again in a dry summer"},
    ProblemKind{Id::source_pond_too_shallow, "source_pond_too_shallow", note,
                "has no usable water over its intake at drought level; it does not count",
                "sound it, or lower the intake"},
    ProblemKind{Id::source_volume_contradicted, "source_volume_contradicted", note,
                "has more usable gallons than its area and depth hold; the smaller volume counts",
                "check gallons, area and depth"},
    ProblemKind{Id::system_values_differ, "system_values_differ", note,
                "says something else about its system than another member; the smaller value "
                "counts",
                "give all members of a system the same storage and system rate"},
    ProblemKind{Id::need_input_defaulted, "need_input_defaulted", note,
                "leaves an input of the needed flow unknown; its stated default is taken",
                "map a column for it, or state the district's own default in [need] or "
                "[assumptions]"},
    ProblemKind{Id::building_area_doubtful, "building_area_doubtful", note,
                "has a footprint that no building has; its area counts as not known",
                "draw it again, or delete it"},
    ProblemKind{Id::building_across_parcels, "building_across_parcels", note,
                "lies on more than one parcel; it counts for the one that holds its inside point",
                "check the parcel lines there"},
    ProblemKind{Id::building_overlap, "building_overlap", note,
                "covers much of another building; both count, each as near to the other",
                "delete one of the two, if they are one building"},
    ProblemKind{Id::building_heights_disagree, "building_heights_disagree", note,
                "has eaves above its highest part; the eaves count as not known",
                "check which of the two columns is which"},
    ProblemKind{Id::place_unfit, "place_unfit", note,
                "is a poor place for portable tanks; it is used, as the officer named it",
                "look at it, and move it to level road clear of bridges and rail crossings"},
    ProblemKind{Id::turnaround_off_road, "turnaround_off_road", set_aside,
                "is more than 200 ft from every road that a tanker may use; no tanker turns there",
                "move the point to its road"},
    ProblemKind{Id::source_hypothetical, "source_hypothetical", note,
                "is not there: it counts as if it were, because [what_if_sources] asks for it",
                "rely on no answer that it has a part in; build it, then list it in "
                "[water_sources]"},
    ProblemKind{Id::rows_empty, "rows_empty", note,
                "holds rows with nothing in them; they are left out and not counted",
                "delete them, or fill them in"},
    ProblemKind{Id::text_not_utf8, "text_not_utf8", note,
                "holds letters that are no UTF-8; they are read as Windows-1252",
                "check the names in the result, or save the file as UTF-8"},
    ProblemKind{Id::road_too_narrow, "road_too_narrow", note,
                "is narrower than every engine and tanker, and others with it; none drives there",
                "check the widths; leave those blank that nobody measured"},
    ProblemKind{
        Id::date_ambiguous, "date_ambiguous", note,
        "holds a date that can be two days; it counts as not known",
        "say what stands first with date_order = \"month_first\" or \"day_first\" at the top "
        "of the district file, or write dates as 2026-05-31"},
    ProblemKind{Id::date_from_day_number, "date_from_day_number", note,
                "holds a spreadsheet's day number; it is read as the day that it stands for",
                "check the day, and format the cells as dates"},
    ProblemKind{Id::date_after_data, "date_after_data", note,
                "holds a date after the data's; it counts as not known",
                "correct it, or set data_date of the district file to the day the data are of"},
    ProblemKind{Id::source_test_undated, "source_test_undated", note,
                "is called tested, but nothing says when; it counts as declared",
                "give the date of its test"},
    ProblemKind{Id::source_test_age_unknown, "source_test_age_unknown", note,
                "was tested, but how long ago cannot be judged; it counts as tested, and not at "
                "all for a rating that asks for a test",
                "give data_date, the day that the data stand for"},
    ProblemKind{Id::row_too_long, "row_too_long", set_aside,
                "has more cells than the table has columns, so that values may stand in the wrong "
                "ones",
                "put a value with a comma in quotes, or leave the comma out"},
    ProblemKind{Id::text_hidden_letters, "text_hidden_letters", note,
                "holds letters that nobody sees, or that turn the writing round; they are left out",
                "type these names anew"},
    ProblemKind{Id::text_too_long, "text_too_long", note,
                "holds texts of more than 500 letters; the rest of them is left out",
                "shorten them"},
    ProblemKind{Id::source_own_parcel, "source_own_parcel", set_aside,
                "is for one property alone, and cannot serve it",
                "name one parcel in own_parcel; where its owner lends it for any fire, set use to "
                "operations"},
    ProblemKind{Id::run_start_unknown, "run_start_unknown", set_aside,
                "names a start that is no station, water source or dump site place",
                "correct the id, or leave it blank where the unit left its station"},
    ProblemKind{
        Id::clock_unreadable, "clock_unreadable", note,
        "has a time of day that cannot be read, or is hours before the one that goes before "
        "it; what it would tell is left out",
        "write 14:05, 14:05:33 or 2:05 PM, with or without the day before it"},
    ProblemKind{Id::engine_tank_assumed, "engine_tank_assumed", note,
                "has no tank size; a small one is taken", "give tank_gal"},
    ProblemKind{Id::row_twice, "row_twice", set_aside,
                "has an id that an earlier row of the layer has too; the earlier row is used",
                "delete the row, or give it an id of its own"},
    ProblemKind{Id::staffing_of_no_period, "staffing_of_no_period", note,
                "names no period of the district file; fewer people and a longer turnout than "
                "usual count in every period without a row of its own",
                "correct the name, or add its [period.NAME] table"},
    ProblemKind{Id::response_zone_without_rows, "response_zone_without_rows", note,
                "names a response zone that has no rows; own units and automatic aid go there at "
                "the alarm, mutual aid on request",
                "correct the name, or list who goes there in [response_zones]"},
    ProblemKind{Id::response_zone_of_no_parcel, "response_zone_of_no_parcel", note,
                "lists a zone that no parcel names; these rows count nowhere",
                "correct the name, or map the parcels' column for zone"},
    ProblemKind{Id::months_without_season, "months_without_season", grave,
                "leaves months without a season; no answer holds in them",
                "add a [season.NAME] table with them, or add them to one that is there"},
    ProblemKind{Id::months_in_two_seasons, "months_in_two_seasons", note,
                "has months that more than one season holds; both are worked out, and the worst "
                "counts",
                "let each month stand in one season"},
    ProblemKind{Id::fleet_of_one_engine, "fleet_of_one_engine", grave,
                "has one engine; a tanker shuttle takes two, one to attack and one to draft, so "
                "no house gets one",
                "add the engines that come, own and aid"},
    ProblemKind{Id::fleet_without_portable_tanks, "fleet_without_portable_tanks", grave,
                "has no unit that brings a portable tank; a tanker shuttle takes one, so no house "
                "gets one",
                "fill in portable_tank_gal for every truck that carries a portable tank"},
    ProblemKind{Id::elevation_leaves_out, "elevation_leaves_out", note,
                "leaves out a part of the district, which counts as level there",
                "name a raster that covers all, or a virtual one (VRT) of several"},
    ProblemKind{Id::parcel_same_house, "parcel_same_house", note,
                "has its house exactly where another parcel has its own; each counts in numbers "
                "and percentages",
                "leave them if each is a property, as units of a condominium are; else delete one"},
};

constexpr bool in_order_of_id() {
    for (std::size_t i = 0; i < kinds.size(); ++i) {
        if (kinds[i].id != static_cast<ProblemId>(i)) {
            return false;
        }
    }
    return kinds.size() == static_cast<std::size_t>(Id::parcel_same_house) + 1;
}
static_assert(in_order_of_id());

constexpr std::array severities{std::string_view("note"), std::string_view("repaired"),
                                std::string_view("set_aside"), std::string_view("grave")};

}  // namespace

std::span<const ProblemKind> problem_kinds() { return kinds; }
const ProblemKind& kind_of(ProblemId id) { return kinds[static_cast<std::size_t>(id)]; }
std::string_view name_of(ProblemId id) { return kind_of(id).name; }
std::string_view name_of(Severity severity) {
    return severities[static_cast<std::size_t>(severity)];
}

std::string row_name(std::uint32_t row) { return "row " + std::to_string(row + 1); }

std::vector<Problem> season_problems(const std::vector<Season>& seasons, const std::string& file) {
    const MonthsCovered covered = months_covered(seasons);
    std::vector<Problem> problems;
    const auto tell = [&](ProblemId id, MonthSet months) {
        if (!months.empty()) {
            problems.push_back({id, "season", file, {}, {}, month_words(months)});
        }
    };
    tell(ProblemId::months_without_season, MonthSet::all().without(covered.once));
    tell(ProblemId::months_in_two_seasons, covered.twice);
    return problems;
}

std::string sentence(const Problem& problem) {
    const ProblemKind& kind = kind_of(problem.id);
    std::string text = problem.layer;
    if (!problem.file.empty()) {
        text += " (" + problem.file + ")";
    }
    if (!problem.record.empty()) {
        text += (problem.record.starts_with("row ") ? ", " : ", record ") + problem.record;
    }
    if (!problem.field.empty()) {
        text += ", column " + problem.field;
    }
    text += ": ";
    text += kind.what;
    if (!problem.detail.empty()) {
        text += " (" + problem.detail + ")";
    }
    text += "; ";
    text += kind.mend;
    text += ".";
    return text;
}

}  // namespace farwater
