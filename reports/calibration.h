// Timed runs beside the plan, as text, as a table run by run, and as JSON.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/district/timed_run.h"
#include "analyzer/planning/calibration.h"
#include "io/feature_table.h"

namespace farwater::reports {

struct CalibrationFindings {
    const District& district;
    std::vector<TimedRun> runs;
    std::vector<planning::RunBesidePlan> beside;  // per run
    planning::Calibration calibration;
    std::vector<Problem> problems;  // of the runs
};

// A row a run. The findings must outlive it.
io::FeatureTable timed_runs(const CalibrationFindings& findings);

// Drives and turnouts in groups, what follows from them, and the cautions.
std::string calibration_text(const CalibrationFindings& findings);

// One document with "schema_version", the groups and every run.
std::string calibration_json(const CalibrationFindings& findings);

// What follows for the planning speeds, in one sentence.
std::string advice_on_speeds(const planning::Calibration& calibration);

// "engine", "summer", "S1": what the drives of a group have in common.
struct NamedSpread {
    std::string by;  // all, kind, season or station
    std::string name;
    planning::Spread spread;
};
// All drives first; those of one kind, season or station only where there are several.
std::vector<NamedSpread> drive_groups(const CalibrationFindings& findings);

}  // namespace farwater::reports
