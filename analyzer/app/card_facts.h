// What run cards need beyond the findings: how the answer of each dump site's worst place came
// about, and its ways as lines.
#pragma once

#include <optional>
#include <vector>

#include "analyzer/app/analysis.h"
#include "analyzer/app/stages.h"
#include "reports/cards/card_book.h"

namespace farwater::app {

struct CardFacts {
    std::vector<reports::CardSite> sites;
    std::vector<supply::Working> workings;  // of each site's worst place
    RoutesInUse routes;                     // of the worst places; by row as the analysis'
};

// Goes the way of the data a second time, with the worst places alone: the lists that their answers
// were worked out from are let go of where a season ends, and those of all places would outweigh
// the rest. `needs` are all, as the analysis had them. None when stopped.
std::optional<CardFacts> card_facts(const District& district,
                                    const std::vector<std::optional<Need>>& needs,
                                    const Analysis& analysis, const Work& work,
                                    const StageBegins& begins);

}  // namespace farwater::app
