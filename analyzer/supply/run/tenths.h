// Flows as whole tenths of a gpm, the steps in which answers are looked for.
#pragma once

#include <algorithm>
#include <cstdint>
#include <optional>

#include "analyzer/district/units.h"
#include "analyzer/supply/incident.h"

namespace farwater::supply::run {

inline constexpr std::int32_t most_tenths = 10'000'000;  // a million gpm, far beyond any pump

constexpr double as_gpm(std::int32_t tenths) { return tenths / 10.0; }

constexpr std::int32_t tenths_below(double flow) {
    return in_tenths(held(gpm(std::clamp(flow, 0.0, as_gpm(most_tenths)))));
}

inline bool above_cap(const Incident& incident, HeldFlow flow) {
    const std::optional<Flow> cap = incident.dump_site.flow_cap;
    return in_tenths(flow) > (cap ? tenths_below(in_gpm(*cap)) : most_tenths);
}

}  // namespace farwater::supply::run
