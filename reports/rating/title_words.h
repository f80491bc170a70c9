// What stands at the head and foot of every rating document, in HTML and on paper.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "reports/findings.h"
#include "reports/layers.h"

namespace farwater::reports {

struct TitleWords {
    std::string district, title,
        evidence;                    // "Evidence for the insurance rating, sheet 1 of 7. ..."
    std::vector<std::string> facts;  // the data's date, the program, the district file
};
TitleWords title_words(const Findings& findings, const RunRecord& record, std::string_view title,
                       std::size_t number, std::size_t sheets);

// A sentence of caution for the foot of every page.
inline constexpr std::string_view foot_caution =
    "Planning figures: prove them by a timed drill. The rating organisation decides. Local code "
    "and licensed practice go first.";

// What closes a sheet: the basis of its numbers, and the whole hash.
std::string closing_words(const RunRecord& record);

}  // namespace farwater::reports
