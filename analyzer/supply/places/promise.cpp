#include "analyzer/supply/places/promise.h"

#include <algorithm>
#include <vector>

#include "analyzer/supply/bounds/choice_bound.h"
#include "analyzer/supply/filling/fill_option.h"
#include "analyzer/supply/handbook.h"
#include "analyzer/supply/incident_run.h"
#include "analyzer/supply/places/crew.h"
#include "analyzer/supply/places/shuttle_case.h"
#include "analyzer/supply/plan_order.h"
#include "analyzer/supply/several/fill_split.h"

namespace farwater::supply {
namespace {

class PromiseOf {
public:
    PromiseOf(const Situation& situation, const Scene& scene, Duration duration)
        : situation_(situation),
          scene_(scene),
          window_(window_of(situation, scene, duration)),
          later_(window_),
          factor_(cautious_factor(situation.district.assumptions)),
          tankers_(tankers_of(situation, scene)) {
        later_.start = std::max(later_.start, situation.district.assumptions.late_horizon);
    }

    Promise alone() {
        Promise best;
        for (const FillTrip& trip : situation_.trips.fill_trips[scene_.approach.position()]) {
            FillOption option = fill_option(situation_, scene_, tankers_, trip);
            FillPlan plan = plan_alone(situation_, scene_, tankers_, option);
            if (plan.usable()) {
                plan.incident.dump_site.flow_cap = scene_.line.draft;  // no line gives more
                add(best, slowed(plan.incident, factor_));
                options_.push_back(std::move(option));
            }
        }
        return best;
    }

    // Call after alone().
    void add_together(Promise& best) const {
        const CrewThere crew = crew_there(situation_, scene_, window_.start);
        if (options_.size() < 2 ||
            fill_sites_manned(situation_.district.assumptions, crew, 1, 2) < 2) {
            return;
        }
        Incident bare = incident_at(situation_, scene_);
        bare.dump_site.flow_cap = scene_.line.draft;
        const SplitIncidents all(bare, tankers_, all_run(), factor_);
        best.most = std::max(best.most, held(window_bound(all.most(), window_)));
        bare.initial_attack.flow = gpm(0);
        const SplitIncidents unattacked(bare, tankers_, all_run(), factor_);
        best.later = std::max(best.later, held(window_bound(unattacked.most(), later_)));
    }

private:
    void add(Promise& best, Incident slow) const {
        const HeldFlow most = choice_bound(slow, window_);
        best.likely = std::max(best.likely, std::min(most, held(resource_bound(slow, window_))));
        best.most = std::max(best.most, most);
        slow.initial_attack.flow = gpm(0);
        best.later = std::max(best.later, choice_bound(slow, later_));
    }

    // Each by whoever is first and by whatever pumps most, as if they were free for all.
    FillSet all_run() const {
        FillSet set;
        for (const FillOption& option : options_) {
            set.options.push_back(&option);
            set.engines.emplace_back();
            set.sites.push_back(best_run(situation_, scene_, option));
        }
        return set;
    }

    const Situation& situation_;
    const Scene& scene_;
    Window window_, later_;
    double factor_;
    std::vector<Tanker> tankers_;
    std::vector<FillOption> options_;
};

SupplyState best_state(const Promise& promise, HeldFlow needed) {
    const HeldFlow some = std::max(promise.most, promise.later);
    return promise.most >= needed ? SupplyState::held
           : some >= needed       ? SupplyState::late
           : in_tenths(some) > 0  ? SupplyState::short_flow
                                  : SupplyState::tank_only;
}

}  // namespace

Promise promise_of(const Situation& situation, const Scene& scene, Duration duration) {
    if (scene.missing != Limit::none) {
        return {.reached = !scene.tankers.empty()};
    }
    PromiseOf promise(situation, scene, duration);
    Promise best = promise.alone();
    promise.add_together(best);
    best.reached = true;
    return best;
}

Promise through(Promise promise, HeldFlow line) {
    return {std::min(promise.likely, line), std::min(promise.most, line),
            std::min(promise.later, line), promise.reached};
}

bool may_be_better(const Promise& promise, const ParcelSupply& found) {
    const int severity = severity_of(best_state(promise, found.needed));
    return severity != severity_of(found.state)
               ? severity < severity_of(found.state)
               : leaves_a_doubt(found) || promise.most > found.cautious ||
                     (is_cut_off(found) && promise.reached);
}

HeldFlow to_exceed(const Promise& promise, const ParcelSupply& found) {
    const bool may_be_late =
        found.state == SupplyState::short_flow && promise.later >= found.needed;
    return may_be_late             ? HeldFlow{}
           : leaves_a_doubt(found) ? tenths_of_gpm(in_tenths(found.needed) - 1)
                                   : found.cautious;
}

bool promises_more(const Promise& a, const Promise& b, HeldFlow needed) {
    const int severity_a = severity_of(best_state(a, needed));
    const int severity_b = severity_of(best_state(b, needed));
    return severity_a != severity_b ? severity_a < severity_b : a.most > b.most;
}

}  // namespace farwater::supply
