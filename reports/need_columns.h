// The columns that say what a property needs and why, and the standard that this rests on.
#pragma once

#include <string>
#include <vector>

#include "analyzer/district/standard.h"
#include "reports/findings.h"
#include "reports/layers/table_builder.h"

namespace farwater::reports {

// Rows are parcels, then targets.
std::vector<ColumnOf> need_columns(const Findings& findings);

// "from memory, hardly sure" and the like.
std::string_view certainty_in_words(Certainty certainty);
bool is_from_memory(Certainty certainty);

// Which rule, edition and copy, and how much of it comes from memory, in a few words each.
std::vector<std::pair<std::string, std::string>> need_in_words(const District& district);

// "Improved parcels by needed flow", a line for each rule that could be asked for.
std::string need_bands_text(const Findings& findings);

}  // namespace farwater::reports
