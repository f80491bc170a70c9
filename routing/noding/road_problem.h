// How problems name roads and measures.
#pragma once

#include <cmath>
#include <string>
#include <utility>

#include "analyzer/district/problem.h"
#include "analyzer/district/road.h"
#include "analyzer/district/units.h"

namespace farwater::routing {

inline Problem road_problem(ProblemId id, const Road& road, std::string detail) {
    return {id, "roads", {}, row_name(road.row), {}, std::move(detail)};
}

// "row 9 (Pond Road)".
inline std::string named(const Road& road) {
    return row_name(road.row) + (road.name.empty() ? "" : " (" + road.name.text() + ")");
}

inline std::string whole_feet(Length length) {
    return std::to_string(std::lround(in_feet(length))) + " ft";
}

inline std::string counted(std::size_t count, const std::string& one, const std::string& many) {
    return std::to_string(count) + " " + (count == 1 ? one : many);
}

}  // namespace farwater::routing
