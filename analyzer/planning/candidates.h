// Places where a source of water could be made, as sources that could be counted: the officer's own
// proposals, and a dry hydrant wherever a road comes near mapped water. What is left out has a
// reason.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/district/proposal.h"
#include "analyzer/supply/water_review.h"

namespace farwater::planning {

enum class Origin : std::uint8_t { own, mapped_water };

struct Candidate {
    WaterSource source;  // as it would be built and as results print it: declared, by nobody
    std::optional<double> cost;
    Origin origin = Origin::own;
    Flow rate;  // what it would give, by the same hydraulics as every source
    // Nobody knows what is in mapped water: it counts with the gallons that its rate draws in the
    // time for which flow is judged, and is worth building only if they are there at drought.
    std::optional<Volume> to_prove;
    std::optional<Length> drawdown;  // what they would take off the mapped area
    std::string caution;             // empty: none
};

struct LeftOut {
    std::string id;
    std::string name;
    Origin origin = Origin::own;
    Point place;
    std::string reason;  // one clause
};

struct Candidates {
    std::vector<Candidate>
        candidates;  // the officer's own, then by mapped water, as they were read
    std::vector<LeftOut> left_out;
};

// `roads` is one per mapped water (routing/roads_near_water.h). A proposed dry hydrant has a
// plastic pipe of new_pipe_in from the road to the shore and new_pipe_beyond_shore_ft on, its lift
// from the water's height less drought_drop_ft to new_pump_height_ft over the road, rounded up;
// without elevation the lift is blank and counts as most_lift_ft.
Candidates find_candidates(const District& district, const supply::WaterReview& water,
                           std::span<const RoadNearWater> roads);

}  // namespace farwater::planning
