#include "analyzer/app/source_places.h"

#include "analyzer/app/pipes_to_water.h"
#include "analyzer/supply/water_review.h"
#include "routing/profiles.h"

namespace farwater::app {

planning::Candidates source_places(const io::DistrictFile& file, const io::ReadResult& read,
                                   const Work& work) {
    const District& district = read.district;
    const std::vector<Profile> profiles = routing::vehicle_profiles(district);
    const std::vector<RoadNearWater> near = pipes_to_water(district, profiles, file, read, work);
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
