// What a property is rated as under the terms, what it is credited with, and which of the terms it
// fails first.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

#include "analyzer/rating/rating_terms.h"
#include "analyzer/supply/assessment.h"

namespace farwater::rating {

enum class Category : std::uint8_t {
    no_building,
    near_with_water,
    near_without_water,
    far_with_water,
    otherwise,
};
inline constexpr std::size_t category_count = 5;
// In the terms' own words; "" for a property without a building.
std::string_view category_word(const Terms& terms, Category category);

// In the order in which the terms are looked at.
enum class Fails : std::uint8_t {
    nothing,
    station,    // road miles are too many, or there is no way
    not_known,  // something that the answer rests on is missing
    source,     // no source counts that apparatus could draw from
    flow,       // the minimum flow is not held for the duration, whenever it begins
    start,      // it begins too late
    gap,        // the fire is without water before it begins
};
std::span<const std::string_view> words_of(Fails);
inline std::string_view word(Fails fails) {
    return words_of(fails)[static_cast<std::size_t>(fails)];
}
std::string_view sentence_of(Fails fails);

// A creditable source in hose reach.
struct SourceInReach {
    SourceIndex source;
    Length hose;
    Flow gives;  // the smaller of its rate and of what it holds over the duration
};

struct PlaceRating {
    Category category = Category::otherwise;
    Fails fails = Fails::nothing;
    SourceIndex nearest;           // creditable source by hose; none within the relay's reach
    std::optional<float> hose_ft;  // to it
    HeldFlow by_hose{};            // worth of the best source within the terms' hose
    HeldFlow held{};               // what apparatus brings, as far as the terms credit it
    HeldFlow credited{};           // the larger of the two; none where the category has no water
    std::optional<supply::TenthsMinute> start;  // of the minimum flow, by the terms' clock
    std::optional<float> station_mi;

    bool has_water() const {
        return category == Category::near_with_water || category == Category::far_with_water;
    }
};

// `brought` is the answer of the supply stage to the terms' minimum flow and duration, from the
// terms' full_within on, with the apparatus and sources that count; state no_building: there is
// nothing to rate; unreached: no engine that counts gets there, whatever lies in hose reach. Limits
// count inclusive, but for the far one, which a place must stay below.
PlaceRating rate_place(const Terms& terms, std::optional<float> station_mi,
                       std::span<const SourceInReach> sources, const supply::ParcelSupply& brought);

// The worse category; then credited with less; of equals the one where the minimum flow begins
// later, or never; then the one that fails an earlier one of the terms.
bool worse(const PlaceRating& a, const PlaceRating& b);

}  // namespace farwater::rating
