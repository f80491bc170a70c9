// How much a source gives, worked out on paper.
#pragma once

#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/supply/water_review.h"
#include "reports/explain/worked_page.h"

namespace farwater::reports {

// Into the part that was begun last.
void add_source_lines(const District& district, const WaterSource& source,
                      const supply::CountedSource& counted, WorkedPage& page);

// Of a source that is not there yet, as one part; none where it would not count.
std::vector<WorkedPart> source_worksheet(const District& district, const WaterSource& source);

}  // namespace farwater::reports
