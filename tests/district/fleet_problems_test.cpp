// What a fleet lacks for a tanker shuttle.
#include "analyzer/district/fleet_problems.h"

#include <catch2/catch.hpp>

using namespace farwater;

namespace {

Unit unit_of(UnitKind kind, Volume portable_tank) {
    Unit unit;
    unit.kind = kind;
    unit.portable_tank = portable_tank;
    return unit;
}

std::vector<std::string_view> lacking(const std::vector<Unit>& units) {
    std::vector<std::string_view> names;
    for (const Problem& problem : fleet_problems(units)) {
        CHECK(problem.layer == "apparatus");
        names.push_back(name_of(problem.id));
    }
    return names;
}

}  // namespace

TEST_CASE("a fleet is told what a tanker shuttle takes and no unit of it gives", "[unit]") {
    const Unit engine = unit_of(UnitKind::engine, gallons(0));
    const Unit tanker = unit_of(UnitKind::tanker, gallons(2100));
    const Unit bare = unit_of(UnitKind::tanker, gallons(0));
    using Names = std::vector<std::string_view>;
    CHECK(lacking({engine, engine, tanker}).empty());
    CHECK(lacking({engine, unit_of(UnitKind::engine, gallons(1500)), bare}).empty());
    CHECK(lacking({engine, tanker}) == Names{"fleet_of_one_engine"});
    CHECK(lacking({engine, engine, bare}) == Names{"fleet_without_portable_tanks"});
    CHECK(lacking({tanker}) == Names{"fleet_without_engines"});
    // Without a tanker it is the tankers that are missing, whatever else is.
    CHECK(lacking({engine}) == Names{"fleet_without_tankers"});
    CHECK(lacking({}) == Names{"fleet_without_tankers", "fleet_without_engines"});
}
