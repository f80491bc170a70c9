#include "analyzer/district/fleet_problems.h"

#include <algorithm>

namespace farwater {

std::vector<Problem> fleet_problems(const std::vector<Unit>& units) {
    const auto engines = std::ranges::count(units, UnitKind::engine, &Unit::kind);
    const auto tankers = std::ranges::count(units, UnitKind::tanker, &Unit::kind);
    const bool has_portable_tank = std::ranges::any_of(
        units, [](const Unit& unit) { return in_gallons(unit.portable_tank) > 0.0; });
    std::vector<Problem> problems;
    const auto tell = [&](ProblemId id) { problems.push_back({.id = id, .layer = "apparatus"}); };
    if (tankers == 0) {
        tell(ProblemId::fleet_without_tankers);
    }
    if (engines == 0) {
        tell(ProblemId::fleet_without_engines);
    }
    if (tankers > 0 && engines == 1) {
        tell(ProblemId::fleet_of_one_engine);
    }
    if (tankers > 0 && !has_portable_tank) {
        tell(ProblemId::fleet_without_portable_tanks);
    }
    return problems;
}

}  // namespace farwater
