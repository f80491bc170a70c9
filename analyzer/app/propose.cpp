#include "analyzer/app/propose.h"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "analyzer/app/place_rulings.h"
#include "analyzer/planning/building_years.h"
#include "analyzer/planning/choose_sites.h"
#include "io/error.h"
#include "routing/roads_near_water.h"
#include "routing/roadside_places.h"

namespace farwater::app {
namespace {

using planning::Candidate;
using planning::Change;

// Answers to questions of the same kind, one after the other: how many are done, not their stages.
Work told_by_number(const Work& work) {
    Work quiet = work;
    quiet.progress = nullptr;
    return quiet;
}

// Of those that are not ruled out; the others have none.
std::vector<std::vector<Change>> changes_of_each(WhatIf& district,
                                                 const std::vector<Candidate>& candidates,
                                                 const planning::ChoiceProblem& problem,
                                                 const Work& work) {
    std::vector<std::vector<Change>> changes(candidates.size());
    const Work quiet = told_by_number(work);
    for (std::size_t i = 0; i < candidates.size() && !work.stopped(); ++i) {
        work.step("gains", i, candidates.size());
        if (problem.rulings[i] != planning::Ruling::ruled_out) {
            changes[i] = district.with(std::span(&candidates[i].source, 1), quiet);
        }
    }
    return changes;
}

// The chosen sites worked out together, one more at a time; those that then add nothing are left
// out.
void add_proposals(reports::ProposalFindings& findings, WhatIf& district,
                   const planning::Sites& sites, const planning::ChoiceProblem& problem,
                   const Work& work) {
    std::vector<WaterSource> sources;
    std::vector<Change> before;
    std::optional<double> cost = 0.0;
    const Work quiet = told_by_number(work);
    for (const std::uint32_t site : sites) {
        const Candidate& candidate = findings.found.candidates[site];
        const bool planned = problem.rulings[site] == planning::Ruling::planned;
        work.step("together", sources.size(), sites.size());
        sources.push_back(candidate.source);
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
    findings.held_back_by.assign(words_of(Limit{}).size(), 0);
    for (std::size_t row = 0; row < district.district().parcels.size(); ++row) {
        const supply::ParcelSupply& supply = district.answers()[row];
        if (supply.state == SupplyState::no_building) {
            continue;
        }
        ++findings.improved;
        if (supply.state == SupplyState::held) {
            ++findings.held;
        } else {
            ++findings.held_back_by[static_cast<std::size_t>(supply.limit)];
        }
        const int missing = in_tenths(supply.needed) - in_tenths(planning::flow_from_start(supply));
        findings.short_of_gpm += std::max(0, missing) / 10.0;
    }
}

// Planned places have no year: they are paid otherwise.
void set_years(std::vector<reports::Proposal>& proposals, const planning::ChoiceProblem& problem,
               planning::Cents yearly) {
    std::vector<planning::Cents> costs;
    for (const reports::Proposal& proposal : proposals) {
        if (!proposal.planned) {
            costs.push_back(problem.costs[proposal.candidate]);
        }
    }
    const std::vector<planning::Cents> years = planning::years_of_building(costs, yearly);
    auto next = years.begin();
    for (reports::Proposal& proposal : proposals) {
        if (!proposal.planned) {
            proposal.year = *next++;
        }
    }
}

planning::Weights weights_of(const District& district, WeighBy by) {
    planning::Weights weights = planning::weights_by(by, district);
    if (weights.all_nothing()) {
        throw io::SettingsError(fmt::format(
            "no property has a {} to weigh by: map its column in [parcels], or weigh by parcels",
            by == WeighBy::building_area ? "building with an area" : word(by)));
    }
    return weights;
}

// None when stopped.
std::optional<planning::Candidates> places_of(const WhatIf& district,
                                              const planning::Weights& weights, const Work& work) {
    const District& as_is = district.district();
    const std::vector<RoadNearWater> near = routing::roads_near_water(
        as_is, district.profiles(), as_is.assumptions.new_pipe_reach, work);
    const std::vector<RoadsidePlace> roadside =
        routing::roadside_places(as_is, district.network(), district.profiles(), work);
    if (work.stopped()) {
        return std::nullopt;
    }
    const std::vector<planning::Gain> missing =
        planning::missing_flow(district.answers(), as_is.parcels.size(), weights);
    return planning::find_candidates(as_is, district.water(), {near, roadside, missing});
}

planning::Sites chosen_sites(reports::ProposalFindings& findings,
                             const planning::ChoiceProblem& problem,
                             const ProposeOptions& options) {
    const planning::Choice choice = planning::choose_sites(
        problem, options.exact ? std::optional(options.exact_seconds) : std::nullopt);
    findings.gap = choice.gap();
    findings.proof = choice.proof;
    return options.yearly_budget ? planning::order_of_building(problem, choice.sites,
                                                               cents_of(*options.yearly_budget))
                                 : choice.sites;
}

}  // namespace

std::optional<reports::ProposalFindings> propose(WhatIf& district, const ProposeOptions& options,
                                                 const Work& work, const StageBegins& begins) {
    const District& as_is = district.district();
    begins("places");
    planning::Weights weights = weights_of(as_is, options.weigh_by);
    std::optional<planning::Candidates> found = places_of(district, weights, work);
    if (!found) {
        return std::nullopt;
    }
    reports::ProposalFindings findings{.district = as_is,
                                       .found = std::move(*found),
                                       .weights = std::move(weights),
                                       .budget = options.budget,
                                       .yearly_budget = options.yearly_budget};
    count_as_it_is(findings, district);
    planning::ChoiceProblem problem = problem_of(findings.found, as_is.parcels.size(), options);
    if (!options.budget) {
        findings.sites = problem.most_sites;
    }
    findings.unpriced = rule_out_unpriced(problem, findings.found, options);

    begins(fmt::format("gains of {} places", findings.found.candidates.size()));
    const auto changes = changes_of_each(district, findings.found.candidates, problem, work);
    if (work.stopped()) {
        return std::nullopt;
    }
    for (std::size_t i = 0; i < changes.size(); ++i) {
        const bool asked = problem.rulings[i] != planning::Ruling::ruled_out;
        findings.alone.push_back(
            asked ? std::optional(planning::sum_of(changes[i], findings.weights)) : std::nullopt);
    }
    rule_out_idle(problem, findings.alone);
    problem.offers = planning::offers_of(changes, findings.weights);
    const planning::Sites sites = chosen_sites(findings, problem, options);
    begins("chosen places together");
    add_proposals(findings, district, sites, problem, work);
    if (options.yearly_budget) {
        set_years(findings.proposals, problem, cents_of(*options.yearly_budget));
    }
    return work.stopped() ? std::nullopt : std::optional(std::move(findings));
}

}  // namespace farwater::app
