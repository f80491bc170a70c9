#include "analyzer/district/round_trips.h"

#include <algorithm>

namespace farwater {

void LaysLookedAt::add(std::size_t one) {
    const auto known = all();
    if (std::ranges::find(known, one) == known.end()) {
        lay[count++] = one;
    }
}

LaysLookedAt lays_looked_at(std::span<const HoseLay> lays) {
    LaysLookedAt looked;
    const auto add_first = [&](auto keep) {
        const auto found = std::ranges::find_if(lays, keep);
        if (found != lays.end()) {
            looked.add(static_cast<std::size_t>(found - lays.begin()));
        }
    };
    add_first([](const HoseLay&) { return true; });
    add_first([](const HoseLay& lay) { return lay.lane == LaneClass::through; });
    if (lays.empty()) {
        return looked;
    }
    const HoseLay& first = lays.front();
    add_first([&](const HoseLay& lay) { return lay.from_end != first.from_end; });
    if (first.arm != HoseLay::no_arm) {
        add_first([&](const HoseLay& lay) {
            return lay.from_end == first.from_end && lay.arm != first.arm;
        });
    }
    return looked;
}

}  // namespace farwater
