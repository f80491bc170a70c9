// What the department says, what the data show, who signs; and what is missing.
#include <fmt/format.h>

#include "reports/rating/rating_evidence.h"
#include "reports/rating/rating_sheets.h"
#include "reports/rating/sheet_html.h"

namespace farwater::reports {
namespace {

std::vector<SheetHtml::Cells> missing_cells(const Findings& findings, std::string_view subject) {
    std::vector<SheetHtml::Cells> rows;
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

void add_missing(SheetHtml& html, const Findings& findings, std::string_view title,
                 std::string_view subject) {
    const auto rows = missing_cells(findings, subject);
    html.heading(title);
    if (rows.empty()) {
        html.paragraph("Nothing is missing.");
    } else {
        html.table({subject == "source" ? "Source" : "Unit", "Missing", "_Who gets it, by when"},
                   rows);
    }
}

}  // namespace

std::string claim_sheet(const Findings& findings) {
    std::vector<SheetHtml::Cells> rows;
    for (const Claim& claim : claims(findings)) {
        rows.push_back({claim.says, claim.shows, claim.signs, ""});
    }
    SheetHtml html;
    html.heading("What is claimed")
        .paragraph(
            "The left column is the department's word, and stands only when it is signed. "
            "Automatic aid stands apart from mutual aid.")
        .table({"The department says", "The data show", "Who signs", "_Signature and date"}, rows)
        .signatures({"Chief", "Water supply officer"});
    return html.text();
}

std::string missing_sheet(const Findings& findings) {
    SheetHtml html;
    html.paragraph(
        "What an assessor will ask for and the district's data do not hold. Nothing here was "
        "filled "
        "in by a guess: a source without its papers does not count.");
    add_missing(html, findings, "Sources offered for rating", "source");
    add_missing(html, findings, "Apparatus that counts", "apparatus");
    std::vector<std::string> papers;
    for (const MissingEvidence& missing : missing_evidence(findings)) {
        if (missing.subject == "district") {
            papers.push_back(missing.what);
        }
    }
    html.heading("Papers that no data set holds: bring them").list(papers);
    return html.text();
}

}  // namespace farwater::reports
