#include "analyzer/supply/places/chosen_fills.h"

#include <algorithm>
#include <functional>
#include <utility>

#include "analyzer/supply/bounds/choice_bound.h"
#include "analyzer/supply/incident_run.h"
#include "analyzer/supply/kept_choices.h"
#include "analyzer/supply/places/outdone.h"
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

// What was found for that fingerprint before, else what `search` finds.
template <class Search>
Choice known_or(KeptChoices* kept, const Fingerprint& print, const Search& search) {
    if (kept == nullptr) {
        return search();
    }
    if (const auto known = kept->find(print)) {
        return *known;
    }
    const Choice found = search();
    kept->keep(print, found);
    return found;
}

// Whether it is better than `least`, and the best of a quick choice where it is.
Merit quick_merit(const CaseQuestion& asked, SiteAlone& site, const Merit& least) {
    Fingerprint print = site.print;
    print.add(static_cast<std::uint64_t>(least.begins.value_or(-1)));
    print.add(static_cast<std::uint64_t>(least.gap));
    print.add(static_cast<std::uint64_t>(in_tenths(least.flow)));
    const auto search = [&] {
        return Choice{.merit = quick_choice(site.incident, asked.judge, least, site.tried)};
    };
    return known_or(asked.situation.kept, print, search).merit;
}

// Asked for by itself: what a search finds depends on what it is asked to exceed, and then a
// further fill site could lower the answer.
Choice full_choice_at(const CaseQuestion& asked, const SiteAlone& site) {
    return known_or(asked.situation.kept, site.print,
                    [&] { return full_choice(site.incident, asked.judge, Merit{}, site.tried); });
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
        SiteAlone site{std::move(plan.incident), option.source, plan.run_by, {}, {}, {}, {}};
        site.print = asked.judge.added_to(fingerprint_of(site.incident));
        const Merit quick = quick_merit(asked, site, best);
        if (better(quick, best)) {
            best = quick;
            sites.quickest = sites.alone.size();
        }
        site.most = with_nursing(slowed(site.incident, asked.judge.factor()));
        site.flow = held(window_bound(site.most, asked.judge.window()));
        sites.alone.push_back(std::move(site));
        sites.all.push_back(std::move(option));
    }
    return sites;
}

ChosenFills best_alone(const CaseQuestion& asked, const SitesAtHand& sites, bool bounded,
                       HeldFlow least) {
    const std::vector<const SiteAlone*> order = most_promising_first(sites, bounded);
    const SiteAlone* best_site = order.front();
    Choice best;
    for (const SiteAlone* site : order) {
        if (bounded &&
            (site->flow <= least || !asked.judge.may_be_better_than(best.merit, site->most))) {
            continue;
        }
        const Choice choice = full_choice_at(asked, *site);
        if (choice.running != 0 && better(choice.merit, best.merit)) {
            best = choice;
            best_site = site;
        }
    }
    ChosenFills chosen{{}, {best_site->source}, {best_site->run_by}};
    chosen.plan =
        best.running != 0
            ? plan_by(asked.judge, best_site->incident, best)
            : ShuttlePlan{
                  best_site->incident, slowed(best_site->incident, asked.judge.factor()), {}, {}};
    return chosen;
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
