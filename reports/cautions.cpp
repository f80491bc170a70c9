#include "reports/cautions.h"

#include <fmt/format.h>

namespace farwater::reports {
namespace {

constexpr std::array<std::string_view, 6> never_modelled{
    "crews by the minute; whoever is there mans attack, dump site and first fill site",
    "the width that a tanker needs to turn or to pass portable tanks in a lane",
    "high ground between a source and a house, brakes on long descents",
    "wildland operations, air attack, foam, sprinkler hydraulics",
    "several fires at once",
    "backflow and contamination"};

}  // namespace

std::string what_if_sentence(const District& district) {
    return district.what_if_sources == 0
               ? ""
               : fmt::format(
                     "Counts {} source{} of [what_if_sources] as if {} there: not the "
                     "district as it is.",
                     district.what_if_sources, district.what_if_sources == 1 ? "" : "s",
                     district.what_if_sources == 1 ? "it were" : "they were");
}

std::vector<std::string_view> not_modelled(const District& district) {
    std::vector<std::string_view> list(never_modelled.begin(), never_modelled.end());
    const bool by_roads = district.travel_time == TravelTime::road_speeds;
    if (!by_roads || district.elevation.empty()) {
        list.emplace_back("grade of roads");
    } else if (district.elevation_gaps.matter()) {
        list.emplace_back(
            "heights where the elevation has none: roads, houses and sources count as level there");
    }
    list.emplace_back(by_roads
                          ? "crash risk: no result rests on more than the posted speed"
                          : "crash risk, posted speeds: the linear rule of travel time counts 35 "
                            "mph on every road");
    if (district.need.method == NeedMethod::rating_schedule) {
        list.emplace_back(
            "of the rating schedule's needed flow: facing walls' size and openings (the largest "
            "factor of each distance is taken), passages, roof covering, protected shafts, the "
            "demand of sprinklers");
    }
    if (district.need.method == NeedMethod::rural_supply) {
        list.emplace_back(
            "sprinklers instead of the rural standard's supply: that is the authority's to allow");
    }
    return list;
}

}  // namespace farwater::reports
