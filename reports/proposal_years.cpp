#include <memory>

#include <fmt/format.h>

#include "reports/layers/table_builder.h"
#include "reports/proposals.h"

namespace farwater::reports {
namespace {

struct BuildYear {
    std::int64_t year = 0;
    std::string places;  // ids
    double cost = 0.0, put_by = 0.0;
    planning::Gain tenths = 0, tenths_together = 0;
    std::int64_t newly_held = 0, newly_held_together = 0;
    double weighted = 0.0;
};

// Years that build something.
std::vector<BuildYear> build_years(const ProposalFindings& findings) {
    std::vector<BuildYear> years;
    double spent = 0.0;
    for (const Proposal& proposal : findings.proposals) {
        if (!proposal.year) {
            continue;
        }
        const planning::Candidate& place = findings.found.candidates[proposal.candidate];
        if (years.empty() || years.back().year != *proposal.year) {
            years.push_back({.year = *proposal.year});
        }
        BuildYear& year = years.back();
        year.places += (year.places.empty() ? "" : ", ") + place.source.id;
        year.cost += place.cost.value_or(0.0);
        spent += place.cost.value_or(0.0);
        year.put_by = static_cast<double>(year.year) * findings.yearly_budget.value_or(0.0) - spent;
        year.tenths += proposal.added.tenths;
        year.weighted += weighted_gain(findings, proposal.added);
        year.newly_held += proposal.added.more_held();
        year.tenths_together = proposal.together.tenths;
        year.newly_held_together = proposal.together.more_held();
    }
    return years;
}

io::Value in_gpm_of(planning::Gain tenths) { return io::Value{static_cast<double>(tenths) / 10.0}; }

std::vector<ColumnOf> year_columns(const std::shared_ptr<const std::vector<BuildYear>>& years) {
    const auto at = [years](std::size_t row) -> const BuildYear& { return (*years)[row]; };
    return {
        integer("build_year", "From 1; years that only put money by have no row.",
                [at](std::size_t row) { return io::Value{at(row).year}; }),
        text("places", "Ids of the proposals.",
             [at](std::size_t row) { return value_of(at(row).places); }),
        real(
            "cost", "Of that year's places.",
            [at](std::size_t row) { return io::Value{at(row).cost}; }, 0),
        real(
            "put_by", "Left at the end of the year for the next.",
            [at](std::size_t row) { return io::Value{at(row).put_by}; }, 0),
        real("gained_gpm", "Added to the years before, as in source_proposals.",
             [at](std::size_t row) { return in_gpm_of(at(row).tenths); }),
        integer("newly_held", "Parcels that newly meet their planned flow, likewise.",
                [at](std::size_t row) { return io::Value{at(row).newly_held}; }),
        real("weighted_gain", "Likewise, as the choice weighs it.",
             [at](std::size_t row) { return io::Value{at(row).weighted}; }),
        real("gained_together_gpm", "With all years before, and what is planned.",
             [at](std::size_t row) { return in_gpm_of(at(row).tenths_together); }),
        integer("newly_held_together", "With all years before, and what is planned.",
                [at](std::size_t row) { return io::Value{at(row).newly_held_together}; }),
    };
}

}  // namespace

io::FeatureTable proposal_years(const ProposalFindings& findings) {
    const auto years = std::make_shared<const std::vector<BuildYear>>(build_years(findings));
    return table({"proposal_years", "What each year builds",
                  "The proposals dealt into years by the yearly budget; what a year does not spend "
                  "is put by for the next."},
                 year_columns(years), years->size());
}

std::string years_text(const ProposalFindings& findings) {
    if (!findings.yearly_budget) {
        return {};
    }
    std::string text = fmt::format("\n  With {:.0f} a year, what is left being put by:\n",
                                   *findings.yearly_budget);
    for (const BuildYear& year : build_years(findings)) {
        text += fmt::format(
            "  year {:>2}: {} for {:.0f}, {:.0f} put by; {:.0f} gpm and {} newly met, {:.0f} gpm "
            "and "
            "{} together\n",
            year.year, year.places, year.cost, year.put_by, static_cast<double>(year.tenths) / 10.0,
            year.newly_held, static_cast<double>(year.tenths_together) / 10.0,
            year.newly_held_together);
    }
    return text;
}

}  // namespace farwater::reports
