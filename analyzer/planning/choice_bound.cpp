#include "analyzer/planning/choice_bound.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

namespace farwater::planning {
namespace {

constexpr std::size_t most_steps = 300;
constexpr std::size_t least_steps = 30;
constexpr std::size_t most_offers_looked_at = 100'000'000;
constexpr int patience = 15;  // steps without a lower bound before they are halved
constexpr double for_nothing = std::numeric_limits<double>::infinity();

// The bound at some prices, and how far each customer is served more often than once there.
class Prices {
public:
    Prices(const ChoiceProblem& problem, std::vector<double> prices)
        : problem_(problem), prices_(std::move(prices)) {}

    double bound() {
        above_.assign(problem_.candidates(), 0.0);
        open_.clear();
        double sum = std::accumulate(prices_.begin(), prices_.end(), 0.0);
        weights_.assign(problem_.candidates(), 0.0);
        for (std::uint32_t site = 0; site < problem_.candidates(); ++site) {
            for (const Offer& offer : problem_.offers[site]) {
                above_[site] +=
                    std::max(0.0, static_cast<double>(offer.gain) - prices_[offer.customer]);
            }
            if (problem_.rulings[site] == Ruling::planned) {
                weights_[site] = 1.0;
                sum += above_[site];
            } else if (problem_.rulings[site] == Ruling::open) {
                open_.push_back(site);
            }
        }
        return sum + best_of_open();
    }

    // One step down from a bound to the gain of a known choice; false when there is no way down.
    bool step(double length, double above_known) {
        std::vector<double> slope(prices_.size(), 1.0);
        for (std::uint32_t site = 0; site < problem_.candidates(); ++site) {
            for (const Offer& offer : problem_.offers[site]) {
                if (weights_[site] > 0.0 &&
                    static_cast<double>(offer.gain) > prices_[offer.customer]) {
                    slope[offer.customer] -= weights_[site];
                }
            }
        }
        double square = 0.0;
        for (std::size_t c = 0; c < slope.size(); ++c) {
            slope[c] = prices_[c] <= 0.0 && slope[c] > 0.0 ? 0.0 : slope[c];
            square += slope[c] * slope[c];
        }
        if (square <= 0.0) {
            return false;
        }
        for (std::size_t c = 0; c < slope.size(); ++c) {
            prices_[c] = std::max(0.0, prices_[c] - length * above_known / square * slope[c]);
        }
        return true;
    }

    // The sites that the last bound took whole, as far as number and budget go.
    Sites taken() const {
        Sites sites = planned_sites(problem_);
        std::size_t more = problem_.most_sites;
        Cents spent = 0;
        for (const std::uint32_t site : open_) {
            const Cents with = spent + problem_.costs[site];
            if (weights_[site] >= 1.0 && more > 0 &&
                (!problem_.budget || with <= *problem_.budget)) {
                sites.push_back(site);
                spent = with;
                --more;
            }
        }
        return sites;
    }

private:
    double by_number() {
        const std::size_t count = std::min(problem_.most_sites, open_.size());
        std::ranges::sort(open_, [&](auto a, auto b) {
            return std::pair(above_[b], a) < std::pair(above_[a], b);
        });
        double sum = 0.0;
        for (std::size_t i = 0; i < count; ++i) {
            weights_[open_[i]] = 1.0;
            sum += above_[open_[i]];
        }
        return sum;
    }

    // The last site that fits only in part is taken in part: no whole choice does better.
    double by_budget(Cents budget) {
        const auto cost = [&](std::uint32_t site) {
            return static_cast<double>(problem_.costs[site]);
        };
        const auto worth = [&](std::uint32_t site) {
            return problem_.costs[site] > 0 ? above_[site] / cost(site) : for_nothing;
        };
        std::ranges::sort(
            open_, [&](auto a, auto b) { return std::pair(worth(b), a) < std::pair(worth(a), b); });
        double sum = 0.0;
        auto rest = static_cast<double>(budget);
        for (const std::uint32_t site : open_) {
            if (problem_.costs[site] > budget) {
                continue;  // no choice can have it
            }
            const double share = cost(site) <= rest ? 1.0 : rest / cost(site);
            weights_[site] = share;
            sum += share * above_[site];
            rest -= share * cost(site);
            if (share < 1.0) {
                break;
            }
        }
        return sum;
    }

    // Under both a number and a budget either bound holds: the lower one.
    double best_of_open() {
        if (!problem_.budget) {
            return by_number();
        }
        const std::vector<double> planned = weights_;
        const double budget = by_budget(*problem_.budget);
        if (problem_.most_sites >= open_.size()) {
            return budget;
        }
        std::vector<double> of_budget = weights_;
        weights_ = planned;
        const double number = by_number();
        if (budget < number) {
            weights_ = std::move(of_budget);
        }
        return std::min(budget, number);
    }

    const ChoiceProblem& problem_;
    std::vector<double> prices_;   // per customer
    std::vector<double> above_;    // per candidate: what it offers above the prices
    std::vector<double> weights_;  // per candidate: how far the bound takes it, 0 to 1
    std::vector<std::uint32_t> open_;
};

// What every customer has from the known choice: the bound there is that of the greedy analysis.
std::vector<double> first_prices(const ChoiceProblem& problem, const Sites& sites) {
    Standings standings(problem);
    for (const std::uint32_t site : sites) {
        standings.take(site);
    }
    return {standings.best().begin(), standings.best().end()};
}

std::size_t steps_for(std::size_t offers) {
    return std::clamp(most_offers_looked_at / std::max<std::size_t>(1, offers), least_steps,
                      most_steps);
}

}  // namespace

Bound upper_bound(const ChoiceProblem& problem, const Sites& sites) {
    const auto known = static_cast<double>(gain_of(problem, sites));
    Prices prices(problem, first_prices(problem, sites));
    double now = prices.bound();
    double least = now;
    Sites taken = prices.taken();
    Bound bound{0, {taken, taken}};
    double length = 1.0;
    int waited = 0;
    const std::size_t steps = steps_for(problem.offers.items.size());
    // Gains are whole: below one more than the known gain, the known choice is the best.
    for (std::size_t i = 0; i < steps && least >= known + 1.0 && prices.step(length, now - known);
         ++i) {
        now = prices.bound();
        taken = prices.taken();
        if (gain_of(problem, taken) > gain_of(problem, bound.taken[0])) {
            bound.taken[0] = taken;
        }
        ++waited;
        if (now < least) {
            least = now;
            bound.taken[1] = taken;
            waited = 0;
        } else if (waited == patience) {
            length /= 2.0;
            waited = 0;
        }
    }
    // Whole, and rounded up by what the sums of doubles may have lost.
    const double lost = 1e-9 * least + 1e-6;
    bound.at_most = static_cast<Gain>(std::floor(std::max(known, least + lost)));
    return bound;
}

}  // namespace farwater::planning
