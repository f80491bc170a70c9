#include "analyzer/supply/filling/tanker_choice.h"

#include <algorithm>
#include <numeric>
#include <utility>
#include <vector>

#include "analyzer/supply/handbook.h"
#include "analyzer/supply/incident_run.h"
#include "analyzer/supply/visits.h"

namespace farwater::supply {
namespace {

// How a tanker uses what may be scarce.
struct Use {
    double slot = 0.0;   // minutes of an offload slot per load, with the drive in single file
    double place = 0.0;  // minutes of a fill place per load
    double cycle = 0.0;  // minutes of an undisturbed round trip
    double load = 0.0;   // gallons delivered
};

std::vector<Use> uses_of(const Incident& incident) {
    std::vector<Use> uses;
    uses.reserve(incident.tankers.size());
    for (const Tanker& tanker : incident.tankers) {
        const FillSite& site = incident.fill_sites[tanker.fill_site];
        uses.push_back({.slot = in_minutes(slot_visit(incident.dump_site, tanker)),
                        .place = in_minutes(fill_visit(site, tanker).in_place()),
                        .cycle = in_minutes(undisturbed_cycle(incident, tanker)),
                        .load = in_gallons(tanker.delivered)});
    }
    return uses;
}

using Scarce = double Use::*;

// Of equals the last to arrive comes first.
std::vector<std::size_t> most_worth_first(const std::vector<Use>& uses, Scarce scarce) {
    std::vector<std::size_t> order(uses.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::ranges::stable_sort(
        order, {}, [&](std::size_t tanker) { return uses[tanker].load / (uses[tanker].*scarce); });
    std::ranges::reverse(order);
    return order;
}

// How many in this order keep the slots or the places busy, at least one.
std::size_t busy_with(const Incident& incident, const std::vector<Use>& uses,
                      const std::vector<std::size_t>& order) {
    double slots = incident.dump_site.offload_slots;
    std::vector<double> places;
    for (const FillSite& site : incident.fill_sites) {
        places.push_back(site.places);
    }
    for (std::size_t count = 0; count < order.size(); ++count) {
        const Use& use = uses[order[count]];
        slots -= use.slot / use.cycle;
        double& left = places[incident.tankers[order[count]].fill_site];
        left -= use.place / use.cycle;
        if (slots <= 0.0 || left <= 0.0) {
            return count + 1;
        }
    }
    return order.size();
}

bool runs(Running running, std::size_t tanker) { return (running >> tanker & 1U) != 0; }
Running only(std::size_t tanker) { return Running{1} << tanker; }

// The tankers that run, in the order of their arrival, into what there is.
void take_only(Incident& fewer, const Incident& incident, Running running, int nursing) {
    fewer.dump_site = incident.dump_site;
    fewer.dump_site.nursing_tankers = nursing;
    fewer.fill_sites = incident.fill_sites;
    fewer.initial_attack = incident.initial_attack;
    fewer.tankers.clear();
    for (std::size_t tanker = 0; tanker < incident.tankers.size(); ++tanker) {
        if (runs(running, tanker)) {
            fewer.tankers.push_back(incident.tankers[tanker]);
        }
    }
}

Incident with_only(const Incident& incident, Running running, int nursing) {
    Incident fewer;
    take_only(fewer, incident, running, nursing);
    return fewer;
}

Running first_of(const std::vector<std::size_t>& order, std::size_t count) {
    Running running = 0;
    for (std::size_t i = 0; i < count; ++i) {
        running |= only(order[i]);
    }
    return running;
}

// Looks for choices that are better than what is known, and keeps the best.
class ChoiceSearch {
public:
    ChoiceSearch(const Incident& incident, const Incident& slow, const PlanJudge& judge,
                 const Merit& least, TriedChoices& tried)
        : plain_(incident),
          slow_(slow),
          judge_(judge),
          tried_(tried),
          uses_(uses_of(slow)),
          best_{0, 0, least} {}

    const Choice& best() const { return best_; }

    // The first tankers in order of their worth, as many as keep slots or places busy, then more,
    // and fewer if more gained nothing.
    void try_first_of(Scarce scarce, int nursing) {
        const std::vector<std::size_t> order = most_worth_first(uses_, scarce);
        const std::size_t busy = busy_with(slow_, uses_, order);
        if (!try_more(order, busy, nursing)) {
            try_fewer(order, busy, nursing);
        }
    }

    // Turns one tanker in or out, or one to nursing or none, or, where one nurses, two at once, as
    // long as that gains. Precondition: there is a best.
    void polish() {
        while (try_one_changed() || (best_.nursing > 0 && try_two_changed())) {
        }
    }

private:
    static constexpr std::size_t patience = 2;  // choices that gain nothing, one after another

    bool try_more(const std::vector<std::size_t>& order, std::size_t busy, int nursing) {
        bool gained = false;
        for (std::size_t count = busy, last = count + patience;
             count <= std::min(last, order.size()); ++count) {
            if (try_choice(first_of(order, count), nursing)) {
                gained = count > busy;
                last = count + patience;
            }
        }
        return gained;
    }

    // Fewer tankers have no higher bound.
    void try_fewer(const std::vector<std::size_t>& order, std::size_t busy, int nursing) {
        for (std::size_t count = busy - 1, waited = 0; count > 0 && waited < patience; --count) {
            take_only(fewer_, slow_, first_of(order, count), nursing);
            if (!judge_.may_be_better_than(best_.merit, fewer_)) {
                return;
            }
            waited = try_choice(first_of(order, count), nursing) ? 0 : waited + 1;
        }
    }

    bool try_one_changed() {
        const Choice from = best_;
        for (std::size_t tanker = 0; tanker < uses_.size(); ++tanker) {
            try_choice(from.running ^ only(tanker), from.nursing);
        }
        if (one_can_nurse(slow_)) {
            try_choice(from.running, 1 - from.nursing);
        }
        return better(best_.merit, from.merit);
    }

    // Exchanges, and whatever makes another tanker the one that nurses: that gains by two more or
    // two fewer at once.
    bool try_two_changed() {
        const Choice from = best_;
        for (std::size_t one = 0; one < uses_.size(); ++one) {
            for (std::size_t other = one + 1; other < uses_.size(); ++other) {
                const Running running = from.running ^ only(one) ^ only(other);
                const bool exchange = runs(from.running, one) != runs(from.running, other);
                if (exchange || first_that_nurses(running) != first_that_nurses(from.running)) {
                    try_choice(running, from.nursing);
                }
            }
        }
        return better(best_.merit, from.merit);
    }

    // Of those that run, in the order of their arrival; all where none can.
    std::size_t first_that_nurses(Running running) const {
        std::size_t tanker = 0;
        while (tanker < uses_.size() &&
               !(runs(running, tanker) && slow_.tankers[tanker].can_nurse)) {
            ++tanker;
        }
        return tanker;
    }

    bool try_choice(Running running, int nursing) {
        if (holds_no_more(running, nursing)) {
            return false;
        }
        const auto merit = merit_of(running, nursing);
        if (merit) {
            best_ = {running, nursing, *merit};
        }
        return merit.has_value();
    }

    // By flow, the best as it is: a tenth more was tried when it was found.
    bool holds_no_more(Running running, int nursing) const {
        return !judge_.by_terms() && running == best_.running && nursing == best_.nursing;
    }

    // Where it is better than the best. What was tried against as good a one is not run again.
    std::optional<Merit> merit_of(Running running, int nursing) {
        for (const TriedChoice& tried : tried_) {
            if (tried.running == running && tried.nursing == nursing && tried.than == best_.merit) {
                return tried.merit;
            }
        }
        take_only(fewer_, slow_, running, nursing);
        const auto merit = judge_.better_than(best_.merit, fewer_,
                                              [&] { return with_only(plain_, running, nursing); });
        tried_.push_back({running, nursing, best_.merit, merit});
        return merit;
    }

    const Incident& plain_;
    const Incident& slow_;
    const PlanJudge& judge_;
    TriedChoices& tried_;
    std::vector<Use> uses_;
    Incident fewer_;  // of slow_: the choice at hand, in memory that serves again
    Choice best_;
};

}  // namespace

bool one_can_nurse(const Incident& incident) {
    return std::ranges::any_of(incident.tankers, &Tanker::can_nurse);
}

ShuttlePlan plan_of(const PlanJudge& judge, Incident incident, Incident slow, const Merit& merit) {
    const HeldFlow cautious = judge.by_terms() ? sustained_flow(slow, judge.window()) : merit.flow;
    return {std::move(incident), std::move(slow), cautious, merit};
}

ShuttlePlan plan_by(const PlanJudge& judge, const Incident& incident, const Choice& choice) {
    Incident chosen = with_only(incident, choice.running, choice.nursing);
    Incident slow = slowed(chosen, judge.factor());
    return plan_of(judge, std::move(chosen), std::move(slow), choice.merit);
}

Merit quick_choice(const Incident& incident, const PlanJudge& judge, const Merit& least,
                   TriedChoices& tried) {
    const Incident slow = slowed(incident, judge.factor());
    ChoiceSearch search(incident, slow, judge, least, tried);
    for (int nursing = 0; nursing <= (judge.by_terms() && one_can_nurse(incident) ? 1 : 0);
         ++nursing) {
        search.try_first_of(&Use::slot, nursing);
    }
    return search.best().merit;
}

Choice full_choice(const Incident& incident, const PlanJudge& judge, const Merit& least,
                   TriedChoices tried) {
    const Incident slow = slowed(incident, judge.factor());
    ChoiceSearch search(incident, slow, judge, least, tried);
    for (int nursing = 0; nursing <= (one_can_nurse(incident) ? 1 : 0); ++nursing) {
        search.try_first_of(&Use::slot, nursing);
        search.try_first_of(&Use::place, nursing);
    }
    if (search.best().running != 0) {
        search.polish();
    }
    return search.best();
}

}  // namespace farwater::supply
