// The pages of everything that `propose` chose and `improvements` weighed, as one document each.
#pragma once

#include <string>

#include "reports/improvements.h"
#include "reports/layers.h"
#include "reports/print/drawing.h"
#include "reports/proposals.h"

namespace farwater::reports {

inline constexpr std::size_t most_gain_pages = 60;

// A front page with the places in order of choice and the curve of their gain, then a page for each
// with a map of who gains, its cost, what must be proved, asked and permitted, and how its rate is
// worked out. Well-formed as XML; all text of the data is escaped; the same bytes for the same
// findings.
std::string proposal_pages(const ProposalFindings& findings, const RunRecord& record);

// The same for improvements, each by itself: no curve, for they do not add up.
std::string improvement_pages(const ImprovementFindings& findings, const RunRecord& record);

// What the chosen places gain together, one more at a time; drawn for at least one.
Drawing proposal_curve(const ProposalFindings& findings);

}  // namespace farwater::reports
