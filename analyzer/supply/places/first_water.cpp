#include "analyzer/supply/places/first_water.h"

#include <algorithm>
#include <optional>

namespace farwater::supply {

Duration attack_begins(const Assumptions& assumptions, Duration first_arrival) {
    return first_arrival + assumptions.initial_attack_after_arrival;
}

Volume least_engine_tank(const District& district) {
    std::optional<Volume> least;
    for (const Unit& unit : district.units) {
        if (unit.kind == UnitKind::engine) {
            least = std::min(least.value_or(unit.tank), unit.tank);
        }
    }
    return least.value_or(Volume{});
}

}  // namespace farwater::supply
