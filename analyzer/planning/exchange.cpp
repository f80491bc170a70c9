#include "analyzer/planning/exchange.h"

#include <algorithm>

#include "analyzer/planning/greedy_choice.h"

namespace farwater::planning {
namespace {

constexpr std::uint32_t nobody = UINT32_MAX;

// What a customer has from the best of the sites, and from the next.
struct Served {
    Gain best = 0;
    Gain next = 0;
    std::uint32_t by = nobody;  // place of the best in the list of sites
};

struct Move {
    Gain gain = 0;
    std::uint32_t comes = nobody;  // candidate
    std::uint32_t goes = nobody;   // place in the list of sites; nobody: an addition
};

class Exchange {
public:
    Exchange(const ChoiceProblem& problem, Sites sites)
        : problem_(problem),
          sites_(std::move(sites)),
          planned_(planned_sites(problem).size()),
          chosen_(problem.candidates(), false) {
        for (const std::uint32_t site : sites_) {
            chosen_[site] = true;
        }
    }

    // False when nothing gains any more.
    bool step() {
        serve();
        const Move move = best_move();
        if (move.gain <= 0) {
            return false;
        }
        chosen_[move.comes] = true;
        if (move.goes == nobody) {
            sites_.push_back(move.comes);
        } else {
            chosen_[sites_[move.goes]] = false;
            sites_[move.goes] = move.comes;
        }
        return true;
    }

    Sites take() { return std::move(sites_); }

private:
    void serve() {
        served_.assign(problem_.customers, {});
        for (std::uint32_t place = 0; place < sites_.size(); ++place) {
            for (const Offer& offer : problem_.offers[sites_[place]]) {
                Served& customer = served_[offer.customer];
                if (offer.gain > customer.best) {
                    customer = {offer.gain, customer.best, place};
                } else {
                    customer.next = std::max(customer.next, offer.gain);
                }
            }
        }
        lost_.assign(sites_.size(), 0);
        for (const Served& customer : served_) {
            if (customer.by != nobody) {
                lost_[customer.by] += customer.best - customer.next;
            }
        }
    }

    Move best_move() {
        Move best;
        const Cents spent = cost_of(problem_, sites_);
        const bool room = sites_.size() - planned_ < problem_.most_sites;
        for (std::uint32_t site = 0; site < problem_.candidates(); ++site) {
            if (problem_.rulings[site] == Ruling::open && !chosen_[site]) {
                look_at(site, spent, room, best);
            }
        }
        return best;
    }

    // kept_[place]: what the customers of that site keep by this one when that site goes.
    void look_at(std::uint32_t site, Cents spent, bool room, Move& best) {
        Gain added = 0;
        kept_.assign(sites_.size(), 0);
        for (const Offer& offer : problem_.offers[site]) {
            const Served& customer = served_[offer.customer];
            added += std::max(Gain{0}, offer.gain - customer.best);
            if (customer.by != nobody) {
                kept_[customer.by] +=
                    std::max(Gain{0}, std::min(offer.gain, customer.best) - customer.next);
            }
        }
        const Cents with = spent + problem_.costs[site];
        if (room && fits(with) && added > best.gain) {
            best = {added, site, nobody};
        }
        for (auto place = static_cast<std::uint32_t>(planned_); place < sites_.size(); ++place) {
            const Gain gain = added - lost_[place] + kept_[place];
            if (gain > best.gain && fits(with - problem_.costs[sites_[place]])) {
                best = {gain, site, place};
            }
        }
    }

    bool fits(Cents cost) const { return !problem_.budget || cost <= *problem_.budget; }

    const ChoiceProblem& problem_;
    Sites sites_;          // the planned ones first
    std::size_t planned_;  // how many they are
    std::vector<bool> chosen_;
    std::vector<Served> served_;  // per customer
    std::vector<Gain> lost_;      // per site: what goes with it
    std::vector<Gain> kept_;
};

}  // namespace

Sites exchanged(const ChoiceProblem& problem, Sites sites) {
    Exchange exchange(problem, std::move(sites));
    while (exchange.step()) {
    }
    return exchange.take();
}

Sites in_order_of_gain(const ChoiceProblem& problem, const Sites& sites) {
    ChoiceProblem only = problem;
    only.budget.reset();
    only.most_sites = sites.size();
    std::vector<bool> among(problem.candidates(), false);
    for (const std::uint32_t site : sites) {
        among[site] = true;
    }
    for (std::size_t site = 0; site < among.size(); ++site) {
        if (!among[site] && only.rulings[site] == Ruling::open) {
            only.rulings[site] = Ruling::ruled_out;
        }
    }
    return greedy_sites(only, GreedyRule::most_gain);
}

}  // namespace farwater::planning
