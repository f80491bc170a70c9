#include "analyzer/supply/places/chosen_fills.h"

#include <algorithm>
#include <functional>
#include <utility>

#include "analyzer/supply/bounds/choice_bound.h"
#include "analyzer/supply/incident_run.h"
#include "analyzer/supply/places/outdone.h"
#include "analyzer/supply/places/shuttle_case.h"
#include "analyzer/supply/several/several_sites.h"

namespace farwater::supply {
namespace {

// Whether another fill site is as good in everything; of two that are equal, the farther is.
bool is_outdone(const SitesAtHand& sites, std::size_t site) {
    const auto choice = [&](std::size_t one) {
        return FillChoice{sites.all[one], sites.alone[one].incident.fill_sites.front()};
    };
    for (std::size_t other = 0; other < sites.alone.size(); ++other) {
        if (other != site && outdoes(choice(other), choice(site)) &&
            (other < site || !outdoes(choice(site), choice(other)))) {
            return true;
        }
    }
    return false;
}

// The one that does best with a quick choice, then those that may hold most; the nearer of equals.
std::vector<const SiteAlone*> most_promising_first(const SitesAtHand& sites, bool bounded) {
    std::vector<const SiteAlone*> order{&sites.alone[sites.quickest]};
    for (std::size_t site = 0; site < sites.alone.size(); ++site) {
        if (site != sites.quickest && !(bounded && is_outdone(sites, site))) {
            order.push_back(&sites.alone[site]);
        }
    }
    std::ranges::stable_sort(order.begin() + 1, order.end(), std::greater<>{},
                             [](const SiteAlone* option) { return option->flow; });
    return order;
}

}  // namespace

SitesAtHand sites_at_hand(const CaseQuestion& asked) {
    SitesAtHand sites;
    Merit best;
    for (const FillTrip& trip : asked.situation.trips.fill_trips[asked.scene.approach.position()]) {
        FillOption option = fill_option(asked.situation, asked.scene, asked.tankers, trip);
        FillPlan plan = plan_alone(asked.situation, asked.scene, asked.tankers, option);
        if (!plan.usable()) {
            sites.missing = plan.missing;
            continue;
        }
        TriedChoices tried;
        const Merit quick = quick_choice(plan.incident, asked.judge, best, tried);
        if (better(quick, best)) {
            best = quick;
            sites.quickest = sites.alone.size();
        }
        Incident most = with_nursing(slowed(plan.incident, asked.judge.factor()));
        const HeldFlow flow = held(window_bound(most, asked.judge.window()));
        sites.alone.push_back({std::move(plan.incident), option.source, plan.run_by,
                               std::move(most), flow, std::move(tried)});
        sites.all.push_back(std::move(option));
    }
    return sites;
}

ChosenFills best_alone(const CaseQuestion& asked, const SitesAtHand& sites, bool bounded,
                       HeldFlow least) {
    const std::vector<const SiteAlone*> order = most_promising_first(sites, bounded);
    const SiteAlone& first = *order.front();
    ChosenFills best{{first.incident, slowed(first.incident, asked.judge.factor()), {}, {}},
                     {first.source},
                     {first.run_by}};
    for (const SiteAlone* option : order) {
        if (bounded && (option->flow <= least ||
                        !asked.judge.may_be_better_than(best.plan.merit, option->most))) {
            continue;
        }
        // Asked for by itself: what a search finds depends on what it is asked to exceed, and then
        // a further fill site could lower the answer.
        auto plan = full_choice(option->incident, asked.judge, Merit{}, option->tried);
        if (plan && better(plan->merit, best.plan.merit)) {
            best = {std::move(*plan), {option->source}, {option->run_by}};
        }
    }
    return best;
}

std::vector<ChosenFills> best_together(const CaseQuestion& asked, const SitesAtHand& sites,
                                       const ShuttlePlan& alone) {
    const SeveralQuestion question{asked.situation, asked.scene, asked.tankers,
                                   sites.all,       asked.judge, most_fill_sites};
    std::vector<ChosenFills> found;
    for (SeveralSites& several : improving_sets(question, alone)) {
        ChosenFills chosen{std::move(several.plan), {}, std::move(several.run_by)};
        for (const FillOption* option : several.sources) {
            chosen.sources.push_back(option->source);
        }
        found.push_back(std::move(chosen));
    }
    return found;
}

}  // namespace farwater::supply
