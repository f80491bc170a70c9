// What the sources of one system share for an incident: a main, a pond, a stream. However far apart
// they lie, they draw on the same water and fail together.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/supply/water_review.h"

namespace farwater::supply {

// What rows say that a whole system gives; the smallest where they differ. A source without a
// system is a system by itself, apart from all others, though one of them be called as it is.
struct SystemRates {
    std::map<std::string, Flow, std::less<>> of_system;
    std::map<std::string, Flow, std::less<>> of_source;  // by its id
};
SystemRates stated_system_rates(const District& district);
std::optional<Flow> rate_of_system(const SystemRates& rates, const WaterSource& source);

// The systems of the counted sources by name, with their limits; a source without a system, or for
// one parcel alone, is not listed. Volume: what the members say, for hydrants the smallest, for
// ponds the largest, since the deepest intake reaches the most; of a system with both the smaller
// of the two. Inflow: the smallest of the
// members'. Rate: the stated one, else that of the strongest member.
std::vector<WaterSystem> water_systems(const District& district,
                                       const std::vector<CountedSource>& counted,
                                       const SystemRates& rates);

}  // namespace farwater::supply
