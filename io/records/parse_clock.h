// Times of day as records systems and spreadsheets write them.
#pragma once

#include <optional>
#include <string_view>

#include "analyzer/district/units.h"

namespace farwater::io {

// Since midnight: 14:05, 14:05:33, 2:05:33 PM, 2026-03-04 14:05, 2026-03-04T14:05:33.250Z. What
// stands before the time is not looked at, and no zone is: all times of a run are of one clock.
// None for anything else, 14.05 and 1405 too, which can be other numbers.
std::optional<Duration> parse_clock(std::string_view text);

// From one time of day to a later one, over midnight where it is smaller. None where that takes
// longer than `most`: then they are not two times of one run.
std::optional<Duration> clock_between(Duration from, Duration to, Duration most);

}  // namespace farwater::io
