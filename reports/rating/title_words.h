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

// What goes before all cautions: how many sources of [what_if_sources] these sheets count. That one
// is counted elsewhere in the result does not make it count here. "" where the district has none.
std::string what_if_words(const Findings& findings);

// A caution for the foot of every page, since sheets are handed out one by one. Sources that are
// not there go before all else: nobody shall sign for them.
std::string foot_words(const Findings& findings);

// What closes a sheet: the basis of its numbers, and the whole hash.
std::string closing_words(const RunRecord& record);

}  // namespace farwater::reports
