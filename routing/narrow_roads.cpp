#include "routing/narrow_roads.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "routing/noding/road_problem.h"

namespace farwater::routing {
namespace {

std::string in_tenths_of_feet(Length length) {
    const long tenths = std::lround(in_feet(length) * 10.0);
    return std::to_string(tenths / 10) + "." + std::to_string(tenths % 10) + " ft";
}

}  // namespace

std::vector<Problem> narrow_roads(const District& district, std::span<const Profile> profiles) {
    // A profile without a width, which sorts first, goes everywhere.
    const auto narrowest = std::ranges::min_element(profiles, {}, &Profile::width);
    if (narrowest == profiles.end() || !narrowest->width) {
        return {};
    }
    const Length needed = *narrowest->width;
    const Road* first = nullptr;
    std::size_t count = 0;
    Length length;
    for (const Road& road : district.roads) {
        if (road.width && *road.width < needed) {
            first = first == nullptr ? &road : first;
            ++count;
            length += length_of(road.line);
        }
    }
    if (first == nullptr) {
        return {};
    }
    return {road_problem(ProblemId::road_too_narrow, *first,
                         in_tenths_of_feet(*first->width) + ", the narrowest unit takes " +
                             in_tenths_of_feet(needed) + "; " + std::to_string(count) + " of " +
                             counted(district.roads.size(), "road", "roads") + ", " +
                             whole_feet(length) + " in all")};
}

}  // namespace farwater::routing
