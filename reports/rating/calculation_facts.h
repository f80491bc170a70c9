// What a calculation sheet and its table say of one place's plan.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "reports/findings.h"

namespace farwater::reports {

std::string id_of_source(const Findings& findings, SourceIndex source);  // "none" of none

// All fill sites that are in use at the same time, "W1, W2"; "none".
std::string ids_of_sources(const Findings& findings, const supply::ParcelSupply& brought);

// Engines that make water by that plan, "E1, E2 and 2 more in line"; "none".
std::string makers_in_words(const Findings& findings, const supply::ParcelSupply& brought);

// Gallons at the sources against gallons that the flow takes; those of one system count once.
struct GallonsOfPlan {
    Volume minimum;                  // for the minimum flow over the duration
    std::optional<Volume> credited;  // for what is credited of the plan, as sheets print it, where
                                     // that is more
    bool unlimited = false;          // at a source
    std::optional<Volume> there;     // at all of them over the duration; none: not known
};
GallonsOfPlan gallons_of_plan(const Findings& findings, const rating::PlaceRating& place,
                              const supply::ParcelSupply& brought);

}  // namespace farwater::reports
