// What is worked out about the roads once, for all seasons.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "analyzer/app/stages.h"
#include "analyzer/district/district.h"
#include "analyzer/district/need.h"
#include "analyzer/district/round_trips.h"
#include "analyzer/parallel/work.h"
#include "routing/access.h"
#include "routing/network.h"

namespace farwater::app {

// The network and where the district's places meet it, which is all that drives between places
// need.
struct RoadsFound {
    routing::NetworkResult network;
    routing::AccessResult access;
};

// None when stopped, as below.
std::optional<RoadsFound> find_roads(const District& district, std::span<const Profile> profiles,
                                     const Work& work, const StageBegins& begins);

// Everything about the roads that holds for all seasons. What a stopped stage returns is not
// complete, so no later stage may see it: none.
struct RoadWork {
    routing::Network network;
    routing::Access access;
    std::vector<Problem> problems;
};

// Per parcel, then per target: whether it has a need, as find_dump_sites asks.
std::vector<bool> those_with_a_need(const std::vector<std::optional<Need>>& needs);

std::optional<RoadWork> work_on_roads(const District& district, std::span<const Profile> profiles,
                                      const Work& work, const StageBegins& begins);

}  // namespace farwater::app
