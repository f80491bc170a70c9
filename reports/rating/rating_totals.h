// Parcels, buildings, their area and their value, added up by what the rating says.
#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "reports/findings.h"

namespace farwater::reports {

struct RatingTotal {
    std::size_t parcels = 0;        // with a building
    std::size_t buildings = 0;      // that stand on them; 1 where only that there is one is known
    double area_sqft = 0.0;         // of all buildings whose area is known
    std::optional<double> value;    // none: no parcel in it has one
    std::size_t without_value = 0;  // of the parcels
};

// By the number that `group` gives a place, below `groups`; parcels without a building are left
// out. O(parcels + buildings).
std::vector<RatingTotal> rating_totals(
    const Findings& findings, std::size_t groups,
    const std::function<std::size_t(const rating::PlaceRating&)>& group);

// Categories that a property can have under the terms: beyond near with water only where they have
// a far distance. In the order of their numbers, without no_building.
bool is_possible(const rating::Terms& terms, rating::Category category);
std::vector<rating::Category> possible_categories(const rating::Terms& terms);

// Parcels at which apparatus that counts begins the minimum flow within so many minutes of the
// terms' clock and holds it, steps ascending.
struct StartsWithin {
    Duration within;
    std::size_t parcels = 0;
};
std::vector<StartsWithin> starts_within(const Findings& findings);

// Parcels at which it has begun it by full_within, later, or does not hold it, per season and
// period.
struct HeldIn {
    supply::Variant variant;
    std::size_t in_time = 0, later = 0, not_held = 0;
};
std::vector<HeldIn> held_by_variant(const Findings& findings);

// Buildings that lie in no parcel, and so are in no total. O(problems).
std::size_t buildings_in_no_parcel(const Findings& findings);

// In our words; "" for a property without a building.
std::string_view meaning_of(rating::Category category);

// Of all groups together.
std::size_t parcels_with_buildings(const std::vector<RatingTotal>& totals);
// "12 of 1,898 parcels with buildings (0.6 %)".
std::string share_in_words(std::size_t some, std::size_t all);

std::vector<RatingTotal> totals_by_category(const Findings& findings);  // by rating::Category
std::vector<RatingTotal> totals_by_reason(const Findings& findings);    // by rating::Fails

}  // namespace farwater::reports
