// A road as the loaded vehicles of a profile drive it, for the road layer.
#pragma once

#include <optional>

#include "analyzer/district/district.h"
#include "analyzer/district/round_trips.h"
#include "routing/network.h"

namespace farwater::routing {

struct RoadPace {
    Speed average;  // of the slower direction that is allowed, grades included; 0 under a linear
                    // travel-time rule, which gives roads no speed
    bool posted = false;             // the posted limit made the level speed, not the default
    std::optional<float> grade_pct;  // the steepest step, up or down; none where no height is known
};

RoadPace road_pace(const District& district, const Network& network, RoadIndex road,
                   const Profile& profile, const Season& season);

}  // namespace farwater::routing
