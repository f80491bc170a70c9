// From places and terms to a problem of choice: what each costs, which are decided, which are
// out.
#pragma once

#include "analyzer/district/choice_terms.h"
#include "analyzer/planning/candidates.h"
#include "analyzer/planning/choice_problem.h"

namespace farwater::app {

planning::Cents cents_of(double money);

// Everything but the offers. Throws SettingsError where an id of the terms is none of the
// places'.
planning::ChoiceProblem problem_of(const planning::Candidates& found, std::size_t parcels,
                                   const ChoiceTerms& terms);

// What nobody has priced no budget buys, of all years or of each; how many that are.
std::size_t rule_out_unpriced(planning::ChoiceProblem& problem, const planning::Candidates& found,
                              const ChoiceTerms& terms);

}  // namespace farwater::app
