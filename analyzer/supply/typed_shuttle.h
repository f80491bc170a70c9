// A shuttle typed by hand, made complete: what nobody gave takes the planning default, never "no
// limit" and never a clock at zero, and stands in a list.
#pragma once

#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "analyzer/district/assumptions.h"
#include "analyzer/district/shuttle_scenario.h"
#include "analyzer/supply/filling/fluid_model.h"
#include "analyzer/supply/incident.h"
#include "analyzer/supply/places/tank_line.h"

namespace farwater::supply {

using AssumedValue = std::variant<Duration, Flow, Volume, double>;

struct Assumed {
    std::string key;  // as it would stand in the file, "fill_limit_gpm"
    std::string of;   // the id of the tanker or fill site; empty for the dump site and the top
    AssumedValue value;
    std::string_view why;
};

struct TypedShuttle {
    Incident incident;  // every tanker at a fill site that it may use
    TankLine line;      // of its portable tanks; without tanks where the storage is one pool
    FillLegs legs;      // what else it may use; one leg each where nothing is left to choose
    Window window;
    std::vector<std::string> fill_sites, tankers;  // their ids
    std::vector<Assumed> assumed;                  // in the file's order of keys
};

// Precondition: what ShuttleScenario promises.
TypedShuttle complete(const ShuttleScenario& scenario, const Assumptions& assumptions);

}  // namespace farwater::supply
