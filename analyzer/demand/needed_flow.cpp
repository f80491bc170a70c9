#include "analyzer/demand/needed_flow.h"

namespace farwater::demand {
namespace {

Need given_or_default(std::optional<Flow> flow, std::optional<Duration> duration,
                      const Assumptions& assumptions) {
    return {.flow = held(flow.value_or(assumptions.default_needed)),
            .duration = duration.value_or(assumptions.duration),
            .evidence = flow ? Evidence::declared : Evidence::assumed};
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

}  // namespace farwater::demand
