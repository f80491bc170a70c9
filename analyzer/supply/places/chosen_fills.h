// How one case is filled: the fill sites at hand, the best of them by itself, the best together.
#pragma once

#include <cstddef>
#include <vector>

#include "analyzer/supply/filling/fill_option.h"
#include "analyzer/supply/filling/fingerprint.h"
#include "analyzer/supply/filling/plan_judge.h"
#include "analyzer/supply/filling/tanker_choice.h"
#include "analyzer/supply/incident.h"
#include "analyzer/supply/scene.h"
#include "analyzer/supply/situation.h"

namespace farwater::supply {

// That are run at the same time.
inline constexpr std::size_t most_fill_sites = 3;

// One dump site, one first arrival, one duration.
struct CaseQuestion {
    const Situation& situation;
    const Scene& scene;
    std::vector<Tanker> tankers;
    PlanJudge judge;
};

// A fill site that tankers can use, by itself.
struct SiteAlone {
    Incident incident;  // with all of them
    const CountedSource* source = nullptr;
    RunBy run_by;
    Incident most;    // slow, with one that nurses where one can: no choice is better
    HeldFlow flow{};  // no choice has a larger cautious flow
    TriedChoices tried;
    Fingerprint print;  // of the incident and the judge
};

struct SitesAtHand {
    std::vector<SiteAlone> alone;  // that somebody can fill at, the nearest first
    std::vector<FillOption> all;   // the same
    std::size_t quickest = 0;      // of them: does best with a quick choice of tankers
    Limit missing = Limit::no_source;
};

// Those of the scene's fill trips; each tried with a quick choice of tankers.
SitesAtHand sites_at_hand(const CaseQuestion& asked);

// Which tankers, and the source behind each of the incident's fill sites and who runs it.
struct ChosenFills {
    ShuttlePlan plan;
    std::vector<const CountedSource*> sources;
    std::vector<RunBy> run_by;
};

// By the situation's order; the nearer of equals. Every site is looked at in full, the one that
// does best with a quick choice first; where `bounded`, not those that another outdoes in
// everything, nor those whose bound is no more than `least` or no better than what was found. Where
// nothing can be held, or no more than `least`, the first site with all tankers may stand for it.
// Precondition: there is a site.
ChosenFills best_alone(const CaseQuestion& asked, const SitesAtHand& sites, bool bounded,
                       HeldFlow least);

// Over two fill sites, then over three where those hold more.
std::vector<ChosenFills> best_together(const CaseQuestion& asked, const SitesAtHand& sites,
                                       const ShuttlePlan& alone);

}  // namespace farwater::supply
