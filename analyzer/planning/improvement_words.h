// An improvement in words.
#pragma once

#include <string>
#include <string_view>

#include "analyzer/district/district.h"
#include "analyzer/district/improvement.h"

namespace farwater::planning {

// What it is and where, such as "1000 ft of 4-in hose on E1"; for one without a name of its own.
// Precondition: its indices are the district's.
std::string usual_name(const District& district, const Improvement& improvement);

// What must be asked, settled or proved before it helps; one clause.
std::string_view what_to_settle(ImprovementKind kind);

}  // namespace farwater::planning
