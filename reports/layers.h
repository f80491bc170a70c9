// The layers and tables of supply.gpkg, as schemas and row generators.
#pragma once

#include <string>
#include <vector>

#include "io/feature_table.h"
#include "reports/findings.h"

namespace farwater::reports {

// A table of what was found; without one of its kind, one without rows.
using MakesTable = io::FeatureTable (*)(const Findings&);

// Layers that carry an input layer through: parcel_supply and road_times.
io::PassThroughTable parcel_supply(const Findings& findings);
io::PassThroughTable road_times(const Findings& findings);

// The result columns of one parcel or, behind them, target, without its id: what the layers say of
// it. One row; texts live as long as the findings and the table.
io::FeatureTable supply_of_one(const Findings& findings, std::size_t row);

// Point layers, and the drives between stations and dump sites; drives are of the first season.
io::FeatureTable target_supply(const Findings& findings);
io::FeatureTable fill_sites(const Findings& findings);
io::FeatureTable dump_sites(const Findings& findings);
io::FeatureTable shuttle_routes(const Findings& findings);  // lines
io::FeatureTable response_times(const Findings& findings);  // no shapes: a row per site and station

// Tables without geometry.
io::FeatureTable fleet(const Findings& findings);
io::FeatureTable assumptions(const Findings& findings);
io::FeatureTable need_standard(const Findings& findings);
io::FeatureTable data_problems(const Findings& findings);
io::FeatureTable worklist(const Findings& findings);
io::FeatureTable input_records(const Findings& findings);  // read = used + repaired + set aside

// run_record: what the result rests on, key by key in the given order.
using RunRecord = std::vector<std::pair<std::string, std::string>>;
io::FeatureTable run_record_table(const RunRecord& record);

// by_state (per season and period) and shortfalls (parcels that are not held, largest first), for
// tables/*.csv.
io::FeatureTable by_state(const Findings& findings);
io::FeatureTable shortfalls(const Findings& findings);

}  // namespace farwater::reports
