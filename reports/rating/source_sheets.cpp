// The source register: an index, then a sheet for every source that is offered for rating.
#include <array>

#include <fmt/format.h>

#include "analyzer/hydraulics/pump.h"
#include "analyzer/supply/suction_point.h"
#include "reports/origin.h"
#include "reports/print/sheet_blocks.h"
#include "reports/rating/rating_evidence.h"
#include "reports/rating/rating_sheets.h"
#include "reports/text/number_words.h"

namespace farwater::reports {
namespace {

using Facts = std::vector<std::pair<std::string, std::string>>;

// One source with what was found out about it.
struct SourceView {
    const Findings& findings;
    const WaterSource& source;
    const rating::SourceVerdict& verdict;
    const supply::CountedSource* counted;  // null: it does not count at all

    std::string name() const {
        return source.name.empty() ? source.id : source.id + ", " + source.name;
    }
};

SourceView view_of(const Findings& findings, std::size_t i) {
    return {findings, findings.district.sources[i], findings.rating->sources[i],
            findings.water.counts[i] ? &supply::counted_source(findings.water, SourceIndex(i))
                                     : nullptr};
}

std::string feet_in_words(std::optional<Length> length) {
    return length ? fmt::format("{:.1f} ft", in_feet(*length)) : std::string();
}
std::string inches_in_words(std::optional<Length> length) {
    return length ? fmt::format("{:.3g} in", in_inches(*length)) : std::string();
}
std::string psi_in_words(std::optional<double> psi) {
    return psi ? fmt::format("{:.0f} psi", *psi) : std::string();
}
std::string yes_or_no(std::optional<bool> said) {
    return said ? (*said ? "yes" : "no") : std::string();
}

std::string usable_in_words(const SourceView& view) {
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

std::string months_in_words(MonthSet months) {
    if (months == MonthSet::all()) {
        return "all year";
    }
    constexpr std::array<std::string_view, 12> names{"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                                     "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
    std::string words;
    for (unsigned month = 1; month <= 12; ++month) {
        if (months.contains(std::chrono::month{month})) {
            words += (words.empty() ? "" : " ") + std::string(names[month - 1]);
        }
    }
    return words;
}

std::string freeze_in_words(const WaterSource& source) {
    if (source.kind == SourceKind::hydrant || source.kind == SourceKind::cistern) {
        return "not open water";
    }
    return source.frost_proof ? "can be used under ice" : "";
}

Facts place_facts(const SourceView& view, const RunRecord& record) {
    const WaterSource& source = view.source;
    return {
        {"Kind", std::string(word(source.kind))},
        {"Water system", source.system.empty() ? "by itself" : source.system},
        {"Place", fmt::format("x {:.1f}, y {:.1f} m, {}", source.place.x, source.place.y,
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
        {"Months", months_in_words(source.open_months)},
        {"Freeze provision", freeze_in_words(source)},
    };
}

Facts strength_facts(const SourceView& view) {
    const WaterSource& source = view.source;
    const bool counts = view.counted != nullptr;
    return {
        {"Storage at drought level", usable_in_words(view)},
        {"Rate", counts ? fmt::format("{}, by {}", gpm_in_words(view.counted->rate),
                                      word(view.counted->limit))
                        : std::string()},
        {"Rests on", counts ? std::string(word(view.counted->evidence)) : std::string()},
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

void add_hydrant_worksheet(SheetBlocks& sheet, const SourceView& view) {
    const HydrantData& hydrant = view.source.hydrant;
    sheet.subheading("Flow test worksheet")
        .facts({{"Static pressure", psi_in_words(hydrant.static_psi)},
                {"Residual pressure", psi_in_words(hydrant.residual_psi)},
                {"Flow during the test",
                 hydrant.test_flow ? gpm_in_words(*hydrant.test_flow)
                 : hydrant.pitot_psi && hydrant.outlet
                     ? fmt::format("pitot {:.0f} psi in a {:.3g}-in outlet", *hydrant.pitot_psi,
                                   in_inches(*hydrant.outlet))
                     : std::string()},
                {"Main", inches_in_words(hydrant.main)},
                {fmt::format("Flow at {:.0f} psi residual",
                             view.findings.district.assumptions.hydrant_residual_psi),
                 view.counted != nullptr ? gpm_in_words(view.counted->rate) : std::string()}});
}

void add_heads(SheetBlocks& sheet, const SourceView& view) {
    const rating::Terms& terms = view.findings.rating->terms;
    const supply::SuctionPoint point = supply::suction_point(view.source, view.findings.district);
    std::vector<SheetBlocks::Cells> rows;
    std::vector<Flow> flows{terms.minimum};
    for (const double flow : {250.0, 500.0, 750.0, 1000.0, 1500.0}) {
        if (gpm(flow) > terms.minimum) {
            flows.push_back(gpm(flow));
        }
    }
    for (const Flow flow : flows) {
        const Length head = point.head_at(flow);
        rows.push_back({in_thousands(in_gpm(flow)), fmt::format("{:.1f}", in_feet(head)),
                        head <= terms.most_head ? "within the terms" : "too much"});
    }
    sheet.table({"#Flow, gpm", "#Lift, losses and velocity head, ft",
                 fmt::format("Limit {:.0f} ft", in_feet(terms.most_head))},
                rows);
    if (!point.assumed.empty()) {
        sheet.note("Not measured, so a stated cautious value stands in the worksheet: " +
                   point.assumed_in_words() + ".");
    }
}

void add_suction_worksheet(SheetBlocks& sheet, const SourceView& view) {
    const SuctionData& suction = view.source.suction;
    const auto count = [](std::optional<int> number) {
        return number ? fmt::format("{}", *number) : std::string();
    };
    sheet.subheading("Hydraulics worksheet")
        .facts({{"Lift from drought level to the pump", feet_in_words(suction.lift)},
                {"Suction pipe, length", feet_in_words(suction.pipe)},
                {"Suction pipe, bore", inches_in_words(suction.pipe_diameter)},
                {"Pipe material",
                 suction.material ? std::string(word(*suction.material)) : std::string()},
                {"90-degree elbows", count(suction.elbows_90)},
                {"45-degree elbows and reducers", count(suction.elbows_45)},
                {"Strainer and standpipe loss at 500 gpm", feet_in_words(suction.strainer_loss)}});
    add_heads(sheet, view);
    if (view.counted != nullptr) {
        sheet.note(fmt::format("At that lift a pump gives {:.0f} % of its rating.",
                               view.counted->pump_share * 100.0));
    }
}

std::vector<std::string> lacks_of(const Findings& findings, const SourceView& view) {
    std::vector<std::string> lacks;
    for (const MissingEvidence& missing : missing_evidence(findings)) {
        if (missing.subject == "source" && missing.record == view.source.id) {
            lacks.push_back(missing.what);
        }
    }
    return lacks;
}

void add_sheet(SheetBlocks& sheet, const SourceView& view, const RunRecord& record) {
    sheet.begin_section("source-" + view.source.id, true).heading(view.name());
    sheet.statement(view.verdict.creditable() ? "Counts for rating under these terms."
                                              : "Does not count for rating: evidence is missing.");
    const std::vector<std::string> lacks = lacks_of(view.findings, view);
    if (!lacks.empty()) {
        sheet.subheading("Missing").list(lacks);
    }
    sheet.subheading("Place and access").facts(place_facts(view, record));
    sheet.subheading("Strength and tests").facts(strength_facts(view));
    if (view.source.kind == SourceKind::hydrant) {
        add_hydrant_worksheet(sheet, view);
    } else {
        add_suction_worksheet(sheet, view);
    }
    if (!view.source.note.empty()) {
        sheet.paragraph("Note: " + view.source.note);
    }
    sheet.signatures({"Water supply officer", "Owner"}).end_section();
}

void add_index(SheetBlocks& sheet, const Findings& findings) {
    std::vector<SheetBlocks::Cells> offered;
    std::vector<SheetBlocks::Cells> others;
    for (std::size_t i = 0; i < findings.district.sources.size(); ++i) {
        const SourceView view = view_of(findings, i);
        const std::string rate =
            view.counted != nullptr ? in_thousands(in_gpm(view.counted->rate)) : "-";
        SheetBlocks::Cells cells{view.source.id, view.source.name,
                                 std::string(word(view.source.kind)), rate};
        if (view.verdict.is_candidate) {
            cells.emplace_back(view.verdict.creditable() ? "counts" : "lacks evidence");
            offered.push_back(std::move(cells));
        } else {
            cells.emplace_back(word(view.source.use));
            others.push_back(std::move(cells));
        }
    }
    sheet.heading("Offered for rating")
        .table({"Id", "Name", "Kind", "#Rate, gpm", "Verdict"}, offered)
        .heading("Not offered")
        .paragraph("These sources are not declared for rating and count on none of these sheets.")
        .table({"Id", "Name", "Kind", "#Rate, gpm", "Use"}, others);
}

}  // namespace

SheetBlocks source_sheets(const Findings& findings, const RunRecord& record) {
    SheetBlocks sheet;
    add_index(sheet, findings);
    for (std::size_t i = 0; i < findings.district.sources.size(); ++i) {
        const SourceView view = view_of(findings, i);
        if (view.verdict.is_candidate) {
            add_sheet(sheet, view, record);
        }
    }
    return sheet;
}

}  // namespace farwater::reports
