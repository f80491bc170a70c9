// Vehicles grouped into the few classes that the roads treat alike, so that one search serves many.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/district/ids.h"
#include "analyzer/district/round_trips.h"
#include "analyzer/district/units.h"

namespace farwater::routing {

// What a vehicle weighs on the road, and how large it is, with every unknown filled in.
struct VehicleSize {
    Weight loaded, empty;                // held against posted limits
    Weight likely_loaded, likely_empty;  // on grades, and for its top speed
    Length width, height;
    Power power;
};

// Weights that the apparatus list lacks likely are the stated estimates of Assumptions
// (tanker_chassis and tanker_pounds_per_gallon; engine_loaded); empty is loaded less the
// water, 8.34 lb/gal (common practice). A weight that contradicts the other is raised, never
// lowered. What is not known opens no bridge: held against posted limits, a vehicle of which
// neither weight is listed is as heavy as fire apparatus may be on an Interstate, 86,000 lb (23
// U.S.C. 127(r), from memory), loaded and empty, unless the district gives the estimates itself; an
// unknown width is 8.5 ft, the federal limit (23 CFR 658.15, from memory), an unknown height 13.5
// ft, the limit of most states (from memory). Unknown power is tanker_power or engine_power.
VehicleSize vehicle_size(const Unit& unit, const Assumptions& assumptions);

// "38500 lb loaded, 29800 lb empty", as held against posted limits; of a group with a member whose
// weight nobody says: "weight not known (E4): no posted bridge is open".
std::string weight_in_words(const Profile& profile, const District& district);

// The least of what the apparatus list says, speed_cap, and 60 mph for a tank over 1,250 gal or a
// weight over 50,000 lb (NFPA 1901 road test limits, secondary source).
Speed top_speed(const Unit& unit, const Assumptions& assumptions);

// Groups of engines and of tankers; other units have no profile. Two units share a group when no
// limit of the district's roads tells them apart and they have the same top speed. While there are
// more groups than max_profiles, the two whose merging costs their members the fewest passages,
// then the least speed, are merged; engines and tankers never are, so max_profiles = 1 with both
// kinds gives two groups. A group is as heavy, wide and tall as its largest member, as slow as its
// slowest, and climbs as the one with the most pounds per horsepower (power alone makes no group:
// it would multiply the searches). Ordered: engines first, then by the first member's index. Empty
// when the fleet has neither kind. O(roads log roads + units^3).
std::vector<Profile> vehicle_profiles(const District& district);

// The profiles of tankers, those with the most members first, ties by index.
std::vector<ProfileIndex> tanker_profiles(std::span<const Profile> profiles);

// The profile that answers for response times: of engines the one with the most members, else the
// first; none without profiles.
std::optional<ProfileIndex> response_profile(std::span<const Profile> profiles);

}  // namespace farwater::routing
