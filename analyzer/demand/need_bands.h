// How many parcels need how much, under the district's rule and under the choices that it left out.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/district/need.h"

namespace farwater::demand {

// Upper bounds in gpm; what needs more is in a last band of its own.
inline constexpr std::array need_band_gpm{250, 500, 750, 1000, 1500, 2500};

struct NeedBands {
    std::string rule;  // in words
    std::array<std::size_t, need_band_gpm.size() + 1> parcels{};
};

// Improved parcels by band. `needs` may go on beyond the parcels.
NeedBands bands_of(const District& district, std::span<const std::optional<Need>> needs,
                   std::string rule);

// First the rule of the run, then the same rule with the other choice of construction class (rural
// supply) or of separation table (rating schedule). O(parcels + buildings).
std::vector<NeedBands> need_bands(const District& district,
                                  std::span<const std::optional<Need>> needs);

}  // namespace farwater::demand
