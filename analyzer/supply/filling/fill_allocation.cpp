#include "analyzer/supply/filling/fill_allocation.h"

#include <algorithm>
#include <set>
#include <utility>

#include "analyzer/supply/incident_run.h"

namespace farwater::supply {
namespace {

constexpr std::size_t splits_judged = 5;
constexpr int most_judged = 300;  // by the incident run, for large fleets

// Moves and exchanges tankers as long as the sustained flow gains.
class Improvement {
public:
    Improvement(const Incident& incident, const FillLegs& legs, Window window)
        : incident_(incident), legs_(legs), window_(window) {}

    void consider(const std::vector<std::size_t>& sites) {
        if (judged_ == most_judged) {
            return;
        }
        ++judged_;
        const Incident sent = sent_to(incident_, legs_, sites);
        most_sites_ = std::max(most_sites_, in_use(sites));
        const HeldFlow flow = sustained_flow_above(sent, window_, best_);
        if (best_sites_.empty() || flow > best_) {
            best_ = flow;
            best_sites_ = sites;
        }
    }

    void improve() {
        bool gained = true;
        while (gained) {
            const HeldFlow before = best_;
            move_each();
            exchange_each();
            gained = best_ > before;
        }
    }

    const std::vector<std::size_t>& sites() const { return best_sites_; }
    HeldFlow flow() const { return best_; }

private:
    static std::size_t in_use(const std::vector<std::size_t>& sites) {
        return std::set<std::size_t>(sites.begin(), sites.end()).size();
    }

    void move_each() {
        for (std::size_t tanker = 0; tanker < legs_.size(); ++tanker) {
            for (std::size_t site = 0; site < incident_.fill_sites.size(); ++site) {
                std::vector<std::size_t> sites = best_sites_;
                sites[tanker] = site;
                consider_if_possible(sites);
            }
        }
    }

    void exchange_each() {
        for (std::size_t one = 0; one < legs_.size(); ++one) {
            for (std::size_t other = one + 1; other < legs_.size(); ++other) {
                std::vector<std::size_t> sites = best_sites_;
                std::swap(sites[one], sites[other]);
                consider_if_possible(sites);
            }
        }
    }

    void consider_if_possible(const std::vector<std::size_t>& sites) {
        bool possible = sites != best_sites_ && in_use(sites) <= most_sites_;
        for (std::size_t tanker = 0; possible && tanker < sites.size(); ++tanker) {
            possible = legs_[tanker][sites[tanker]].has_value();
        }
        if (possible) {
            consider(sites);
        }
    }

    const Incident& incident_;
    const FillLegs& legs_;
    Window window_;
    std::size_t most_sites_ = most_sites_in_use;
    std::vector<std::size_t> best_sites_;
    HeldFlow best_{};
    int judged_ = 0;
};

}  // namespace

Incident sent_to(Incident incident, const FillLegs& legs,
                 const std::vector<std::size_t>& fill_sites) {
    for (std::size_t tanker = 0; tanker < incident.tankers.size(); ++tanker) {
        incident.tankers[tanker].fill_site = fill_sites[tanker];
        incident.tankers[tanker].leg = *legs[tanker][fill_sites[tanker]];
    }
    return incident;
}

Allocation best_allocation(const Incident& incident, const FillLegs& legs, Window window) {
    const Splits splits = best_splits(incident, legs, window, splits_judged);
    Improvement improvement(incident, legs, window);
    for (const Split& split : splits.best) {
        improvement.consider(split.fill_sites);
    }
    if (splits.best.empty()) {  // no tankers
        return {incident, sustained_flow(incident, window), Flow{}, splits.proved};
    }
    improvement.improve();
    return {sent_to(incident, legs, improvement.sites()), improvement.flow(),
            gpm(splits.best.front().fluid), splits.proved};
}

}  // namespace farwater::supply
