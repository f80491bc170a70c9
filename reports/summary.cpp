#include "reports/summary.h"

#include <map>
#include <utility>

#include <fmt/format.h>

#include "reports/cautions.h"
#include "reports/drive_words.h"
#include "reports/headline.h"
#include "reports/need_columns.h"
#include "reports/proposals.h"
#include "reports/rating/rating_totals.h"
#include "reports/zones.h"

namespace farwater::reports {
namespace {

struct KindCount {
    std::size_t count = 0;
    const Problem* first = nullptr;
};

// By kind and layer, kinds in the order of the ids: counts and a first example. A truck is not to
// be hidden behind a parcel.
std::map<std::pair<ProblemId, std::string_view>, KindCount> by_kind(
    std::span<const Problem> problems) {
    std::map<std::pair<ProblemId, std::string_view>, KindCount> kinds;
    for (const Problem& problem : problems) {
        KindCount& kind = kinds[{problem.id, problem.layer}];
        ++kind.count;
        kind.first = kind.first != nullptr ? kind.first : &problem;
    }
    return kinds;
}

std::string variants_text(const Findings& findings) {
    const auto& variants = findings.assessment.variants;
    std::string text;
    if (variants.size() < 2) {
        return text;
    }
    const auto held = static_cast<std::size_t>(SupplyState::held);
    const std::size_t thinnest = findings.assessment.thinnest();
    text += "\nMeeting the planned flow, by season and period:\n";
    for (std::size_t i = 0; i < variants.size(); ++i) {
        const auto& variant = variants[i].variant;
        text += fmt::format("  {:<14} {:<14} {:>9}{}\n",
                            at(findings.district.seasons, variant.season).name,
                            at(findings.district.periods, variant.period).name,
                            variants[i].parcels_by_state[held], i == thinnest ? "   thinnest" : "");
    }
    return text;
}

std::string rating_text(const Findings& findings) {
    if (findings.rating == nullptr) {
        return "";
    }
    std::string text = fmt::format("\nInsurance rating, {}, improved parcels:\n",
                                   findings.district.rating->standard.name);
    const std::vector<RatingTotal> totals = totals_by_category(findings);
    for (const rating::Category category : possible_categories(findings.rating->terms)) {
        text +=
            fmt::format("  {:<14} {:>9}   {}\n", category_word(findings.rating->terms, category),
                        totals[static_cast<std::size_t>(category)].parcels, meaning_of(category));
    }
    return text;
}

std::string zones_text(const Findings& findings) {
    constexpr std::size_t most_shown = 5;
    std::string text;
    for (const std::string& sentence : zone_sentences(findings, most_shown)) {
        text += "  " + sentence + "\n";
    }
    return text.empty()
               ? ""
               : "\nNeighbours that miss their planned flow (layer shortfall_zones):\n" + text;
}

std::string next_source_text(const Findings& findings) {
    return findings.next_source == nullptr
               ? ""
               : "\nWhere the next source of water helps most (proposals.html, layer "
                 "source_proposals):\n" +
                     chosen_text(*findings.next_source);
}

}  // namespace

std::string records_text(const District& district) {
    std::string text = fmt::format("{:<20} {:>9} {:>9} {:>9} {:>9}\n", "Records", "read", "used",
                                   "repaired", "set aside");
    for (const RecordCount& record : district.records) {
        text += fmt::format("  {:<18} {:>9} {:>9} {:>9} {:>9}\n", record.layer, record.read,
                            record.used, record.repaired, record.set_aside);
    }
    return text;
}

std::string problems_text(std::span<const Problem> problems) {
    if (problems.empty()) {
        return "No problems found in the data.\n";
    }
    std::string text =
        "Problems in the data, by kind and layer (all of them: table data_problems):\n";
    for (const auto& [what, kind] : by_kind(problems)) {
        text += fmt::format("  {:>7}  {:<26} e.g. {}\n", kind.count, name_of(what.first),
                            sentence(*kind.first));
    }
    return text;
}

std::string summary_text(const Findings& findings) {
    const Headline headline = headline_of(findings);
    std::string text =
        fmt::format("{}, worst season and period of each parcel:\n",
                    findings.district.name.empty() ? "District" : findings.district.name);
    if (const std::string what_if = what_if_sentence(findings.district); !what_if.empty()) {
        text += "  " + what_if + "\n";
    }
    if (const std::string months = months_sentence(findings.district); !months.empty()) {
        text += "  " + months + "\n";
    }
    for (const std::string& line : headline_sentences(headline, findings.district.tanker_word)) {
        text += fmt::format("  {}\n", line);
    }
    if (const std::string gap = gap_sentence(headline, findings.district.tanker_word);
        !gap.empty()) {
        text += fmt::format("  ({})\n", gap);
    }
    text += fmt::format(
        "  ({} late, {} short, {} out of reach; {} parcels without a building are in no "
        "percentage)\n",
        headline.late, headline.short_flow, headline.unreached, headline.no_building);
    text += "  " + travel_time_sentence(findings.district) + "\n";
    text += variants_text(findings);
    text += rating_text(findings);
    text += zones_text(findings) + next_source_text(findings);
    text += "\n" + need_bands_text(findings);
    text += "\n" + records_text(findings.district);
    text += "\n" + problems_text(findings.problems);
    text += "\n";
    for (const std::string_view caution : cautions) {
        text += fmt::format("{}\n", caution);
    }
    return text;
}

}  // namespace farwater::reports
