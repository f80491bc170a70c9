// A comparison of two results as one HTML document that prints well.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "analyzer/district/plane.h"
#include "reports/comparison/comparison_results.h"
#include "reports/print/drawing.h"

namespace farwater::reports {

struct PlaceOnMap {
    std::string name;
    Point place;
};

// What the map shows beside the changes, in the plane of the later result.
struct ComparisonGround {
    std::vector<Polyline> roads;
    std::vector<PlaceOnMap> fill_sites;
    PlaceOfChange place_of_parcel;  // a point inside; none where it has no shape
};

// More marks than this would hide each other; the most urgent are drawn, and the page says so.
inline constexpr std::size_t most_marks_of_changes = 20000;
// Rows of each list; all of them are in parcel_changes.csv and input_changes.csv.
inline constexpr std::size_t most_rows_of_changes = 60;

// Where it got better and worse, each with a shape of its own, for greys.
Drawing change_map(const ComparedResults& results, const ComparisonGround& ground);

// Headline, what to know first, who no longer meets the planned flow, the map, the others, states
// from and to, stations, inputs that differ. Well-formed as XML; all text of the data is escaped;
// the same bytes for the same two results.
std::string comparison_page(const ComparedResults& results, const ComparisonGround& ground);

}  // namespace farwater::reports
