// Whether a shuttle that fills at two or three places at the same time holds more than one that
// fills at the best of them.
#pragma once

#include <optional>
#include <vector>

#include "analyzer/supply/filling/fill_option.h"
#include "analyzer/supply/filling/tanker_choice.h"
#include "analyzer/supply/incident.h"
#include "analyzer/supply/scene.h"
#include "analyzer/supply/several/fill_set.h"
#include "analyzer/supply/situation.h"

namespace farwater::supply {

// A plan over two or three: each takes a crew, and a suction point an engine.
struct SeveralSites {
    ShuttlePlan plan;
    std::vector<const FillOption*> sources;  // behind the incident's fill sites
    std::vector<RunBy> run_by;               // in the same order
};

struct SeveralQuestion {
    const Situation& situation;
    const Scene& scene;
    const std::vector<Tanker>& tankers;      // the scene's
    const std::vector<FillOption>& options;  // that somebody can fill at, the nearest first
    const PlanJudge& judge;
    std::size_t most_sites = 3;  // that there are people for
};

// The best plans that are found over two fill sites and then, where that is more, over three, when
// they are better than `alone`, the best with one; the last is the best, and there may be none. The
// splits over two sites that a steady stream puts first are run; the best is improved by moving
// single tankers, and then a third site is tried beside it. Bounds first: sets whose bound is no
// more than what was found are not run. Not proved best: of drawn cases with up to five tankers it
// is in five of six, and within 7 % in the others (tests/supply/several_sites_twin_test.cpp). About
// a tenth of a millisecond where nothing is found, half of one where something is.
std::vector<SeveralSites> improving_sets(const SeveralQuestion& question, const ShuttlePlan& alone);

}  // namespace farwater::supply
