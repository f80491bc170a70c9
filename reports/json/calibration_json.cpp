#include <cmath>

#include "reports/calibration.h"
#include "reports/json/json_cells.h"

namespace farwater::reports {
namespace {

double to_four_decimals(double value) { return std::round(value * 1e4) / 1e4; }

json spread_json(const planning::Spread& spread) {
    return {{"runs", spread.runs},
            {"within_the_plan", spread.within},
            {"half_within", to_four_decimals(spread.half)},
            {"eight_of_ten_within", to_four_decimals(spread.eight_of_ten)}};
}

json drives_json(const CalibrationFindings& findings) {
    json groups = json::array();
    if (findings.calibration.drives.runs == 0) {
        return groups;
    }
    for (const NamedSpread& group : drive_groups(findings)) {
        json one = {{"by", group.by}, {"name", group.name}};
        one.update(spread_json(group.spread));
        groups.push_back(std::move(one));
    }
    return groups;
}

json turnouts_json(const CalibrationFindings& findings) {
    json groups = json::array();
    for (const planning::TurnoutGroup& group : findings.calibration.turnouts) {
        json one = {{"station_id", at(findings.district.stations, group.station).id},
                    {"period", at(findings.district.periods, group.period).name},
                    {"planned_min", in_minutes(group.planned)}};
        one.update(spread_json(group.spread));
        groups.push_back(std::move(one));
    }
    return groups;
}

}  // namespace

std::string calibration_json(const CalibrationFindings& findings) {
    return dumped(
        {{"schema_version", json_schema_version},
         {"district", findings.district.name},
         {"drives", drives_json(findings)},
         {"speed_factor", number_or_null(planning::speed_factor(findings.calibration.drives))},
         {"turnouts", turnouts_json(findings)},
         {"runs", printed_rows(timed_runs(findings))},
         {"problems", problem_counts(findings.problems)}});
}

}  // namespace farwater::reports
