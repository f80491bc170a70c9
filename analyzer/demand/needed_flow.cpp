#include "analyzer/demand/needed_flow.h"

namespace farwater::demand {
namespace {

Need given_or_default(std::optional<Flow> flow, std::optional<Duration> duration,
                      const Assumptions& assumptions) {
    return {.flow = held(flow.value_or(assumptions.default_needed)),
            .duration = duration.value_or(assumptions.duration),
            .evidence = flow || assumptions.is_given("default_needed_gpm") ? Evidence::declared
                                                                           : Evidence::assumed};
}

}  // namespace

std::optional<Need> need_of(const Parcel& parcel, const Assumptions& assumptions) {
    if (!parcel.improved) {
        return std::nullopt;
    }
    return given_or_default(parcel.needed, parcel.duration, assumptions);
}

Need need_of(const Target& target, const Assumptions& assumptions) {
    return given_or_default(target.needed, target.duration, assumptions);
}

std::vector<std::optional<Need>> needs_of(const District& district) {
    std::vector<std::optional<Need>> needs;
    needs.reserve(district.parcels.size() + district.targets.size());
    for (const Parcel& parcel : district.parcels) {
        needs.push_back(need_of(parcel, district.assumptions));
    }
    for (const Target& target : district.targets) {
        needs.emplace_back(need_of(target, district.assumptions));
    }
    return needs;
}

}  // namespace farwater::demand
