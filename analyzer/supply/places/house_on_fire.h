// One parcel or target while its water is worked out.
#pragma once

#include "analyzer/district/need.h"
#include "analyzer/district/plane.h"
#include "analyzer/district/units.h"

namespace farwater::supply {

struct HouseOnFire {
    Point place;
    Need need;
    Duration first_arrival;  // of the first engine, at the house, since the alarm
};

}  // namespace farwater::supply
