// Timed runs beside the plan: how much of what crews did the planned figure covers. Statistics of
// the runs that were timed, and of no others: who times seldom times the usual.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "analyzer/district/ids.h"
#include "analyzer/district/units.h"
#include "analyzer/district/words.h"

namespace farwater::planning {

// A run and what the plan says of it. None: not timed, or not planned (no way, no period).
struct RunBesidePlan {
    UnitKind kind = UnitKind::engine;
    StationIndex station;  // of the unit
    SeasonIndex season;
    PeriodIndex period;  // not valid: not told
    std::optional<Duration> turnout, planned_turnout;
    std::optional<Duration> drive, planned_drive;
};

// Of some figures, of which each stands beside a planned one. By nearest rank, so that a figure
// that stands here was timed: the least that so many of the runs did not exceed.
struct Spread {
    std::size_t runs = 0;
    std::size_t within = 0;     // no longer than planned
    double half = 0.0;          // half of the runs took so much or less
    double eight_of_ten = 0.0;  // eight of ten did: the share that the standard for volunteer
                                // departments asks for (NFPA 1720, table of staffing and response
                                // time, from memory)
};

// With fewer runs a spread says little: common practice, no source.
inline constexpr std::size_t fewest_to_judge = 10;

// Turnouts of the units of one station in one period that are planned alike, in minutes.
struct TurnoutGroup {
    StationIndex station;
    PeriodIndex period;
    Duration planned;
    Spread spread;
};

template <class Key>
struct DriveGroup {
    Key key{};
    Spread spread;
};

// Drives are parts of the planned drive: 1.2 is a fifth longer than planned.
struct Calibration {
    Spread drives;
    std::vector<DriveGroup<UnitKind>> by_kind;  // each in the order of its key
    std::vector<DriveGroup<SeasonIndex>> by_season;
    std::vector<DriveGroup<StationIndex>> by_station;  // of the unit
    std::vector<TurnoutGroup> turnouts;                // by station, period, planned
};

// Runs without a figure or a plan for it count nowhere; nor does a planned drive of nothing.
// O(n log n).
Calibration calibration_of(std::span<const RunBesidePlan> runs);

// What planning speeds would be multiplied with for half of the runs to be as planned; none with
// fewer than fewest_to_judge of them, and where half were within a twentieth of the plan.
std::optional<double> speed_factor(const Spread& drives);

}  // namespace farwater::planning
