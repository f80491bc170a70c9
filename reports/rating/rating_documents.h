// The documents of the insurance rating: pages that print well, each one file without anything
// outside it, and all of them as one PDF.
#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "reports/findings.h"
#include "reports/layers.h"
#include "reports/print/sheet_blocks.h"

namespace farwater::reports {

struct RatingSheet {
    std::string_view file;   // "coverage.html"
    std::string_view title;  // "Coverage statement"
    SheetBlocks blocks;      // between the title block and the cautions
};

// What the documents say, in the order of their numbers. Precondition: the findings have a rating.
// O(parcels + road vertices).
std::vector<RatingSheet> rating_sheets(const Findings& findings, const RunRecord& record);

struct RatingDocument {
    std::string file;  // "coverage.html"
    std::string html;  // well-formed as XML, too; all text of the data is escaped
};

// The same bytes for the same findings.
std::vector<RatingDocument> rating_documents(const Findings& findings, const RunRecord& record,
                                             const std::vector<RatingSheet>& sheets);

inline constexpr std::string_view rating_pdf_file = "rating.pdf";

// All sheets in one document, piece by piece through the sink; the same bytes for the same
// findings. False: it could not be made. O(text), and what cairo keeps of the document.
bool write_rating_pdf(const Findings& findings, const RunRecord& record,
                      const std::vector<RatingSheet>& sheets,
                      const std::function<void(std::string_view)>& sink);

}  // namespace farwater::reports
