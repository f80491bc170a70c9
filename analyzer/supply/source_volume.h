// How much water a source has for one incident. What is unknown does not count.
#pragma once

#include <map>
#include <optional>
#include <string>

#include "analyzer/district/district.h"
#include "analyzer/district/problem.h"

namespace farwater::supply {

// Storage that the hydrants of a system share: the smallest of what its rows say, for they speak of
// one tank. `differs` where they do not agree.
struct SharedStorage {
    UsableWater usable = UsableWater::unlimited();
    bool differs = false;
};
using StorageBySystem = std::map<std::string, SharedStorage, std::less<>>;
StorageBySystem hydrant_storage(const District& district);

struct SourceVolume {
    bool known = false;
    std::optional<Volume> usable;          // none = unlimited, where known
    bool assumed = false;                  // the planning default of a hydrant's system
    std::optional<Length> depth;           // that can be drawn down, where it was worked out
    std::optional<ProblemId> obstacle;     // why there is no volume
    std::optional<ProblemId> contradicts;  // gallons against area and depth
};

// Hydrants: what their system shares, else the planning default. Ponds and cisterns: the gallons at
// drought level, or area x usable depth x unsounded_share where the pond was not sounded (a cistern
// has straight walls); of both the smaller. A pond never takes its volume from another row of its
// system, for its own intake may lie higher.
SourceVolume source_volume(const WaterSource& source, const StorageBySystem& storage,
                           const Assumptions& assumptions);

}  // namespace farwater::supply
