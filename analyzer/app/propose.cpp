#include "analyzer/app/propose.h"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "analyzer/app/place_rulings.h"
#include "analyzer/app/weights_asked.h"
#include "analyzer/planning/building_years.h"
#include "analyzer/planning/lazy_choice.h"
#include "analyzer/planning/stand_ins.h"
#include "routing/roadside_places.h"

namespace farwater::app {
namespace {

using planning::Candidate;
using planning::Change;

// What each place could offer at most: all that is missing of the parcels that it may change, which
// is told by its trips with no road closed.
planning::ChoiceProblem with_bounds(planning::ChoiceProblem problem, const WhatIf& district,
                                    reports::ProposalFindings& findings, const Work& work) {
    const District& as_is = district.district();
    const std::vector<planning::Gain> missing =
        planning::missing_flow(district.answers(), as_is.parcels.size(), findings.weights);
    std::vector<std::vector<std::uint32_t>> may_change(problem.rulings.size());
    for_each_chunk(work, "places", may_change.size(), 1, [&](std::size_t begin, std::size_t end) {
        for (std::size_t i = begin; i < end && !work.stopped(); ++i) {
            if (problem.rulings[i] != planning::Ruling::ruled_out) {
                may_change[i] = district.may_change(static_cast<std::uint32_t>(i));
            }
        }
    });
    problem.offers = {};
    for (const std::vector<std::uint32_t>& rows : may_change) {
        planning::Gain most = 0;
        for (const std::uint32_t row : rows) {
            if (missing[row] > 0) {
                problem.offers.items.push_back({row, missing[row]});
                most += missing[row];
            }
        }
        problem.offers.close_row();
        findings.at_most.push_back(most);
    }
    return problem;
}

// Works out places as the choice asks for them; what each gains alone goes to the findings.
class PlacesWorkedOut {
public:
    PlacesWorkedOut(WhatIf& district, reports::ProposalFindings& findings, const Work& work)
        : district_(district), findings_(findings), work_(work), quiet_(work.told_by_number()) {
        findings.alone.resize(findings.found.candidates.size());
    }

