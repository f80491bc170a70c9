// The source register: an index, then a sheet for every source that is offered for rating.

#include <fmt/format.h>

#include "reports/cards/card_words.h"
#include "reports/origin.h"
#include "reports/print/sheet_blocks.h"
#include "reports/rating/makes_water.h"
#include "reports/rating/missing_evidence.h"
#include "reports/rating/rated_source.h"
#include "reports/rating/rating_sheets.h"
#include "reports/text/number_words.h"

namespace farwater::reports {
namespace {

using Facts = std::vector<std::pair<std::string, std::string>>;

std::string yes_or_no(std::optional<bool> said) {
    return said ? (*said ? "yes" : "no") : std::string();
}

std::string usable_in_words(const RatedSource& view) {
    if (view.counted == nullptr) {
        return "";
    }
    std::string words = view.counted->usable
                            ? in_thousands(in_gallons(*view.counted->usable)) + " gal"
                            : std::string("unlimited, as stated");
    if (view.counted->inflow > gpm(0)) {
        words += ", with an inflow of " + gpm_in_words(view.counted->inflow);
    }
    return words;
}

std::string freeze_in_words(const WaterSource& source) {
    if (source.kind == SourceKind::hydrant) {
        return "not asked of this kind";
    }
    return source.frost_proof ? "can be used in freezing weather" : "";
}

Facts place_facts(const RatedSource& view, const RunRecord& record) {
    const WaterSource& source = view.source;
    return {
        {"Kind", spoken(word(source.kind))},
        {"Water system", source.system.empty() ? "by itself" : source.system},
        {"Latitude, longitude",
         source.degrees ? fmt::format("{:.5f}, {:.5f} (WGS 84)", source.degrees->latitude,
                                      source.degrees->longitude)
                        : std::string()},
        {"Place on the map", fmt::format("x {:.1f}, y {:.1f} m, {}", source.place.x, source.place.y,
                                         recorded(record, "crs"))},
        {"Nearest cross street", source.cross_street},
        {"Owner", source.owner},
        {"Owner's written permission",
         source.agreement.empty() && source.kind == SourceKind::hydrant ? "not asked of this kind"
                                                                        : source.agreement},
        {"Access in all weather", yes_or_no(source.all_weather)},
        {"Lane",
         source.lane ? *source.lane == LaneClass::through ? "through" : "dead end" : std::string()},
        {"Reached by", source.reach == Reach::engine ? "engine" : "portable pump only"},
        {"Months", month_words(source.open_months)},
        {"Freeze provision", freeze_in_words(source)},
    };
}

std::string pumps_in_words(const RatedSource& view, const std::vector<PumpsAt>& engines) {
    if (!engines.empty()) {
        return engines_in_words(view.findings.district, engines);
    }
    return view.verdict.creditable() ? "none: no parcel's water is pumped from it"
                                     : "none: it does not count";
}

Facts strength_facts(const RatedSource& view, const std::vector<PumpsAt>& engines) {
    const WaterSource& source = view.source;
    const bool counts = view.counted != nullptr;
    return {
        {"Storage at drought level", usable_in_words(view)},
        {"Rate", counts ? fmt::format("{}: {}", gpm_in_words(view.counted->rate),
                                      rate_sentence(view.counted->limit))
                        : std::string()},
        {"Rests on", counts ? std::string(word(view.counted->evidence)) : std::string()},
        {"Engines that pump from it", pumps_in_words(view, engines)},
        {"Places to connect", counts ? fmt::format("{}", view.counted->places) : std::string()},
        {"Standing", std::string(word(source.standing)) +
                         (source.standing_by.empty() ? "" : ", by " + source.standing_by)},
        {"Last flow test", day(source.tested_on)},
        {"Certificate of capacity in a 50-year drought",
         source.kind == SourceKind::hydrant || source.kind == SourceKind::cistern
             ? "not asked of this kind"
             : source.certified_by + (source.certified_on ? ", " + day(source.certified_on) : "")},
    };
}

void add_missing_of(SheetBlocks& sheet, const RatedSource& view) {
    std::vector<std::string> stops;
    std::vector<std::string> also;
    for (const MissingEvidence& missing : missing_evidence(view.findings)) {
        if (missing.subject == "source" && missing.record == view.source.id) {
            (missing.stops ? stops : also).push_back(missing.what);
        }
    }
    if (!stops.empty()) {
        sheet.subheading("Missing, and it does not count without").list(stops);
    }
    if (!also.empty()) {
        sheet.subheading("Missing, and will be asked for").list(also);
    }
}

std::string verdict_sentence(const RatedSource& view) {
    if (view.verdict.creditable()) {
        return view.is_there ? "Counts for rating under these terms."
                             : "Is not there yet: these sheets count it as if it were.";
    }
    return std::string(view.is_there ? "Does" : "Is not there yet, and does") +
           " not count for rating: evidence is missing.";
}

void add_sheet(SheetBlocks& sheet, const RatedSource& view, const std::vector<PumpsAt>& engines,
               const RunRecord& record) {
    sheet.begin_section("source-" + view.source.id, true).heading(view.name());
    sheet.statement(verdict_sentence(view));
    add_missing_of(sheet, view);
    sheet.subheading("Place and access").facts(place_facts(view, record));
    sheet.subheading("Strength and tests").facts(strength_facts(view, engines));
    add_source_worksheet(sheet, view);
    if (!view.source.note.empty()) {
        sheet.paragraph("Note: " + view.source.note);
    }
    sheet.signatures({"Water supply officer", "Owner"}).end_section();
}

void add_index(SheetBlocks& sheet, const Findings& findings) {
    std::vector<SheetBlocks::Cells> offered;
    std::vector<SheetBlocks::Cells> others;
    for (std::size_t i = 0; i < findings.district.sources.size(); ++i) {
        const RatedSource view = rated_source(findings, i);
        const std::string rate =
            view.counted != nullptr ? in_thousands(in_gpm(view.counted->rate)) : "-";
        SheetBlocks::Cells cells{view.source.id, view.source.name, spoken(word(view.source.kind)),
                                 rate};
        const std::string not_there = view.is_there ? "" : "; not there yet";
        if (view.verdict.is_candidate) {
            cells.push_back((view.verdict.creditable() ? "counts" : "lacks evidence") + not_there);
            offered.push_back(std::move(cells));
        } else {
            cells.push_back(spoken(word(view.source.use)) + not_there);
            others.push_back(std::move(cells));
        }
    }
    sheet.heading("Offered for rating");
    if (offered.empty()) {
        sheet.statement(std::string(no_source_offered) + ".");
    } else {
        sheet.table({"Id", "Name", "Kind", "#Rate, gpm", "Verdict"}, offered);
    }
    sheet.heading("Not offered");
    if (others.empty()) {
        sheet.paragraph("There is none.");
    } else {
        sheet
            .paragraph(
                "These sources are not declared for rating and count on none of these sheets.")
            .table({"Id", "Name", "Kind", "#Rate, gpm", "Use"}, others);
    }
}

}  // namespace

SheetBlocks source_sheets(const Findings& findings, const RunRecord& record) {
    SheetBlocks sheet;
    add_index(sheet, findings);
    const auto engines = engines_at_sources(findings);
    for (std::size_t i = 0; i < findings.district.sources.size(); ++i) {
        const RatedSource view = rated_source(findings, i);
        if (view.verdict.is_candidate) {
            add_sheet(sheet, view, engines[i], record);
        }
    }
    return sheet;
}

}  // namespace farwater::reports
