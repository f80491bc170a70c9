// Places where a source of water could be made, as sources that could be counted: the officer's own
// proposals, a dry hydrant wherever a road comes near mapped water, and cisterns at junctions and
// by public land. What is left out has a reason.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/district/proposal.h"
#include "analyzer/planning/choice_problem.h"
#include "analyzer/supply/water_review.h"

namespace farwater::planning {

enum class Origin : std::uint8_t { own, mapped_water, public_parcel, junction };

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
    // One at the same water, within one_water_within_ft, with a shorter pipe over other people's
    // ground: this one is built in its stead where they refuse. By its place in the list.
    std::optional<std::size_t> stands_in_for;
};

struct LeftOut {
    std::string id;
    std::string name;
    Origin origin = Origin::own;
    Point place;
    std::string reason;  // one clause
};

// Places that were passed over for one reason.
struct PassedPlaces {
    std::string reason;  // one clause
    std::size_t count = 0;
};

struct Candidates {
    // The officer's own, then by mapped water, as they were read, then cisterns by public land and
    // at junctions.
    std::vector<Candidate> candidates;
    std::vector<LeftOut> left_out;
    // Places of cisterns: there may be a hundred thousand, so that only reasons with few of them
    // have rows in left_out.
    std::vector<PassedPlaces> passed_over;
};

// What is looked through for places.
struct Surroundings {
    std::span<const RoadNearWater> near_water;  // by water, the best way first (shore_owners.h)
    std::span<const RoadsidePlace> roadside;    // routing/roadside_places.h
    std::span<const Gain> missing;  // per parcel: weighted shortfall that a source cures
};

// How sources would be built: proposed_source.h; a blank lift counts as most_lift_ft. Which
// roadside places are looked at: worth_a_look.h.
Candidates find_candidates(const District& district, const supply::WaterReview& water,
                           const Surroundings& around);

}  // namespace farwater::planning
