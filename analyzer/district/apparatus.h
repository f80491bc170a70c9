// Stations, apparatus and who staffs them when.
#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "analyzer/district/calendar.h"
#include "analyzer/district/ids.h"
#include "analyzer/district/plane.h"
#include "analyzer/district/units.h"
#include "analyzer/district/words.h"

namespace farwater {

struct Station {
    std::string id;
    std::string name;
    std::uint32_t row = 0;
    Point place;  // for a unit from outside: the gate point at the edge of the data
    Aid aid = Aid::own;
    bool staffed = false;             // somebody sleeps there; else volunteers turn out from home
    std::optional<Duration> to_gate;  // drive from the real station to the gate point; none = 0
};

struct HoseLoad {
    Length hose_2_5in, hose_3in, hose_4in, hose_5in;  // supply line carried, by diameter
};

struct Unit {
    std::string id;
    StationIndex station;
    UnitKind kind = UnitKind::other;
    Aid aid = Aid::own;
    Volume tank;
    bool tank_known = true;          // false: nobody says; of an engine the stated default
    std::optional<Flow> pump;        // rated; none = no pump known
    std::optional<Flow> fill_limit;  // none = the stated default, evidence assumed
    std::optional<Flow> offload;
    std::optional<Date> tested_on;    // when fill and offload were timed
    Volume portable_tank;             // nominal gallons carried as portable tanks, all together
    bool portable_tank_known = true;  // false: nobody says, and none counts
    int portable_tanks = 0;
    std::optional<int> crew;              // usual crew; staffing rows override it by period
    std::optional<int> min_crew;          // with fewer it stays in quarters
    std::optional<Weight> loaded, empty;  // none = the stated estimate
    std::optional<Length> width, height;
    std::optional<Speed> top_speed;
    std::optional<Power> power;    // engine, rated; none = the stated estimate
    std::optional<HoseLoad> hose;  // none = the stated default load of an engine, nothing on others
    int jet_siphons = 0;
    std::optional<Flow> siphon;  // what one of them moved when timed; none = the stated default
    int low_level_strainers = 0;
    std::optional<Length> hard_suction;  // for run cards; lift counts with the source's own length
    bool backs_to_offload =
        false;  // rear dump only: it backs up to the tanks even on a through lane
};

// One row of the staffing table: a unit or all units of a station, in one period.
struct Staffing {
    UnitIndex unit;  // one of the two is valid
    StationIndex station;
    PeriodIndex period;
    std::optional<int> crew;
    std::optional<Duration> turnout;
};

// Who goes on which alarm in a response zone. Without rows: own units and automatic aid at the
// alarm, mutual aid after the request delay.
struct ResponseRule {
    std::string zone;
    int alarm = 1;  // 1, 2 or 3
    UnitIndex unit;
};

// A place of the officer's own choosing for a dump site.
struct DumpSitePlace {
    std::string id;
    std::string name;
    std::uint32_t row = 0;
    Point place;
    std::optional<LaneClass> lane;
    std::optional<int> portable_tanks;  // that fit; none = by the road beside it
    bool turnaround = false;            // a tanker can turn there; not said = no
};

// Where a tanker can turn round without backing far: a lot, a wide mouth of a drive, a circle.
struct Turnaround {
    std::string id;
    std::string name;
    std::uint32_t row = 0;
    Point place;
};

}  // namespace farwater
