// Places whose numbers an assessor sees one by one: the worst and the usual ones.
#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "analyzer/rating/place_rating.h"

namespace farwater::rating {

struct ChosenPlace {
    std::string why;  // all reasons, by "; "
    std::size_t row = 0;
};

// Least and usual credit of those with water, earliest, usual and latest start of brought water,
// farthest from a station, and a place where the minimum flow is not held; of equals the first, and
// each place once. Places without a building are not looked at. O(places x log places).
std::vector<ChosenPlace> chosen_places(std::span<const PlaceRating> parcels);

}  // namespace farwater::rating
