#include "analyzer/app/place_rulings.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <string_view>

#include <fmt/format.h>

#include "io/error.h"
#include "io/near_word.h"

namespace farwater::app {
namespace {

using planning::Candidate;

constexpr std::size_t usual_sites = 5;

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

}  // namespace

planning::Cents cents_of(double money) {
    return static_cast<planning::Cents>(std::llround(money * 100.0));
}

planning::ChoiceProblem problem_of(const planning::Candidates& found, std::size_t parcels,
                                   const ChoiceTerms& terms) {
    planning::ChoiceProblem problem;
    problem.customers = parcels;
    problem.rulings.assign(found.candidates.size(), planning::Ruling::open);
    for (const Candidate& candidate : found.candidates) {
        problem.costs.push_back(cents_of(candidate.cost.value_or(0.0)));
    }
    rule(problem, found, terms.planned, planning::Ruling::planned);
    rule(problem, found, terms.ruled_out, planning::Ruling::ruled_out);
    if (terms.budget) {
        problem.budget = cents_of(*terms.budget);
    } else {
        problem.most_sites = terms.sites.value_or(usual_sites);
    }
    return problem;
}

std::size_t rule_out_unpriced(planning::ChoiceProblem& problem, const planning::Candidates& found,
                              const ChoiceTerms& terms) {
    std::size_t count = 0;
    const bool to_be_paid = terms.budget || terms.yearly_budget;
    for (std::size_t i = 0; to_be_paid && i < found.candidates.size(); ++i) {
        if (!found.candidates[i].cost && problem.rulings[i] == planning::Ruling::open) {
            problem.rulings[i] = planning::Ruling::ruled_out;
            ++count;
        }
    }
    return count;
}

}  // namespace farwater::app
