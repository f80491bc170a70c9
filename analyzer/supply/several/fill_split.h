// The tankers of a scene over the fill sites of a set: which fills where, which stand by. Looked
// for with the incident run itself, which is quicker than a linear program and knows arrivals,
// queues and storage; the steady model behind `best_allocation` knows none of them.
#pragma once

#include <optional>
#include <vector>

#include "analyzer/supply/filling/tanker_choice.h"
#include "analyzer/supply/incident.h"
#include "analyzer/supply/several/fill_set.h"

namespace farwater::supply {

struct FillSplit {
    static constexpr int stands_by = -1;
    std::vector<int> where;  // per tanker of the scene: a site of the set, or stands_by
    int nursing = 0;
    Merit merit{};
};

// What a set's incidents are made of. Keeps copies, but for the set's options.
class SplitIncidents {
public:
    // `bare` has the dump site and the initial attack; a tanker's legs are the options'.
    SplitIncidents(const Incident& bare, const std::vector<Tanker>& tankers, const FillSet& set,
                   double factor);

    std::size_t tankers() const { return plain_.tankers.size(); }
    std::size_t sites() const { return plain_.fill_sites.size(); }
    bool may_go(std::size_t tanker, std::size_t site) const;
    bool can_nurse() const;

    // Only sites in use, in the order of their first tanker, and only tankers that run, in the
    // order of their arrival. A site is ready when its engine is, or the first of its tankers has
    // opened it. `used`, if not null, gets the site of the set behind each of the incident's.
    Incident plain(const FillSplit& split, std::vector<std::size_t>* used = nullptr) const;
    Incident slow(const FillSplit& split) const;

    // No split is better by any bound: slow, with one fill site that is as near as the nearest and
    // has what all of them have.
    Incident most() const;

private:
    Incident sent(const Incident& all, double factor, const FillSplit& split,
                  std::vector<std::size_t>* used) const;

    FillSite all_in_one() const;
    std::optional<Leg> nearest_leg(std::size_t tanker) const;  // slow; empty and loaded by itself

    Incident plain_, slow_;  // all sites, all tankers, no legs
    std::vector<const FillOption*> options_;
    double factor_;
};

// Each of these keeps what is better than `best` in `best`, and tells whether it found any.
//
// The split as it is.
bool try_split(const SplitIncidents& incidents, const PlanJudge& judge, FillSplit split,
               FillSplit& best);
// Single tankers sent to the last of the sites. Precondition: `best` is of the set, without it.
bool send_one_to_last(const SplitIncidents& incidents, const PlanJudge& judge, FillSplit& best);
// Single tankers sent elsewhere, to stand by, or to nurse, or two exchanged, as long as that gains;
// every site keeps a tanker.
void improve_split(const SplitIncidents& incidents, const PlanJudge& judge, FillSplit& best);

}  // namespace farwater::supply
