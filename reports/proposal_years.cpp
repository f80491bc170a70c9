#include "reports/proposals.h"

namespace farwater::reports {

std::vector<BuildYear> build_years(const ProposalFindings& findings) {
    std::vector<BuildYear> years;
    double spent = 0.0;
    for (const Proposal& proposal : findings.proposals) {
        if (!proposal.year) {
            continue;
        }
        const planning::Candidate& place = findings.found.candidates[proposal.candidate];
        if (years.empty() || years.back().year != *proposal.year) {
            years.emplace_back();
            years.back().year = *proposal.year;
        }
        BuildYear& year = years.back();
        year.what += (year.what.empty() ? "" : ", ") + place.source.id;
        year.cost += place.cost.value_or(0.0);
        spent += place.cost.value_or(0.0);
        year.put_by = static_cast<double>(year.year) * findings.yearly_budget.value_or(0.0) - spent;
        year.add_gain(findings.weights, proposal.added, proposal.together);
    }
    return years;
}

io::FeatureTable proposal_years(const ProposalFindings& findings) {
    return year_table({"proposal_years",
                       "The proposals dealt into years by the yearly budget; what a year does not "
                       "spend is put by for the next.",
                       "places", "Ids of the proposals."},
                      build_years(findings));
}

std::string years_text(const ProposalFindings& findings) {
    return findings.yearly_budget ? years_text(*findings.yearly_budget, build_years(findings))
                                  : std::string();
}

}  // namespace farwater::reports
