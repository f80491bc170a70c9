// What must stand wherever results stand.
#pragma once

#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "analyzer/district/district.h"

namespace farwater::reports {

inline constexpr std::array<std::string_view, 4> cautions{
    "Planning figures: prove them by a timed drill before you rely on them.",
    "Local codes, the authority having jurisdiction and licensed practice go first.",
    "The rating organisation decides what it credits.",
    "Never pull a main below 20 psi; never drive faster than the road and the load allow.",
};

// Empty where every source is there; else to stand before the results.
std::string what_if_sentence(const District& district);

// What the analysis leaves out, the rule of its drive times included.
std::vector<std::string_view> not_modelled(const District& district);

}  // namespace farwater::reports
