// What is wrong with the data: a Problem names the record and the mend, and the run goes on.
// Ids are stable for ever: results of other years refer to them, so none is reused or renamed.
#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "analyzer/district/calendar.h"

namespace farwater {

enum class ProblemId : std::uint8_t {
    // records of any layer
    geometry_missing,
    geometry_empty,
    geometry_wrong_kind,
    geometry_repaired,
    geometry_beyond_repair,
    geometry_outside_district,
    number_unreadable,
    number_out_of_range,
    value_not_in_list,
    value_not_mapped,
    date_unreadable,
    id_missing,
    id_duplicate,
    // joins
    join_key_duplicate,
    join_key_unmatched,
    building_outside_parcels,
    // roads and access
    road_zero_length,
    road_island,
    road_no_speed,
    road_edge_of_data,
    parcel_no_road_in_reach,
    parcel_no_usable_road,
    source_no_road_in_reach,
    station_no_road_in_reach,
    place_no_road_in_reach,
    // water
    source_mapped_only,
    source_volume_unknown,
    source_rate_assumed,
    source_test_lapsed,
    source_kind_unknown,
    system_volume_unknown,
    // fleet
    unit_station_unknown,
    unit_kind_unknown,
    unit_tank_unknown,
    unit_rate_assumed,  // not raised any more: the worklist asks for timing
    fleet_without_tankers,
    fleet_without_engines,
    no_source_counts,
    // need
    need_defaulted,  // not raised any more: need_input_defaulted
    no_building_data,
    // added later: ids are never reordered
    unit_unknown,
    period_unknown,
    value_missing,
    portable_tank_unknown,
    // found while routing
    source_no_station,
    // found while reading roads by a schema
    road_left_out,
    // asked for from the command line
    point_no_road_in_reach,
    // of the road network
    road_duplicate,
    road_crossing_joined,
    road_overlap,
    road_gap,
    // of what a source gives
    flow_test_incomplete,
    flow_test_impossible,
    flow_test_small_drop,
    hydrant_pressure_low,
    source_lift_too_high,
    source_cannot_draft,
    source_suction_assumed,
    source_test_above_suction,
    source_pond_too_shallow,
    source_volume_contradicted,
    system_values_differ,
    // of buildings and needed flow
    need_input_defaulted,
    building_area_doubtful,
    building_across_parcels,
    building_overlap,
    building_heights_disagree,
    // of the officer's places
    place_unfit,
    turnaround_off_road,
    // of what is not there
    source_hypothetical,
    // of whole layers
    rows_empty,
    text_not_utf8,
    // of what drives there
    road_too_narrow,
    // of dates
    date_ambiguous,
    date_from_day_number,
    date_after_data,
    // of a test's date
    source_test_undated,
    source_test_age_unknown,
    // of rows of tables
    row_too_long,
    // of letters
    text_hidden_letters,
    text_too_long,
    // of a use that is not worked out
    source_own_parcel,
    run_start_unknown,
    clock_unreadable,
    // of a tank that nobody says
    engine_tank_assumed,
    // of things that are there once, typed twice
    row_twice,
    // of names that rows refer to each other by
    staffing_of_no_period,
    response_zone_without_rows,
    response_zone_of_no_parcel,
    // of the year
    months_without_season,
    months_in_two_seasons,
    // of the whole fleet
    fleet_of_one_engine,
    fleet_without_portable_tanks,
    // of the ground
    elevation_leaves_out,
    // of parcels on top of each other
    parcel_same_house,
};

enum class Severity : std::uint8_t {
    note,       // the run used a stated default
    repaired,   // the record was mended and used
    set_aside,  // the record was not used
    grave,      // a whole stage has no input, or gives nothing by what the input is
};

// What an id means and how to mend it, in the user's words.
struct ProblemKind {
    ProblemId id;
    std::string_view name;
    Severity severity;
    std::string_view what;
    std::string_view mend;
};

std::span<const ProblemKind> problem_kinds();  // in the order of ProblemId, one for each
const ProblemKind& kind_of(ProblemId id);
std::string_view name_of(ProblemId id);
std::string_view name_of(Severity severity);

struct Problem {
    ProblemId id{};
    std::string layer;   // the district file's word for the input: "roads", "parcels", ...
    std::string file;    // as written in the district file
    std::string record;  // id, or "row 17" where the record has none; empty = the whole layer
    std::string field;   // their column; empty = the geometry or the whole record
    std::string detail;  // the offending value or measure, in one clause
    friend bool operator==(const Problem&, const Problem&) = default;
};

// What stands for the id of a record that has none: "row 17", counted from 1 as tables show it;
// `row` counts from 0.
std::string row_name(std::uint32_t row);

// One clear sentence for a person: file, layer, record, field, what, mend.
std::string sentence(const Problem& problem);

// Months that no season holds, or more than one. `file`: the district file's name.
std::vector<Problem> season_problems(const std::vector<Season>& seasons, const std::string& file);

// Nothing is dropped silently: read = used + repaired + set_aside, always.
struct RecordCount {
    std::string layer;
    std::string file;
    std::size_t read = 0;
    std::size_t used = 0;
    std::size_t repaired = 0;
    std::size_t set_aside = 0;
    bool adds_up() const { return read == used + repaired + set_aside; }
};

}  // namespace farwater
