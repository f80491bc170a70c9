#include "analyzer/app/road_work.h"

#include <utility>

#include "analyzer/app/problem_list.h"
#include "routing/dump_sites.h"
#include "routing/gaps.h"
#include "routing/islands.h"
#include "routing/narrow_roads.h"

namespace farwater::app {

std::optional<RoadsFound> find_roads(const District& district, std::span<const Profile> profiles,
                                     const Work& work, const StageBegins& begins) {
    begins("network");
    routing::NetworkResult network = routing::build_network(district, work);
    if (work.stopped()) {
        return std::nullopt;
    }
    begins("access");
    routing::AccessResult access = routing::find_access(district, network.network, profiles, work);
    return work.stopped() ? std::nullopt
                          : std::optional(RoadsFound{std::move(network), std::move(access)});
}

std::vector<bool> those_with_a_need(const std::vector<std::optional<Need>>& needs) {
    std::vector<bool> asked;
    asked.reserve(needs.size());
    for (const std::optional<Need>& need : needs) {
        asked.push_back(need.has_value());
    }
    return asked;
}

std::optional<RoadWork> work_on_roads(const District& district, std::span<const Profile> profiles,
                                      const Work& work, const StageBegins& begins) {
    std::optional<RoadsFound> found = find_roads(district, profiles, work, begins);
    if (!found) {
        return std::nullopt;
    }
    auto& [network, access] = *found;
    add(network.problems, routing::gap_problems(district, network.network, work));
    add(network.problems, routing::island_problems(district, network.network, access.access, work));
    if (work.stopped()) {
        return std::nullopt;
    }
    add(network.problems, routing::narrow_roads(district, profiles));
    add(network.problems, std::move(access.problems));
    add(network.problems,
        routing::unfit_places(district, network.network, access.access, profiles));
    return RoadWork{std::move(network.network), std::move(access.access),
                    std::move(network.problems)};
}

}  // namespace farwater::app
