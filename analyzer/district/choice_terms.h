// What new sources of water are chosen by.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "analyzer/district/words.h"

namespace farwater {

struct ChoiceTerms {
    std::optional<std::size_t> sites;             // how many; none, and no budget either: 5
    std::optional<double> budget;                 // what may be spent in all, in the user's money
    std::optional<double> yearly_budget;          // deals the chosen ones into years
    std::vector<std::string> planned, ruled_out;  // ids of places
    std::optional<WeighBy> weigh_by;              // none: parcels
};

// What is asked for, and where it does not tell, what is usual. Ids of both count; a number goes
// before a usual budget, a budget before a usual number.
ChoiceTerms or_usual(ChoiceTerms asked, const ChoiceTerms& usual);

}  // namespace farwater
