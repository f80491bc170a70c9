#include "analyzer/app/propose.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>

#include <fmt/format.h>

#include "analyzer/planning/choose_sites.h"
#include "io/error.h"
#include "io/near_word.h"
#include "routing/roads_near_water.h"

namespace farwater::app {
namespace {

using planning::Candidate;
using planning::Change;

constexpr std::size_t usual_sites = 5;

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

std::uint32_t place_called(const planning::Candidates& found, const std::string& id) {
    std::vector<std::string_view> ids;
    for (const Candidate& candidate : found.candidates) {
        ids.push_back(candidate.source.id);
    }
    const auto place = std::ranges::find(ids, id);
    if (place != ids.end()) {
        return static_cast<std::uint32_t>(place - ids.begin());
    }
    const auto left_out = std::ranges::find(found.left_out, id, &planning::LeftOut::id);
    if (left_out != found.left_out.end()) {
        throw io::SettingsError(
            fmt::format("\"{}\" is no place to choose: {}", id, left_out->reason));
    }
    throw io::SettingsError(
        fmt::format("there is no place \"{}\"{}; the district has {} to choose "
                    "from",
                    id, io::did_you_mean(id, ids), ids.size()));
}

void rule(planning::ChoiceProblem& problem, const planning::Candidates& found,
          const std::vector<std::string>& ids, planning::Ruling ruling) {
    for (const std::string& id : ids) {
        planning::Ruling& of_place = problem.rulings[place_called(found, id)];
        if (of_place != planning::Ruling::open && of_place != ruling) {
            throw io::SettingsError(fmt::format("\"{}\" is both planned and ruled out", id));
        }
        of_place = ruling;
    }
}

planning::Cents cents_of(double money) {
    return static_cast<planning::Cents>(std::llround(money * 100.0));
}

// Everything but the offers.
planning::ChoiceProblem problem_of(const planning::Candidates& found, std::size_t parcels,
                                   const ProposeOptions& options) {
    planning::ChoiceProblem problem;
    problem.customers = parcels;
    problem.rulings.assign(found.candidates.size(), planning::Ruling::open);
    for (const Candidate& candidate : found.candidates) {
        problem.costs.push_back(cents_of(candidate.cost.value_or(0.0)));
    }
    rule(problem, found, options.planned, planning::Ruling::planned);
    rule(problem, found, options.ruled_out, planning::Ruling::ruled_out);
    if (options.budget) {
        problem.budget = cents_of(*options.budget);
    } else {
        problem.most_sites = options.sites.value_or(usual_sites);
    }
    return problem;
}

// What nobody has priced no budget buys; how many that are.
std::size_t rule_out_unpriced(planning::ChoiceProblem& problem, const planning::Candidates& found) {
    std::size_t count = 0;
    for (std::size_t i = 0; problem.budget && i < found.candidates.size(); ++i) {
        if (!found.candidates[i].cost && problem.rulings[i] == planning::Ruling::open) {
            problem.rulings[i] = planning::Ruling::ruled_out;
            ++count;
        }
    }
    return count;
}

// A place that gains nothing by itself, losses taken off, is none to choose.
void rule_out_idle(planning::ChoiceProblem& problem,
                   const std::vector<std::optional<planning::GainSum>>& alone) {
    for (std::size_t i = 0; i < alone.size(); ++i) {
        if (alone[i] && alone[i]->tenths <= 0 && problem.rulings[i] == planning::Ruling::open) {
            problem.rulings[i] = planning::Ruling::ruled_out;
        }
    }
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
        const planning::GainSum added = planning::sum_of(step);
        if (!planned && added.tenths <= 0) {
            sources.pop_back();
            ++findings.idle;
            continue;
        }
        if (!planned) {
            cost = cost && candidate.cost ? std::optional(*cost + *candidate.cost) : std::nullopt;
        }
        findings.proposals.push_back(
            {site, planned, added, planning::sum_of(now), cost, std::move(step)});
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

}  // namespace

std::optional<reports::ProposalFindings> propose(WhatIf& district, const ProposeOptions& options,
                                                 const Work& work, const StageBegins& begins) {
    const District& as_is = district.district();
    begins("places");
    const std::vector<RoadNearWater> near = routing::roads_near_water(
        as_is, district.profiles(), as_is.assumptions.new_pipe_reach, work);
    if (work.stopped()) {
        return std::nullopt;
    }
    reports::ProposalFindings findings{
        .district = as_is,
        .found = planning::find_candidates(as_is, district.water(), near),
        .budget = options.budget};
    count_as_it_is(findings, district);
    planning::ChoiceProblem problem = problem_of(findings.found, as_is.parcels.size(), options);
    if (!options.budget) {
        findings.sites = problem.most_sites;
    }
    findings.unpriced = rule_out_unpriced(problem, findings.found);

    begins(fmt::format("gains of {} places", findings.found.candidates.size()));
    const auto changes = changes_of_each(district, findings.found.candidates, problem, work);
    if (work.stopped()) {
        return std::nullopt;
    }
    for (std::size_t i = 0; i < changes.size(); ++i) {
        const bool asked = problem.rulings[i] != planning::Ruling::ruled_out;
        findings.alone.push_back(asked ? std::optional(planning::sum_of(changes[i]))
                                       : std::nullopt);
    }
    rule_out_idle(problem, findings.alone);
    problem.offers = planning::offers_of(changes);
    const planning::Choice choice = planning::choose_sites(problem);
    findings.gap = choice.gap();
    begins("chosen places together");
    add_proposals(findings, district, choice.sites, problem, work);
    return work.stopped() ? std::nullopt : std::optional(std::move(findings));
}

}  // namespace farwater::app
