#include <cmath>
#include <string>

#include "routing/dump_sites.h"
#include "routing/sites/site_rules.h"

namespace farwater::routing {
namespace {

// "grade 7.4 %", rounded up, so that what is above a limit never reads as the limit.
std::string grade_text(double percent) {
    const auto tenths = static_cast<long>(std::ceil(percent * 10.0 - 1e-6));
    return "grade " + std::to_string(tenths / 10) + "." + std::to_string(tenths % 10) + " %";
}

void add(std::string& list, const std::string& what) { list += (list.empty() ? "" : ", ") + what; }

std::string faults_of(const District& district, const Network& network, const SiteRules& rules,
                      RoadSpot spot, Point place) {
    std::string faults;
    const Road& road = at(district.roads, at(network.edges, spot.edge).road);
    const auto grade = rules.level().grade_pct_beside(district, spot, place);
    if (grade && rules.level().steep_pct(*grade)) {
        add(faults, grade_text(*grade));
    }
    if (road.bridge || road.tunnel) {
        add(faults, road.bridge ? "on a bridge" : "in a tunnel");
    }
    if (!rules.clear_of_rail(spot)) {
        add(faults, "within 100 ft of a rail crossing");
    }
    return faults;
}

}  // namespace

std::vector<Problem> unfit_places(const District& district, const Network& network,
                                  const Access& access, std::span<const Profile> profiles) {
    std::vector<Problem> problems;
    if (district.dump_site_places.empty()) {
        return problems;
    }
    const SiteRules rules(district, network, profiles);
    for (std::size_t i = 0; i < district.dump_site_places.size(); ++i) {
        const DumpSitePlace& place = district.dump_site_places[i];
        const RoadSpot spot = access.dump_site_places[i];
        const std::string faults =
            spot.valid() ? faults_of(district, network, rules, spot, place.place) : std::string();
        if (!faults.empty()) {
            problems.push_back(
                {ProblemId::place_unfit, "dump_site_places", {}, place.id, {}, faults});
        }
    }
    return problems;
}

}  // namespace farwater::routing
