// Which card for which house: roads by name, house numbers in order.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "reports/cards/card_book.h"

namespace farwater::reports {

// "12 1/2 Mill Road" in its number, "12 1/2", and its road, "Mill Road". A text that begins with
// no digit is a road without a number.
struct HouseAddress {
    std::string number, road;
};
HouseAddress house_address(std::string_view text);

// Houses that follow each other and have the same card.
struct IndexEntry {
    std::vector<std::string> houses;
    std::optional<std::uint32_t> card;  // into the book's sites
    std::string instead;                // where there is no card: why
};

struct IndexRoad {
    std::string name;
    std::vector<IndexEntry> entries;
};

// Every improved parcel and every target once; targets come last, under a name of their own. Roads
// that differ in capital letters only are one. O(n log n).
std::vector<IndexRoad> address_index(const CardBook& book);

}  // namespace farwater::reports
