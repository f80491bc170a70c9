#include "analyzer/supply/several/several_sites.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <utility>

#include "analyzer/supply/several/fill_split.h"
#include "analyzer/supply/several/steady_splits.h"

namespace farwater::supply {
namespace {

// Splits that are run for two sites.
constexpr std::size_t splits_tried = 12;

using Bits = std::uint32_t;  // tankers of the scene

Bits all_of(const std::vector<Tanker>& tankers) {
    Bits all = 0;
    for (std::size_t t = 0; t < tankers.size(); ++t) {
        all |= t < 32 ? Bits{1} << t : 0U;
    }
    return all;
}

Bits those_in(const Incident& incident, const std::vector<Tanker>& tankers) {
    Bits running = 0;
    for (std::size_t t = 0; t < std::min<std::size_t>(32, tankers.size()); ++t) {
        const bool runs = std::ranges::count(incident.tankers, tankers[t].unit, &Tanker::unit) > 0;
        running |= runs ? Bits{1} << t : 0U;
    }
    return running;
}

FillSplit split_of(const SteadySplit& steady, std::size_t tankers, int nursing) {
    FillSplit split{std::vector<int>(tankers, FillSplit::stands_by), nursing, {}};
    for (std::size_t t = 0; t < std::min<std::size_t>(32, tankers); ++t) {
        if ((steady.running >> t & 1U) != 0) {
            split.where[t] = static_cast<int>(steady.to_second >> t & 1U);
        }
    }
    return split;
}

class SeveralSearch {
public:
    SeveralSearch(const SeveralQuestion& question, const ShuttlePlan& alone)
        : question_(question),
          running_{those_in(alone.incident, question.tankers)},
          nursing_(alone.incident.dump_site.nursing_tankers) {
        best_.merit = alone.merit;
        if (running_.front() != all_of(question.tankers)) {
            running_.push_back(all_of(question.tankers));
        }
    }

    void try_pairs() {
        const SteadySplits steady(question_);
        const double alone = steady.best_alone(running_.front());
        for (const SteadySplit& split : steady.best_pairs(running_, splits_tried)) {
            if (split.estimate > 0.9 * alone || !question_.judge.only_flow_is_left(best_.merit)) {
                try_pair(split);
            }
        }
        improve();
    }

    // Beside the best two. Precondition: there are.
    void try_third() {
        const std::vector<const FillOption*> two = set_.options;
        const FillSplit split_of_two = best_;
        for (const FillOption& option : question_.options) {
            if (std::ranges::find(two, &option) == two.end()) {
                try_beside(two, split_of_two, option);
            }
        }
        improve();
    }

    bool found() const { return !best_.where.empty(); }
    const Merit& merit() const { return best_.merit; }

    // Precondition: found.
    SeveralSites answer() const {
        const SplitIncidents incidents = incidents_of(set_);
        std::vector<std::size_t> used;
        Incident plain = incidents.plain(best_, &used);
        SeveralSites several{
            plan_of(question_.judge, std::move(plain), incidents.slow(best_), best_.merit), {}, {}};
        for (const std::size_t site : used) {
            several.sources.push_back(set_.options[site]);
            const FillSite& used_site = several.plan.incident.fill_sites[several.run_by.size()];
            several.run_by.push_back(
                {set_.engines[site], used_site.ready < set_.sites[site].ready});
        }
        return several;
    }

private:
    SplitIncidents incidents_of(const FillSet& set) const {
        const Incident bare = incident_at(question_.situation, question_.scene, set.options.size());
        return {bare, question_.tankers, set, question_.judge.factor()};
    }

    void try_pair(const SteadySplit& steady) {
        const std::array options{&question_.options[steady.first],
                                 &question_.options[steady.second]};
        auto set = run_together(question_.situation, question_.scene, options);
        if (!set) {
            return;
        }
        const SplitIncidents incidents = incidents_of(*set);
        if (question_.judge.may_be_better_than(best_.merit, incidents.most()) &&
            try_split(incidents, question_.judge,
                      split_of(steady, question_.tankers.size(), nursing_), best_)) {
            set_ = std::move(*set);
        }
    }

    void try_beside(std::vector<const FillOption*> options, FillSplit split,
                    const FillOption& third) {
        options.push_back(&third);
        auto set = run_together(question_.situation, question_.scene, options);
        if (!set) {
            return;
        }
        const SplitIncidents incidents = incidents_of(*set);
        if (!question_.judge.may_be_better_than(best_.merit, incidents.most())) {
            return;
        }
        split.merit = best_.merit;
        if (send_one_to_last(incidents, question_.judge, split)) {
            best_ = std::move(split);
            set_ = std::move(*set);
        }
    }

    void improve() {
        if (found()) {
            improve_split(incidents_of(set_), question_.judge, best_);
        }
    }

    const SeveralQuestion& question_;
    std::vector<Bits> running_;
    int nursing_;
    FillSet set_;
    FillSplit best_;  // nowhere: nothing is better than one fill site
};

}  // namespace

std::vector<SeveralSites> improving_sets(const SeveralQuestion& question,
                                         const ShuttlePlan& alone) {
    std::vector<SeveralSites> found;
    if (question.most_sites < 2) {
        return found;
    }
    SeveralSearch search(question, alone);
    search.try_pairs();
    if (!search.found()) {
        return found;
    }
    found.push_back(search.answer());
    if (question.most_sites > 2) {
        search.try_third();
        if (better(search.merit(), found.back().plan.merit)) {
            found.push_back(search.answer());
        }
    }
    return found;
}

}  // namespace farwater::supply
