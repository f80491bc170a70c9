// What the assessor will ask for and the data do not hold.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "reports/findings.h"

namespace farwater::reports {

struct MissingEvidence {
    std::string subject;  // source, apparatus or district
    std::string record;   // its id; empty: the district as a whole
    std::string what;
    bool stops = false;  // without it the source, or of the district no source at all, counts
};
// Sources that are declared for rating, or of the district that none is; then apparatus that
// counts, then the district's papers, which no data can hold.
std::vector<MissingEvidence> missing_evidence(const Findings& findings);

// Whether the department declares any source for rating, and what to say where it does not.
bool offers_a_source(const Findings& findings);
inline constexpr std::string_view no_source_offered =
    "No source is offered for rating, and without one no water counts: a source is offered where "
    "its column use in [water_sources] says rating";

// What one source lacks, in words, with "; " between them; "" where it lacks nothing.
std::string lacks_in_words(const rating::SourceVerdict& verdict);

}  // namespace farwater::reports
