// What the department says, what the data show, who signs; and what is missing.
#include <fmt/format.h>

#include "reports/print/sheet_blocks.h"
#include "reports/rating/claims.h"
#include "reports/rating/missing_evidence.h"
#include "reports/rating/rating_sheets.h"

namespace farwater::reports {
namespace {

void append(std::string& list, const std::string& what) {
    list += (list.empty() ? "" : "; ") + what;
}

// One row per source or unit: what keeps it from counting, and what else will be asked for.
struct MissingRow {
    std::string record, stops, also;
};

std::vector<MissingRow> missing_rows(const Findings& findings, std::string_view subject) {
    std::vector<MissingRow> rows;
    for (const MissingEvidence& missing : missing_evidence(findings)) {
        if (missing.subject != subject) {
            continue;
        }
        if (rows.empty() || rows.back().record != missing.record) {
            rows.push_back({missing.record, {}, {}});
        }
        append(missing.stops ? rows.back().stops : rows.back().also, missing.what);
    }
    return rows;
}

void add_missing_of_sources(SheetBlocks& sheet, const Findings& findings) {
    std::vector<SheetBlocks::Cells> cells;
    for (const MissingRow& row : missing_rows(findings, "source")) {
        cells.push_back({row.record, row.stops.empty() ? "nothing" : row.stops,
                         row.also.empty() ? "nothing" : row.also, ""});
    }
    sheet.heading("Sources offered for rating");
    if (!offers_a_source(findings)) {
        sheet.statement(std::string(no_source_offered) + ".");
    } else if (cells.empty()) {
        sheet.paragraph("Nothing is missing.");
    } else {
        sheet.table({"Source", "Missing, and it does not count without", "Will be asked for, too",
                     "_Who gets it, by when"},
                    cells);
    }
}

void add_missing_of_units(SheetBlocks& sheet, const Findings& findings) {
    std::vector<SheetBlocks::Cells> cells;
    for (const MissingRow& row : missing_rows(findings, "apparatus")) {
        std::string all = row.stops;
        if (!row.also.empty()) {
            append(all, row.also);
        }
        cells.push_back({row.record, all, ""});
    }
    sheet.heading("Apparatus that counts");
    if (cells.empty()) {
        sheet.paragraph("Nothing is missing.");
    } else {
        sheet.table({"Unit", "Missing", "_Who gets it, by when"}, cells);
    }
}

}  // namespace

SheetBlocks claim_sheet(const Findings& findings) {
    std::vector<SheetBlocks::Cells> rows;
    for (const Claim& claim : claims(findings)) {
        rows.push_back(
            {claim.says, claim.shows, std::string(shown_in_words(claim.shown)), claim.signs, ""});
    }
    SheetBlocks sheet;
    sheet.heading("What is claimed")
        .paragraph(
            "The left column is the department's word, and stands only when it is signed. "
            "Automatic aid stands apart from mutual aid. Met is what the data show, as far as the "
            "terms ask for it; what they do not hold, somebody else has to show.")
        .table({"The department says", "The data show", "Met?", "Who signs", "_Signature and date"},
               rows)
        .signatures({"Chief", "Water supply officer"});
    return sheet;
}

SheetBlocks missing_sheet(const Findings& findings) {
    SheetBlocks sheet;
    sheet.paragraph(
        "What an assessor will ask for and the district's data do not hold. Nothing here was "
        "filled in by a guess: a source without what the terms ask of it does not count.");
    add_missing_of_sources(sheet, findings);
    add_missing_of_units(sheet, findings);
    std::vector<std::string> papers;
    for (const MissingEvidence& missing : missing_evidence(findings)) {
        if (missing.subject == "district" && !missing.stops) {
            papers.push_back(missing.what);
        }
    }
    sheet.heading("Papers that no data set holds: bring them").list(papers);
    return sheet;
}

}  // namespace farwater::reports
