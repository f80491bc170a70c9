// The documents of the insurance rating: pages that print well, each one file without anything
// outside it.
#pragma once

#include <string>
#include <vector>

#include "reports/findings.h"
#include "reports/layers.h"

namespace farwater::reports {

struct RatingDocument {
    std::string file;  // "coverage.html"
    std::string html;  // well-formed as XML, too; all text of the data is escaped
};

// Precondition: the findings have a rating. In the order of their numbers; the same bytes for the
// same findings. O(parcels + road vertices).
std::vector<RatingDocument> rating_documents(const Findings& findings, const RunRecord& record);

}  // namespace farwater::reports
