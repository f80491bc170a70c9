// Runs that somebody timed: incident records and drills.
#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "analyzer/district/calendar.h"
#include "analyzer/district/ids.h"
#include "analyzer/district/plane.h"
#include "analyzer/district/units.h"

namespace farwater {

// Where a run began: one of them is valid.
struct RunStart {
    StationIndex station;
    SourceIndex source;
    std::optional<std::uint32_t> dump_site_place;  // index into District::dump_site_places
    friend auto operator<=>(const RunStart&, const RunStart&) = default;
};

// One unit's run to one place. What was not timed is none.
struct TimedRun {
    std::string id;
    std::uint32_t row = 0;
    UnitIndex unit;
    RunStart from;
    Point to;
    std::optional<Date> date;
    PeriodIndex period;               // not valid: not told
    std::optional<Duration> turnout;  // tones to wheels rolling
    std::optional<Duration> drive;    // wheels rolling to arrival
};

}  // namespace farwater
