#include <algorithm>
#include <cmath>
#include <utility>

#include <fmt/format.h>

#include "analyzer/planning/stand_ins.h"
#include "reports/explain/source_worksheet.h"
#include "reports/gains/gain_page.h"
#include "reports/gains/gain_pages.h"
#include "reports/gains/gain_words.h"
#include "reports/origin.h"
#include "reports/text/number_words.h"

namespace farwater::reports {
namespace {

using planning::Candidate;
using Facts = std::vector<std::pair<std::string, std::string>>;

constexpr std::size_t most_stand_ins_told = 4;

std::vector<std::string> permissions(const Candidate& place) {
    std::vector<std::string> lines{"Owner of the water or ground, asked on",
                                   "Owner of the road, asked on"};
    if (place.source.kind == SourceKind::dry_hydrant) {
        lines.emplace_back("Permit for wetland or shore, number");
        lines.emplace_back("Sounded on, by, gallons at drought");
        lines.emplace_back("Lift at drought level, ft, measured by");
    } else {
        lines.emplace_back("Gallons as designed, by");
    }
    lines.emplace_back("Flow tested on, by, gpm");
    return lines;
}

// Whose ground the pipe crosses, and which places stand in where they refuse.
void add_ground(Facts& facts, const ProposalFindings& findings, const Proposal& proposal) {
    const std::vector<Candidate>& places = findings.found.candidates;
    const WaterSource& source = places[proposal.candidate].source;
    if (!source.owner.empty()) {
        facts.emplace_back("Its pipe crosses the ground of", source.owner);
    }
    std::string words;
    std::size_t told = 0;
    for (const std::uint32_t other : planning::stand_ins_of(places, proposal.candidate)) {
        if (told++ < most_stand_ins_told) {
            words += fmt::format("{}{} ({}, {:.0f} ft of pipe)", words.empty() ? "" : "; ",
                                 places[other].source.id, places[other].source.owner,
                                 in_feet(places[other].source.suction.pipe.value_or(feet(0))));
        }
    }
    if (told > most_stand_ins_told) {
        words += fmt::format("; and {} more", told - most_stand_ins_told);
    }
    if (!words.empty()) {
        facts.emplace_back(
            "If that is refused",
            fmt::format("{}; farwater propose --rule-out {} works the next out", words, source.id));
    }
}

Facts facts_of(const ProposalFindings& findings, const Proposal& proposal) {
    const Candidate& place = findings.found.candidates[proposal.candidate];
    const auto& alone = findings.alone[proposal.candidate];
    Facts facts{
        {"Adds", gained_words(proposal.added)},
        {"With those before it", gained_words(proposal.together)},
        {"As the only one", alone ? gained_words(*alone) : "not asked"},
        {"Cost", money_words(place.cost)},
        {"Cost for each newly met",
         cost_for_each(place.cost, static_cast<double>(proposal.added.more_held()))},
        {"It gives", in_thousands(std::floor(in_gpm(place.rate))) + " gpm"},
    };
    if (proposal.year) {
        facts.emplace_back("Built in year", fmt::format("{}", *proposal.year));
    }
    if (findings.weights.by != WeighBy::parcels) {
        facts.emplace_back("What the choice goes by",
                           weighted_words(findings.weights, proposal.added));
    }
    add_ground(facts, findings, proposal);
    if (place.to_prove) {
        facts.emplace_back(
            "Worth it only if",
            fmt::format("at least {} gal remain at drought{}: sound it",
                        in_thousands(in_gallons(*place.to_prove)),
                        place.drawdown ? fmt::format(" ({:.1f} ft off its mapped area)",
                                                     in_feet(*place.drawdown))
                                       : ""));
    }
    if (proposal.added.losing > 0) {
        facts.emplace_back("Less by it", lost_words(proposal.added));
    }
    return facts;
}

GainPage page_of(const ProposalFindings& findings, std::size_t rank) {
    const Proposal& proposal = findings.proposals[rank];
    const Candidate& place = findings.found.candidates[proposal.candidate];
    return {.anchor = fmt::format("proposal-{}", rank + 1),
            .title = fmt::format("{}. {} ({})", rank + 1, place.source.name, place.source.id),
            .statement = statement_of(proposal.added),
            .facts = facts_of(findings, proposal),
            .changes = proposal.changes,
            .place = &place.source,
            .to_settle = clauses(what_to_do(place)),
            .to_fill = permissions(place),
            .worksheet = source_worksheet(findings.district, place.source)};
}

std::vector<std::vector<std::string>> rows_of(const ProposalFindings& findings) {
    std::vector<std::vector<std::string>> rows;
    for (std::size_t rank = 0; rank < findings.proposals.size(); ++rank) {
        const Proposal& proposal = findings.proposals[rank];
        const Candidate& place = findings.found.candidates[proposal.candidate];
        rows.push_back({fmt::format("{}", rank + 1), place.source.id,
                        place.source.name + (proposal.planned ? ", planned" : ""),
                        money_words(place.cost), in_thousands(proposal.added.gpm()),
                        fmt::format("{}", proposal.added.more_held()),
                        in_thousands(proposal.together.gpm()),
                        fmt::format("{}", proposal.together.more_held()),
                        money_words(proposal.cost_together)});
        if (findings.weights.by != WeighBy::parcels) {
            rows.back().push_back(in_thousands(weighted_gain(findings.weights, proposal.added)));
        }
    }
    return rows;
}

void add_choice(SheetBlocks& sheet, const ProposalFindings& findings) {
    SheetBlocks::Cells head{"#Rank",      "Id",          "Place",      "#Cost",      "#Adds, gpm",
                            "#Newly met", "#Total, gpm", "#Total met", "#Total cost"};
    std::string note =
        "Adds: what more of the needed flow is held over all properties, in the worst season and "
        "period of each, less what is lost; newly met: how many more meet their planned flow; "
        "totals: with the places before. A cost that nobody gave is -.";
    if (findings.weights.by != WeighBy::parcels) {
        sheet.paragraph(weights_statement(findings.weights));
        head.emplace_back("#Weighted");
        note +=
            fmt::format(" Weighted: what is added, gpm x {}.", weighing_unit(findings.weights.by));
    }
    sheet.table(std::move(head), rows_of(findings)).note(note);
}

void add_front(SheetBlocks& sheet, const ProposalFindings& findings) {
    sheet.begin_section("places", false)
        .heading("Places in order of choice")
        .paragraph(now_words(findings.now));
    if (findings.unpriced > 0) {
        sheet.paragraph(unpriced_words(findings.unpriced));
    }
    if (findings.proposals.empty()) {
        sheet.paragraph("No place gains anything that may be had.").end_section();
        return;
    }
    add_choice(sheet, findings);
    if (findings.yearly_budget) {
        add_years(sheet, *findings.yearly_budget, build_years(findings), findings.weights);
    }
    sheet.subheading("What they gain together, one more at a time")
        .drawing(proposal_curve(findings))
        .note(
            "To have each place on one sheet, print the pages after this part on both sides: its "
            "worksheet comes on its back.")
        .end_section();
}

}  // namespace

Drawing proposal_curve(const ProposalFindings& findings) {
    std::vector<double> totals;
    std::vector<std::string> ids;
    for (const Proposal& proposal : findings.proposals) {
        totals.push_back(proposal.together.gpm());
        ids.push_back(findings.found.candidates[proposal.candidate].source.id);
    }
    return gain_curve(totals, ids);
}

std::string proposal_pages(const ProposalFindings& findings, const RunRecord& record) {
    SheetBlocks sheet;
    add_front(sheet, findings);
    for (std::size_t rank = 0; rank < std::min(findings.proposals.size(), most_gain_pages);
         ++rank) {
        add_gain_page(sheet, findings.district, page_of(findings, rank));
    }
    return gains_html("Where the next source of water helps most", findings.district,
                      origin_words(findings.district, record), sheet);
}

}  // namespace farwater::reports