    std::optional<planning::WorkedOut> operator()(std::uint32_t site) {
        work_.step("gains", count_++, findings_.alone.size());
        const std::vector<Change> changes = district_.gains_of(site, quiet_);
        if (work_.stopped()) {
            return std::nullopt;
        }
        const planning::GainSum sum = planning::sum_of(changes, findings_.weights);
        findings_.alone[site] = sum;
        return planning::WorkedOut{planning::offers_of(changes, findings_.weights),
                                   sum.weighted <= 0};
    }

private:
    WhatIf& district_;
    reports::ProposalFindings& findings_;
    const Work& work_;
    Work quiet_;
    std::size_t count_ = 0;
};

// The chosen sites worked out together, one more at a time; those that then add nothing are left
// out.
void add_proposals(reports::ProposalFindings& findings, WhatIf& district,
                   const planning::Sites& sites, const planning::ChoiceProblem& problem,
                   const Work& work) {
    std::vector<std::uint32_t> sources;
    std::vector<Change> before;
    std::optional<double> cost = 0.0;
    const Work quiet = work.told_by_number();
    for (const std::uint32_t site : sites) {
        const Candidate& candidate = findings.found.candidates[site];
        const bool planned = problem.rulings[site] == planning::Ruling::planned;
        work.step("together", sources.size(), sites.size());
        sources.push_back(site);
        std::vector<Change> now = district.with(sources, quiet);
        if (work.stopped()) {
            return;
        }
        std::vector<Change> step = planning::last_step(before, now);
        const planning::GainSum added = planning::sum_of(step, findings.weights);
        if (!planned && added.weighted <= 0) {
            sources.pop_back();
            ++findings.idle;
            continue;
        }
        if (!planned) {
            cost = cost && candidate.cost ? std::optional(*cost + *candidate.cost) : std::nullopt;
        }
        findings.proposals.push_back({site, planned, added, planning::sum_of(now, findings.weights),
                                      cost, std::nullopt, std::move(step)});
        before = std::move(now);
    }
}

void count_as_it_is(reports::ProposalFindings& findings, const WhatIf& district) {
    const auto of_parcels = std::span(district.answers()).first(district.district().parcels.size());
    findings.now = reports::as_it_is(of_parcels);
    findings.held_back_by.assign(words_of(Limit{}).size(), 0);
    for (const supply::ParcelSupply& supply : of_parcels) {
        if (supply.state != SupplyState::no_building && supply.state != SupplyState::held) {
            ++findings.held_back_by[static_cast<std::size_t>(supply.limit)];
        }
    }
}

// Planned places have no year: they are paid otherwise.
void set_years(std::vector<reports::Proposal>& proposals, const planning::ChoiceProblem& problem,
               planning::Cents yearly) {
    std::vector<planning::Outlay> outlays;
    for (const reports::Proposal& proposal : proposals) {
        if (!proposal.planned) {
            outlays.push_back({.cost = problem.costs[proposal.candidate]});
        }
    }
    const std::vector<planning::Cents> years = planning::years_of_building(outlays, yearly);
    auto next = years.begin();
    for (reports::Proposal& proposal : proposals) {
        if (!proposal.planned) {
            proposal.year = *next++;
        }
    }
}

// None when stopped.
std::optional<planning::Candidates> places_of(const WhatIf& district,
                                              std::span<const RoadNearWater> pipes,
                                              const planning::Weights& weights, const Work& work) {
    const District& as_is = district.district();
    const std::vector<RoadsidePlace> roadside =
        routing::roadside_places(as_is, district.network(), district.profiles(), work);
    if (work.stopped()) {
        return std::nullopt;
    }
    const std::vector<planning::Gain> missing =
        planning::missing_flow(district.answers(), as_is.parcels.size(), weights);
    return planning::find_candidates(as_is, district.water(), {pipes, roadside, missing});
}

planning::Sites in_asked_order(const planning::LazyChoice& chosen, const ChoiceTerms& terms) {
    const planning::Sites& sites = chosen.choice.sites;
    return terms.yearly_budget
               ? planning::order_of_building(chosen.problem, sites, cents_of(*terms.yearly_budget))
               : sites;
}

}  // namespace

std::optional<reports::ProposalFindings> propose(WhatIf& district,
                                                 std::span<const RoadNearWater> pipes,
                                                 const ProposeOptions& options, const Work& work,
                                                 const StageBegins& begins) {
    const District& as_is = district.district();
    const ChoiceTerms& terms = options.terms;
    begins("places");
    planning::Weights weights = weights_asked(as_is, terms.weigh_by);
    std::optional<planning::Candidates> found = places_of(district, pipes, weights, work);
    if (!found) {
        return std::nullopt;
    }
    reports::ProposalFindings findings{.district = as_is,
                                       .found = std::move(*found),
                                       .weights = std::move(weights),
                                       .budget = terms.budget,
                                       .yearly_budget = terms.yearly_budget};
    count_as_it_is(findings, district);
    planning::ChoiceProblem problem = problem_of(findings.found, as_is.parcels.size(), terms);
    if (!terms.budget) {
        findings.sites = problem.most_sites;
    }
    findings.standing_by = planning::let_stand_by(findings.found.candidates, problem.rulings);
    findings.unpriced = rule_out_unpriced(problem, findings.found, terms);

    std::vector<WaterSource> sources;
    for (const Candidate& candidate : findings.found.candidates) {
        sources.push_back(candidate.source);
    }
    district.offer(std::move(sources));
    begins(fmt::format("gains of {} places", findings.found.candidates.size()));
    PlacesWorkedOut worked_out(district, findings, work);
    const std::optional<planning::LazyChoice> chosen = planning::choose_lazily(
        with_bounds(std::move(problem), district, findings, work), std::ref(worked_out),
        options.exact ? std::optional(options.exact_seconds) : std::nullopt, options.every_gain);
    if (!chosen || work.stopped()) {
        return std::nullopt;
    }
    findings.gap = chosen->choice.gap();
    findings.proof = chosen->choice.proof;
    begins("chosen places together");
    add_proposals(findings, district, in_asked_order(*chosen, terms), chosen->problem, work);
    if (terms.yearly_budget) {
        set_years(findings.proposals, chosen->problem, cents_of(*terms.yearly_budget));
    }
    return work.stopped() ? std::nullopt : std::optional(std::move(findings));
}

}  // namespace farwater::app
