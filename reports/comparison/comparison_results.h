// What became of a district between two results, as tables, text and JSON.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "analyzer/district/plane.h"
#include "analyzer/district/stored_result.h"
#include "analyzer/geometry/polygon.h"
#include "analyzer/planning/comparison.h"
#include "io/feature_table.h"

namespace farwater::reports {

// Only a view: both results and what was found must outlive it.
struct ComparedResults {
    const StoredResult& before;
    const StoredResult& after;
    const planning::Comparison& comparison;
};

// Where a place of a change stands: of the later result where it has one, else of the earlier one.
using AreaOfChange = std::function<MultiPolygon(const planning::AnswerChange& change)>;
using PlaceOfChange = std::function<std::optional<Point>(const planning::AnswerChange& change)>;

// A row for each parcel (or target) that changed, came or went. Without shapes where none are
// given, for CSV.
io::FeatureTable parcel_changes(const ComparedResults& results, const AreaOfChange& area = {});
io::FeatureTable target_changes(const ComparedResults& results, const PlaceOfChange& place = {});

io::FeatureTable state_changes(const ComparedResults& results);    // parcels, from state to state
io::FeatureTable station_changes(const ComparedResults& results);  // no rows where not told
io::FeatureTable input_changes(const ComparedResults& results);
io::FeatureTable compared_results(const ComparedResults& results);  // what the two are

std::string comparison_text(const ComparedResults& results);
std::string comparison_json(const ComparedResults& results);

}  // namespace farwater::reports
