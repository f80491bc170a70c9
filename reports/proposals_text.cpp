#include <algorithm>

#include <fmt/format.h>

#include "reports/cautions.h"
#include "reports/gains/gain_words.h"
#include "reports/headline.h"
#include "reports/proposals.h"
#include "reports/text/plain_text.h"

namespace farwater::reports {
namespace {

constexpr std::size_t name_width = 34;

std::string cost_text(const std::optional<double>& cost) {
    return cost ? fmt::format("{:.0f}", *cost) : "-";
}

// Cut at a whole character.
std::string shortened(const std::string& name) {
    if (name.size() <= name_width) {
        return name;
    }
    std::size_t end = name_width - 3;
    while (end > 0 && (static_cast<unsigned char>(name[end]) & 0xC0U) == 0x80U) {
        --end;
    }
    return name.substr(0, end) + "...";
}

std::string now_text(const ProposalFindings& findings) {
    return fmt::format(
        "{}: where the next source of water helps most, worst season and period of each parcel\n"
        "  Now {} of {} improved parcels meet their planned flow ({}); what the others lack, each "
        "by itself, adds up to {:.0f} gpm.\n",
        findings.district.name, findings.now.held, findings.now.improved,
        percent(findings.now.held, findings.now.improved), findings.now.short_of_gpm);
}

// A source cures what lacks water or lies far from it; the rest wants trucks, people, hose, tanks.
std::string held_back_text(const ProposalFindings& findings) {
    std::vector<std::size_t> order;
    for (std::size_t limit = 0; limit < findings.held_back_by.size(); ++limit) {
        if (findings.held_back_by[limit] > 0 && limit != static_cast<std::size_t>(Limit::none)) {
            order.push_back(limit);
        }
    }
    std::ranges::stable_sort(order, [&](std::size_t a, std::size_t b) {
        return findings.held_back_by[a] > findings.held_back_by[b];
    });
    std::string text;
    for (const std::size_t limit : order) {
        text += fmt::format("{}{} {}", text.empty() ? "" : ", ", words_of(Limit{})[limit],
                            findings.held_back_by[limit]);
    }
    return text.empty() ? "" : fmt::format("  The others are held back by: {}.\n", text);
}

// Junctions and public parcels may be many: by reason, the few with rows among those left out.
std::string passed_over_text(const planning::Candidates& found) {
    std::string text;
    for (const planning::PassedPlaces& passed : found.passed_over) {
        text += fmt::format("    {:>6} junctions and public parcels: {}\n", passed.count,
                            passed.reason);
    }
    return text.empty() ? "" : "  Passed over as places of a cistern:\n" + text;
}

std::string standing_by_text(const ProposalFindings& findings) {
    const std::size_t count = findings.standing_by.size();
    return count == 0 ? ""
                      : fmt::format(
                            "  {} more by the same waters, over other owners' ground, stand by: "
                            "rule out the one whose owner\n  refuses (--rule-out), and the next "
                            "stands in for it\n",
                            count);
}

std::string places_text(const ProposalFindings& findings) {
    const auto& found = findings.found;
    const auto count_of = [&](planning::Origin origin) {
        const auto is_of = [&](std::uint32_t place) {
            return found.candidates[place].origin == origin;
        };
        return std::ranges::count(found.candidates, origin, &planning::Candidate::origin) -
               std::ranges::count_if(findings.standing_by, is_of);
    };
    std::string text = fmt::format(
        "  {} places to choose from: {} of your own, {} by mapped water, {} cisterns on public "
        "land "
        "and {} at junctions;\n  {} left out, each with its reason in the layer "
        "proposal_candidates{}\n",
        found.candidates.size() - findings.standing_by.size(), count_of(planning::Origin::own),
        count_of(planning::Origin::mapped_water), count_of(planning::Origin::public_parcel),
        count_of(planning::Origin::junction), found.left_out.size(),
        found.left_out.empty() ? ""
                               : fmt::format(", such as {}: {}", found.left_out.front().id,
                                             found.left_out.front().reason));
    text += standing_by_text(findings) + passed_over_text(found);
    if (findings.unpriced > 0) {
        text += "  " + unpriced_words(findings.unpriced) + "\n";
    }
    return text;
}

std::string row_text(std::size_t rank, const ProposalFindings& findings) {
    const Proposal& proposal = findings.proposals[rank];
    const planning::Candidate& place = findings.found.candidates[proposal.candidate];
    return fmt::format("  {:>4}  {:<10} {:<34} {:>9} {:>9.0f} {:>7} {:>9} {:>10.0f} {:>9}{}\n",
                       rank + 1, name_words(place.source.id), shortened(place.source.name),
                       cost_text(place.cost), proposal.added.gpm(), proposal.added.gaining,
                       proposal.added.more_held(), proposal.together.gpm(),
                       proposal.together.more_held(), proposal.planned ? "  planned" : "");
}

// Said, for nobody would believe it: more water lowers no flow.
std::string losing_text(const ProposalFindings& findings) {
    std::size_t losing = 0;
    double lost = 0.0;
    for (const Proposal& proposal : findings.proposals) {
        losing += proposal.added.losing;
        lost += proposal.added.lost_gpm();
    }
    return losing == 0
               ? ""
               : fmt::format(
                     "  {} answers are less by a new source, {:.0f} gpm in all, for not every fill "
                     "site is looked at in full;\n  a crew would fill where it filled before. The "
                     "gains are less these.\n",
                     losing, lost);
}

// Only where properties do not all count the same.
std::string weighted_text(const ProposalFindings& findings) {
    const planning::Weights& weights = findings.weights;
    if (weights.by == WeighBy::parcels) {
        return {};
    }
    std::string text = fmt::format("  Chosen by gpm x {}: ", weighing_unit(weights.by));
    for (std::size_t rank = 0; rank < findings.proposals.size(); ++rank) {
        text += fmt::format("{}{} {:.0f}", rank == 0 ? "" : ", ", rank + 1,
                            weighted_gain(findings.weights, findings.proposals[rank].added));
    }
    return text + fmt::format("\n  {} improved parcels have no {} and count for nothing.\n",
                              weights.not_known, weighing_unit(weights.by));
}

std::string table_text(const ProposalFindings& findings) {
    std::string text =
        fmt::format("  {:>4}  {:<10} {:<34} {:>9} {:>9} {:>7} {:>9} {:>10} {:>9}\n", "rank", "id",
                    "place", "cost", "gain gpm", "parcels", "newly met", "total gpm", "met");
    for (std::size_t rank = 0; rank < findings.proposals.size(); ++rank) {
        text += row_text(rank, findings);
    }
    text += losing_text(findings) + weighted_text(findings);
    text +=
        "  gain gpm: what more of the needed flow is held, over all parcels; parcels: how many "
        "gain; newly met: how\n  many more meet their planned flow; total and met: with those "
        "before it\n";
    return text;
}

std::string_view proof_text(planning::Proof proof) {
    switch (proof) {
        case planning::Proof::not_asked:
            return ".";
        case planning::Proof::best:
            return " (proved).";
        case planning::Proof::out_of_time:
            return ";\n  the search for the best choice ran out of time (--exact-seconds).";
    }
    return {};
}

std::string choice_text(const ProposalFindings& findings) {
    const std::string other =
        findings.budget ? fmt::format("no other choice for {:.0f}", *findings.budget)
                        : fmt::format("no other choice of {}", findings.sites.value_or(0));
    const std::string idle =
        findings.idle == 0
            ? ""
            : fmt::format("  {} more were chosen that add nothing to these.\n", findings.idle);
    return idle +
           fmt::format(
               "\n  Counting each parcel with the best of the chosen places, {} gains {}{}\n",
               other,
               findings.gap > 0.0 ? fmt::format("more than {:.1f} % beyond it",
                                                100.0 * findings.gap / (1.0 - findings.gap))
                                  : "more",
               proof_text(findings.proof));
}

std::string looked_text(const ProposalFindings& findings) {
    const PlacesLookedAt looked = places_looked_at(findings);
    return looked.refused == 0
               ? ""
               : fmt::format(
                     "  {} places were worked out; {} were not, for by a bound, or ruled out, no "
                     "choice takes them (--every-gain).\n",
                     looked.worked_out, looked.refused);
}

}  // namespace

std::string chosen_text(const ProposalFindings& findings) {
    if (findings.found.candidates.empty()) {
        return "  There is no place to choose from.\n";
    }
    if (findings.proposals.empty()) {
        return "  No place gains anything that may be had.\n";
    }
    return table_text(findings) + years_text(findings) + choice_text(findings);
}

std::string proposals_text(const ProposalFindings& findings) {
    std::string text = now_text(findings) + held_back_text(findings) + places_text(findings) +
                       "\n" + chosen_text(findings);
    if (findings.proposals.empty()) {
        return text;
    }
    text += looked_text(findings) + "\n";
    for (const Proposal& proposal : findings.proposals) {
        const planning::Candidate& place = findings.found.candidates[proposal.candidate];
        text += fmt::format("  {}: {:.0f} gpm; {}.\n", place.source.id, in_gpm(place.rate),
                            what_to_do(place));
    }
    text += "\n";
    for (const std::string_view caution : cautions) {
        text += fmt::format("{}\n", caution);
    }
    return text;
}

}  // namespace farwater::reports
