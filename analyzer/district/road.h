// Road centrelines as the district's data give them, after reading and repair.
#pragma once

#include <cstdint>
#include <optional>

#include "analyzer/district/calendar.h"
#include "analyzer/district/maybe.h"
#include "analyzer/district/plane.h"
#include "analyzer/district/shared_text.h"
#include "analyzer/district/units.h"
#include "analyzer/district/words.h"

namespace farwater {

// 96 bytes and its line: a county has a million.
struct Road {
    std::uint32_t row = 0;  // record number in the input layer, from 0, for the second pass
    Polyline line;          // two points or more, metres
    SharedText name;        // may be empty
    RoadClass kind = RoadClass::narrow;  // the default speeds go by it; unknown = narrow
    std::optional<Surface> surface;      // gravel, or earth: no faster than the gravel class
    RoadAccess access = RoadAccess::open;
    OneWay one_way = OneWay::both;
    bool bridge = false;  // a bridge; without a posted limit it is used and listed
    bool tunnel = false;
    bool rail_crossing = false;
    int level = 0;  // lines of different level do not join where they cross
    MonthSet maintained = MonthSet::all();
    bool kind_known = true;  // the data say the kind
    Maybe<Speed> posted_speed;
    Maybe<Length> width;
    Maybe<Weight> weight_limit;
    Maybe<Length> height_limit;
};

}  // namespace farwater
