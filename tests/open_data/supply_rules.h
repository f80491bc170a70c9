// Rules that every row of parcel_supply keeps, told from its columns alone.
#pragma once

#include <string>
#include <vector>

namespace farwater::open_data {

struct Rule {
    const char* what;
    const char* broken_where;  // SQL condition on a row of parcel_supply
};

inline std::vector<Rule> supply_rules() {
    return {
        {"the state is one of the list",
         "state IS NULL OR state NOT IN "
         "('unknown','no_building','unreached','held','late','short','tank_only')"},
        {"a reason is given where, and only where, the state is not known",
         "(state = 'unknown') != (reason IS NOT NULL)"},
        {"no need and no flow stand where there is no building",
         "state = 'no_building' AND coalesce(needed_gpm, duration_min, sustained_gpm, "
         "cautious_gpm, shortfall_gpm,"
         " dump_site_id, fill_source_id, first_engine_min) IS NOT NULL"},
        {"every other parcel has a need and a duration",
         "state != 'no_building' AND (needed_gpm IS NULL OR duration_min IS NULL)"},
        {"every answer has flows",
         "state NOT IN ('no_building','unknown') AND (sustained_gpm IS NULL OR cautious_gpm IS NULL"
         " OR shortfall_gpm IS NULL OR later_gpm IS NULL OR one_tanker_out_gpm IS NULL)"},
        {"held means that the cautious flow meets the need, and nothing else is called held",
         "state NOT IN ('no_building','unknown') AND (state = 'held') != (cautious_gpm >= "
         "needed_gpm)"},
        {"the shortfall is the need less the cautious flow of the better way, never below 0",
         "abs(shortfall_gpm - max(0, needed_gpm - max(cautious_gpm, coalesce(runner_up_gpm, 0)))) "
         "> 1e-6"},
        {"the cautious flow is not more than the sustained one", "cautious_gpm > sustained_gpm"},
        {"without one tanker it is not more", "one_tanker_out_gpm > cautious_gpm"},
        {"the margin is firm from 1.1 times the need, thin from the need on, else none",
         "state NOT IN ('no_building','unknown') AND margin != CASE WHEN cautious_gpm >= 1.1 * "
         "needed_gpm - 1e-9"
         " THEN 'firm' WHEN cautious_gpm >= needed_gpm THEN 'thin' ELSE 'none' END"},
        {"late: the need is met from a start after the allowed one, within the horizon",
         "state = 'late' AND (earliest_start_min IS NULL OR earliest_start_min <= first_engine_min "
         "+ 14.4"
         " OR earliest_start_min > max(60, first_engine_min + 15))"},
        {"held: the need is met from the allowed start",
         "state = 'held' AND (earliest_start_min IS NULL OR earliest_start_min > first_engine_min "
         "+ 15.05)"},
        {"short: some flow holds, from the start or from the horizon on",
         "state = 'short' AND later_gpm <= 0 AND cautious_gpm <= 0"},
        {"on tank water only no flow holds, and the limit says why",
         "state = 'tank_only' AND (later_gpm > 0 OR cautious_gpm > 0 OR binding_limit IS NULL OR "
         "binding_limit = "
         "'none')"},
        {"unreached: no engine has a time",
         "(state = 'unreached') AND first_engine_min IS NOT NULL"},
        {"reached: the first engine has a time",
         "state IN ('held','late','short','tank_only') AND first_engine_min IS NULL"},
        {"a flow has a source and a way that it comes",
         "(sustained_gpm > 0 OR later_gpm > 0) AND (fill_source_id IS NULL OR supply_mode NOT IN "
         "('shuttle','direct','relay'))"},
        {"a shuttle has a dump site, a round trip and tankers, and nothing else has",
         "sustained_gpm > 0 AND (supply_mode = 'shuttle') != (dump_site_id IS NOT NULL AND "
         "round_trip_min IS NOT NULL AND tankers >= 1)"},
        {"several fill sites hold more than one, and all tankers fill at one of them",
         "supply_mode = 'shuttle' AND ((one_fill_site_gpm > cautious_gpm AND nursing_tanker_id IS "
         "NULL) OR fill_site_count NOT IN "
         "(1, 2, 3) OR fill_tankers + coalesce(second_fill_tankers, 0) + "
         "coalesce(third_fill_tankers, 0) != tankers OR (fill_site_count = 1 AND cautious_gpm != "
         "one_fill_site_gpm))"},
        {"a second and a third fill site are told where, and only where, they are in use",
         "(second_fill_source_id IS NOT NULL) != (coalesce(fill_site_count, 0) >= 2) OR "
         "(third_fill_source_id IS NOT NULL) != (coalesce(fill_site_count, 0) = 3) OR "
         "second_fill_source_id IN (fill_source_id, third_fill_source_id)"},
        {"hose is no longer than is laid",
         "hose_ft > CASE WHEN supply_mode IN ('direct','relay') THEN 3000.05 ELSE 1000.05 END"},
        {"the runner-up came another way and has a flow",
         "runner_up_mode = supply_mode OR runner_up_gpm <= 0 OR (runner_up_mode IS NULL) != "
         "(runner_up_gpm IS NULL)"},
        {"tank water comes first, continuous supply not before", "continuous_min < tank_water_min"},
        {"the gap lies between the two", "gap_min > continuous_min - tank_water_min + 0.15"},
    };
}

}  // namespace farwater::open_data
