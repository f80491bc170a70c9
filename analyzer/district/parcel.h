// What the analysis keeps of a parcel: its geometry and other columns stay in the input and are
// read a second time by the writer, found by `row`.
#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "analyzer/district/maybe.h"
#include "analyzer/district/plane.h"
#include "analyzer/district/shared_text.h"
#include "analyzer/district/units.h"

namespace farwater {

// Where the distance to the house is measured to; the best that the data give.
enum class HousePlace : std::uint8_t { inside_point, building, address_point };

// 112 bytes.
struct Parcel {
    std::string id;         // never empty, unique (mended with a suffix where the data are not)
    std::uint32_t row = 0;  // record number in the input layer, from 0
    Point house;            // address point, else largest building, else a point inside the parcel
    HousePlace house_from = HousePlace::inside_point;
    bool improved = true;  // has a building (by building layer, else by column, else taken as yes)
    std::uint16_t buildings = 0;
    float building_area_m2 = 0.0F;  // of the largest
    Maybe<float> value;             // what it is worth, in the district's money
    Maybe<float> people;            // who live or work there
    bool is_public = false;         // town, district or state land; not said = no
    Maybe<Flow> needed;             // the parcel's own; none = the district's default
    Maybe<Duration> duration;       // none = the district's default
    Maybe<Length> setback;          // hose from the access point to the house; none = measured
    SharedText zone;                // response zone; may be empty
};

// A place without a parcel that gets a state too: camp, mill, milepost.
struct Target {
    std::string id;
    std::string name;
    std::uint32_t row = 0;
    Point place;
    std::optional<Flow> needed;
    std::optional<Duration> duration;
};

}  // namespace farwater
