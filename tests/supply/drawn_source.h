// Random water sources, with cells blank as often as filled.
#pragma once

#include <random>

#include "analyzer/district/district.h"

namespace farwater::supply {

using Draw = std::mt19937;

inline double between(Draw& draw, double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(draw);
}
inline bool chance(Draw& draw, double share) { return between(draw, 0, 1) < share; }
inline int whole(Draw& draw, int low, int high) {
    return std::uniform_int_distribution<int>(low, high)(draw);
}

template <class Value>
std::optional<Value> perhaps(Draw& draw, Value value) {
    return chance(draw, 0.65) ? std::optional(value) : std::nullopt;
}

inline HydrantData drawn_hydrant(Draw& draw) {
    HydrantData h;
    h.static_psi = perhaps(draw, between(draw, 10, 110));
    h.residual_psi = perhaps(draw, between(draw, 0, 90));
    h.test_flow = perhaps(draw, gpm(between(draw, 100, 2500)));
    h.pitot_psi = perhaps(draw, between(draw, 0, 60));
    h.outlet = perhaps(draw, inches(between(draw, 2, 5)));
    h.outlet_coefficient = perhaps(draw, between(draw, 0.7, 0.95));
    h.colour = perhaps(draw, static_cast<HydrantColour>(whole(draw, 0, 3)));
    h.main = perhaps(draw, inches(whole(draw, 2, 12)));
    h.dead_end_main = perhaps(draw, chance(draw, 0.5));
    return h;
}

inline SuctionData drawn_suction(Draw& draw) {
    SuctionData s;
    s.lift = perhaps(draw, feet(between(draw, -5, 18)));
    s.pipe = perhaps(draw, feet(between(draw, 0, 250)));
    s.pipe_diameter = perhaps(draw, inches(between(draw, 3, 12)));
    s.material = perhaps(draw, static_cast<PipeMaterial>(whole(draw, 0, 3)));
    s.elbows_90 = perhaps(draw, whole(draw, 0, 4));
    s.elbows_45 = perhaps(draw, whole(draw, 0, 4));
    s.strainer_loss = perhaps(draw, feet(between(draw, 0, 8)));
    s.hose = perhaps(draw, feet(between(draw, 0, 40)));
    return s;
}

inline WaterSource drawn_source(Draw& draw) {
    WaterSource source;
    source.id = "drawn";
    source.kind = static_cast<SourceKind>(whole(draw, 0, 3));
    source.standing = static_cast<Standing>(whole(draw, 0, 2));
    if (chance(draw, 0.8)) {
        source.tested_on = Date(std::chrono::year(whole(draw, 2018, 2026)), std::chrono::March,
                                std::chrono::day(9));
    }
    source.frost_proof = chance(draw, 0.5);
    source.rate = perhaps(draw, gpm(between(draw, 50, 1800)));
    if (chance(draw, 0.7)) {
        source.usable = chance(draw, 0.2) ? UsableWater::unlimited()
                                          : UsableWater::of(gallons(between(draw, 0, 300000)));
    }
    source.inflow = perhaps(draw, gpm(between(draw, 0, 300)));
    source.system_rate =
        chance(draw, 0.2) ? perhaps(draw, gpm(between(draw, 100, 1500))) : std::nullopt;
    source.places = perhaps(draw, whole(draw, 1, 3));
    source.reach = chance(draw, 0.85) ? Reach::engine : Reach::portable_pump;
    source.hydrant = drawn_hydrant(draw);
    source.suction = drawn_suction(draw);
    source.still.area = perhaps(draw, acres(between(draw, 0, 3)));
    source.still.over_intake = perhaps(draw, feet(between(draw, 0, 12)));
    source.still.sounded = chance(draw, 0.5);
    source.still.ice = perhaps(draw, feet(between(draw, 0, 4)));
    return source;
}

inline District district_of(const WaterSource& source) {
    District district;
    district.data_date = Date(std::chrono::year(2026), std::chrono::May, std::chrono::day(31));
    district.sources.push_back(source);
    return district;
}

}  // namespace farwater::supply
