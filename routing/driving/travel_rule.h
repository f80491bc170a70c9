// Travel time as a published rule of distance, for districts that must or want to use one instead
// of their roads' own speeds. The rules know no posted limit, season, load or grade.
#pragma once

#include <cstdint>

#include "analyzer/district/units.h"
#include "analyzer/district/words.h"

namespace farwater::routing {

// T = 0.65 + 1.7 D: minutes and road miles, one way or, in one published form, the whole round
// trip. 0.65 covers the acceleration over the first half mile and 1.7 is 35.3 mph; the source
// states it for 0.5 to 8 miles, and it is used beyond both here. Source: the rating organisation's
// "Response-Time Considerations", after RAND R-1449.
Duration linear_travel_time(Length way);

// What the costs of a search mean (costs.h): under road_speeds tenths of a second already; under
// the linear rules millimetres, so that the shortest way is found, and the rule makes them time.
// Times are whole tenths of a second, rounded up (but for 0.001 tenths, 1.6 mm, the rounding of
// costs); no_way stays no way.
class TravelRule {
public:
    explicit TravelRule(TravelTime model) : model_(model) {}

    // One leg of a round trip; linear_per_round_trip counts half of the 0.65 on each.
    DriveTime leg(std::int32_t cost) const;
    // A drive to the scene, one way: the linear rules count all of the 0.65.
    DriveTime response(std::int32_t cost) const;

    // The largest cost that takes at most so many tenths of a second; 0 where none does.
    std::int32_t most_of_leg(std::int32_t tenths) const;
    std::int32_t most_of_response(std::int32_t tenths) const;

    // What a delay before the drive adds to its cost; no_way for no_time.
    std::int32_t cost_of(DriveTime delay) const;

private:
    bool linear() const { return model_ != TravelTime::road_speeds; }
    std::int32_t standing_tenths_of_leg() const;

    TravelTime model_;
};

}  // namespace farwater::routing
