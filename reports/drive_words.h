// In words: what made the minutes of a run.
#pragma once

#include <string>

#include "analyzer/district/district.h"

namespace farwater::reports {

// One sentence for the summary and the run record: the rule, and whether it knows grades.
std::string travel_time_sentence(const District& district);

// The same for a table of drives there and back, each by itself.
std::string travel_time_of_drives(const District& district);

// The same in short, behind the description of a column of drive times: begins with a blank.
std::string drive_note(const District& district);

}  // namespace farwater::reports
