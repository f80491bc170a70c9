#include "analyzer/supply/source_volume.h"

#include <algorithm>

#include "analyzer/hydraulics/still_water.h"

namespace farwater::supply {
namespace {

// Unlimited is larger than every volume.
bool less(const UsableWater& a, const UsableWater& b) {
    return !a.is_unlimited() && (b.is_unlimited() || *a.volume() < *b.volume());
}

SourceVolume of_hydrant(const WaterSource& source, const StorageBySystem& storage,
                        const Assumptions& assumptions) {
    const auto shared = storage.find(source.system);
    SourceVolume volume{.known = true};
    if (!source.system.empty() && shared != storage.end()) {
        volume.usable = shared->second.usable.volume();
    } else if (source.usable) {
        volume.usable = source.usable->volume();
    } else {
        volume.usable = assumptions.hydrant_system_storage;
        volume.assumed = true;
    }
    return volume;
}

// Ice is known and the intake draws under it: its thickness; else the larger of the two.
Length surface_loss(const WaterSource& source, const Assumptions& assumptions) {
    if (source.frost_proof && source.still.ice) {
        return *source.still.ice;
    }
    return std::max(assumptions.surface_loss, source.still.ice.value_or(feet(0)));
}

// By area and depth; none where either is not known.
std::optional<Volume> by_depth(const WaterSource& source, Length depth,
                               const Assumptions& assumptions) {
    if (!source.still.area) {
        return std::nullopt;
    }
    const bool straight = source.kind == SourceKind::cistern || source.still.sounded;
    return hydraulics::volume_of(*source.still.area, depth) *
           (straight ? 1.0 : assumptions.unsounded_share);
}

SourceVolume of_still_water(const WaterSource& source, const Assumptions& assumptions) {
    SourceVolume volume;
    if (source.still.over_intake) {
        volume.depth =
            hydraulics::usable_depth(*source.still.over_intake, assumptions.strainer_depth,
                                     surface_loss(source, assumptions));
    }
    const std::optional<Volume> held =
        volume.depth ? by_depth(source, *volume.depth, assumptions) : std::nullopt;
    volume.known = source.usable.has_value() || held.has_value();
    volume.usable = source.usable ? source.usable->volume() : held;
    if (held && source.usable && less(UsableWater::of(*held), *source.usable)) {
        volume.usable = held;
        volume.contradicts = ProblemId::source_volume_contradicted;
    }
    const bool empty = volume.usable && !(*volume.usable > gallons(0));
    const bool no_depth = volume.depth && !(*volume.depth > feet(0));
    if (!volume.known) {
        volume.obstacle = ProblemId::source_volume_unknown;
    } else if (empty || no_depth) {
        volume.obstacle = ProblemId::source_pond_too_shallow;
    }
    return volume;
}

}  // namespace

StorageBySystem hydrant_storage(const District& district) {
    StorageBySystem storage;
    for (const WaterSource& source : district.sources) {
        if (source.kind != SourceKind::hydrant || source.system.empty() || !source.usable) {
            continue;
        }
        const auto [known, added] =
            storage.try_emplace(source.system, SharedStorage{*source.usable});
        if (!added && known->second.usable != *source.usable) {
            known->second.differs = true;
            if (less(*source.usable, known->second.usable)) {
                known->second.usable = *source.usable;
            }
        }
    }
    return storage;
}

SourceVolume source_volume(const WaterSource& source, const StorageBySystem& storage,
                           const Assumptions& assumptions) {
    return source.kind == SourceKind::hydrant ? of_hydrant(source, storage, assumptions)
                                              : of_still_water(source, assumptions);
}

}  // namespace farwater::supply
