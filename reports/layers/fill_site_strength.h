// Columns of the layer of fill sites: what each gives, what keeps it down, and what that rests on.
#pragma once

#include <functional>
#include <vector>

#include "reports/findings.h"
#include "reports/layers/table_builder.h"

namespace farwater::reports {

using CountedAt = std::function<const supply::CountedSource&(std::size_t row)>;

std::vector<ColumnOf> strength_columns(const Findings& findings, const CountedAt& site);

}  // namespace farwater::reports
