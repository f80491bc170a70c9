// What the assessor will ask for and the data do not hold.
#pragma once

#include <string>
#include <vector>

#include "reports/findings.h"

namespace farwater::reports {

struct MissingEvidence {
    std::string subject;  // source, apparatus or district
    std::string record;   // its id; empty: the district as a whole
    std::string what;
    bool stops = false;  // without it the source does not count
};
// Sources that are declared for rating, then apparatus that counts, then the district's papers,
// which no data can hold.
std::vector<MissingEvidence> missing_evidence(const Findings& findings);

// What one source lacks, in words, with "; " between them; "" where it lacks nothing.
std::string lacks_in_words(const rating::SourceVerdict& verdict);

}  // namespace farwater::reports
