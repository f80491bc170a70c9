// What must stand wherever results stand.
#pragma once

#include <array>
#include <string_view>

namespace farwater::reports {

inline constexpr std::array<std::string_view, 4> cautions{
    "Planning figures: prove them by a timed drill before you rely on them.",
    "Local codes, the authority having jurisdiction and licensed practice go first.",
    "The rating organisation decides what it credits.",
    "Never pull a main below 20 psi; never drive faster than the road and the load allow.",
};

inline constexpr std::array<std::string_view, 10> not_modelled{
    "direct supply from a hydrant or suction point, and relay by hose: every parcel is judged by "
    "shuttle",
    "filling at more than one fill site at a time",
    "crews by job; a unit with too few people stays in quarters",
    "transfer limits between portable tanks",
    "suction lift and pipe losses at the source: its stated rate is taken",
    "road width, turnaround and room at dump sites; grade of roads",
    "wildland operations, air attack, foam, sprinkler hydraulics",
    "several fires at once",
    "backflow and contamination",
    "crash risk: no result rests on more than the posted speed",
};

}  // namespace farwater::reports
