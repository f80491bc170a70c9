// Everything that a run found, as the reports see it. Only a view: all must outlive it.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/district/need.h"
#include "analyzer/district/round_trips.h"
#include "analyzer/district/routes.h"
#include "analyzer/rating/rated_district.h"
#include "analyzer/supply/assessment.h"
#include "analyzer/supply/water_review.h"

namespace farwater::reports {

// What routing found for one season, with the list that its fill site indices point into. Of a
// season after the first only what answers rest on (app/season_answers.h); dump sites are the first
// one's. No season has miles to stations.
struct SeasonFindings {
    RoundTrips trips;
    std::vector<FillSitePlace> fill_places;
};

struct Zones;             // reports/zones.h
struct ProposalFindings;  // reports/proposals.h

struct Findings {
    const District& district;
    std::span<const Profile> profiles;
    const supply::WaterReview& water;
    std::span<const std::optional<Need>> needs;  // per parcel, then per target
    std::span<const AccessPoint> access;         // per parcel, then per target
    // Per parcel, then per target: road miles from the nearest station in the season with the
    // longest way; none where a season has no way.
    std::span<const std::optional<float>> station_miles;
    std::span<const SeasonFindings> seasons;  // by SeasonIndex
    const supply::Assessment& assessment;
    const RoadTimes& road_times;
    const RoutesInUse& routes;
    std::span<const Problem> problems;              // of all stages, in the order of the work
    const rating::Rating* rating = nullptr;         // null: the district names no terms
    const Zones* zones = nullptr;                   // null: before the parcels' outlines were seen
    const ProposalFindings* next_source = nullptr;  // null: the district file does not ask for it

    std::size_t parcels() const { return district.parcels.size(); }
    const supply::ParcelSupply& supply(std::size_t row) const { return assessment.supplies[row]; }
    const supply::Variant& worst_variant(std::size_t row) const {
        return assessment.variants[assessment.worst_variant[row]].variant;
    }
};

// "D0001" and so on; the officer's own id for the officer's places.
std::vector<std::string> dump_site_names(const Findings& findings);

// Round the roads and the houses. O(parcels + road vertices).
Box extent_of(const District& district);

}  // namespace farwater::reports
