#include "analyzer/app/source_places.h"

#include "analyzer/supply/water_review.h"
#include "routing/profiles.h"
#include "routing/roads_near_water.h"

namespace farwater::app {

planning::Candidates source_places(const District& district, const Work& work) {
    const std::vector<Profile> profiles = routing::vehicle_profiles(district);
    const std::vector<RoadNearWater> near =
        routing::roads_near_water(district, profiles, district.assumptions.new_pipe_reach, work);
    return work.stopped() ? planning::Candidates{}
                          : planning::find_candidates(district, supply::review_water(district),
                                                      {near, {}, {}});
}

std::vector<ProposedSource> as_proposals(const planning::Candidates& places) {
    std::vector<ProposedSource> proposals;
    for (const planning::Candidate& place : places.candidates) {
        proposals.push_back({place.source, place.cost});
    }
    return proposals;
}

}  // namespace farwater::app
