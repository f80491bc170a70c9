// Numbers and days as documents write them.
#pragma once

#include <optional>
#include <string>

#include "analyzer/district/calendar.h"
#include "analyzer/district/units.h"

namespace farwater::reports {

std::string in_thousands(double number);  // "1,234,500", rounded to whole
std::string gpm_in_words(Flow flow);      // "1,250 gpm"
int planned_gpm(HeldFlow flow);           // of all documents: down to 25 gpm below 500, 50 above
int planned_gpm(HeldFlow flow, HeldFlow needed);  // never below a need that the flow meets
std::string day(std::optional<Date> date);        // "2026-05-31"; empty where there is none

}  // namespace farwater::reports
