// A source of water as a row that the district file's [water_sources] reads again, cell by cell.
#pragma once

#include <functional>
#include <vector>

#include "analyzer/district/water.h"
#include "reports/layers/table_builder.h"

namespace farwater::reports {

// Columns by the names of the input section's own fields, from kind to note; what is not known is
// empty. `source` gives the source of a row, which must outlive the table.
std::vector<ColumnOf> source_cells(
    const std::function<const WaterSource&(std::size_t row)>& source);

// "all", "" for none, else "4,5,6".
std::string months_text(MonthSet months);

}  // namespace farwater::reports
