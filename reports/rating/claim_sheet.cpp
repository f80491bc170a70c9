// What the department says, what the data show, who signs; and what is missing.
#include <fmt/format.h>

#include "reports/print/sheet_blocks.h"
#include "reports/rating/rating_evidence.h"
#include "reports/rating/rating_sheets.h"

namespace farwater::reports {
namespace {

std::vector<SheetBlocks::Cells> missing_cells(const Findings& findings, std::string_view subject) {
    std::vector<SheetBlocks::Cells> rows;
    for (const MissingEvidence& missing : missing_evidence(findings)) {
        if (missing.subject == subject) {
            const bool again =
                !rows.empty() && !missing.record.empty() && rows.back().front() == missing.record;
            if (again) {
                rows.back()[1] += "; " + missing.what;
            } else {
                rows.push_back({missing.record, missing.what, ""});
            }
        }
    }
    return rows;
}

void add_missing(SheetBlocks& sheet, const Findings& findings, std::string_view title,
                 std::string_view subject) {
    const auto rows = missing_cells(findings, subject);
    sheet.heading(title);
    if (rows.empty()) {
        sheet.paragraph("Nothing is missing.");
    } else {
        sheet.table({subject == "source" ? "Source" : "Unit", "Missing", "_Who gets it, by when"},
                    rows);
    }
}

}  // namespace

SheetBlocks claim_sheet(const Findings& findings) {
    std::vector<SheetBlocks::Cells> rows;
    for (const Claim& claim : claims(findings)) {
        rows.push_back({claim.says, claim.shows, claim.signs, ""});
    }
    SheetBlocks sheet;
    sheet.heading("What is claimed")
        .paragraph(
            "The left column is the department's word, and stands only when it is signed. "
            "Automatic aid stands apart from mutual aid.")
        .table({"The department says", "The data show", "Who signs", "_Signature and date"}, rows)
        .signatures({"Chief", "Water supply officer"});
    return sheet;
}

SheetBlocks missing_sheet(const Findings& findings) {
    SheetBlocks sheet;
    sheet.paragraph(
        "What an assessor will ask for and the district's data do not hold. Nothing here was "
        "filled "
        "in by a guess: a source without its papers does not count.");
    add_missing(sheet, findings, "Sources offered for rating", "source");
    add_missing(sheet, findings, "Apparatus that counts", "apparatus");
    std::vector<std::string> papers;
    for (const MissingEvidence& missing : missing_evidence(findings)) {
        if (missing.subject == "district") {
            papers.push_back(missing.what);
        }
    }
    sheet.heading("Papers that no data set holds: bring them").list(papers);
    return sheet;
}

}  // namespace farwater::reports
