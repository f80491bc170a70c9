// Terms of insurance rating as values with units, from their numbers and words (terms/*.toml).
#pragma once

#include <string>
#include <vector>

#include "analyzer/district/standard.h"
#include "analyzer/district/units.h"
#include "analyzer/district/words.h"

namespace farwater::rating {

struct HoseStep {
    Length up_to;  // hose to the source, inclusive
    Flow worth;
};

// Asked of the department as a whole; 0 = not asked.
struct OfDepartment {
    double share = 0.0;              // of the properties that have the minimum flow
    double responders = 0.0;         // to an alarm, on average
    double training_hours = 0.0;     // of each member, a year
    double alarm_points = 0.0;       // of the schedule, for receiving alarms
    double department_points = 0.0;  // for the fire department
    double points_in_all = 0.0;
    double people_at_flow = 0.0;  // at the fire when the minimum flow begins
};

struct Terms {
    Flow minimum;  // to be held over `duration`
    Duration duration;
    ClockStart clock = ClockStart::first_arrival;
    Duration start_within;  // the minimum flow has begun by then
    Duration full_within;   // a larger flow is credited that has begun by then

    Length near, far;  // road miles from a station; far = 0: no category beyond near
    Length hose;       // to a source
    std::vector<HoseStep> hose_credit;  // ascending

    double delivered_share = 0.9;  // of a tank, on paper
    Duration drive_fixed, drive_per_mile;
    DriveRule drive_rule = DriveRule::round_trip;
    Aid farthest_aid = Aid::automatic;  // apparatus of this aid and nearer counts
    Flow least_pump;                    // of one engine at least
    OfDepartment department;

    Standing least_standing = Standing::tested;
    bool certificate = true;  // of a suction point's water in a drought
    bool all_weather = true, all_year = true, freeze_provision = true;
    bool owner_permission = true;
    Length most_lift, most_head;
    Volume least_cistern;

    std::string near_with_water, near_without_water, far_with_water, otherwise;  // categories
};

// Precondition: every key of terms/schedule.toml is there, as io's reading sees to.
Terms terms_of(const Standard& standard);

// What hose of that length to a source is worth, whatever the source gives; 0 beyond the last step
// or the farthest hose.
Flow worth_of_hose(const Terms& terms, Length hose);

// A round trip on paper, by the rule T = fixed + per mile x miles, once or for each leg.
// Source: rating organisation, "Response-Time Considerations" (0.65 + 1.7 x miles).
Duration drive_on_paper(const Terms& terms, Length out, Length back);
// What one tanker is credited with; `handling` is fill, offload and what goes with them. 0 where no
// time passes. Source: rating organisation, "Alternative Water Supplies".
Flow tanker_on_paper(const Terms& terms, Volume tank, Duration drive, Duration handling);

}  // namespace farwater::rating
