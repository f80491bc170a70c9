// The plan of a full choice of tankers.
#pragma once

#include <optional>

#include "analyzer/supply/filling/tanker_choice.h"

namespace farwater::supply {

// None: nothing is better than `least`.
inline std::optional<ShuttlePlan> chosen_plan(const Incident& incident, const PlanJudge& judge,
                                              const Merit& least = {},
                                              const TriedChoices& tried = {}) {
    const Choice choice = full_choice(incident, judge, least, tried);
    return choice.running == 0 ? std::nullopt : std::optional(plan_by(judge, incident, choice));
}

}  // namespace farwater::supply
