#include "analyzer/planning/lazy_choice.h"

#include <algorithm>
#include <utility>

#include "analyzer/planning/greedy_choice.h"

namespace farwater::planning {
namespace {

class LazySites {
public:
    LazySites(ChoiceProblem bounds, const WorkOut& work_out)
        : work_out_(work_out), found_{{}, std::move(bounds), {}} {
        const ChoiceProblem& problem = found_.problem;
        found_.worked_out.assign(problem.candidates(), 0);
        for (std::size_t site = 0; site < problem.candidates(); ++site) {
            const std::span<const Offer> offers = problem.offers[site];
            offers_.emplace_back(offers.begin(), offers.end());
        }
    }

    bool known(std::uint32_t site) const { return found_.worked_out[site] != 0; }
    const ChoiceProblem& problem() const { return found_.problem; }

    // Those that are not known yet, at most `most`; false when stopped.
    bool work_out(const Sites& sites, std::size_t most) {
        bool any = false;
        for (const std::uint32_t site : sites) {
            if (most == 0 || known(site)) {
                continue;
            }
            std::optional<WorkedOut> worked_out = work_out_(site);
            if (!worked_out) {
                return false;
            }
            take(site, std::move(*worked_out));
            any = true;
            --most;
        }
        if (any) {
            write_offers();
        }
        return true;
    }

    bool all_known(const Sites& sites) const {
        return std::ranges::all_of(sites, [&](std::uint32_t site) { return known(site); });
    }

    LazyChoice finished(Choice choice) && {
        found_.choice = std::move(choice);
        return std::move(found_);
    }

private:
    void take(std::uint32_t site, WorkedOut worked_out) {
        found_.worked_out[site] = 1;
        offers_[site] = std::move(worked_out.offers);
        Ruling& ruling = found_.problem.rulings[site];
        if (worked_out.idle && ruling == Ruling::open) {
            ruling = Ruling::ruled_out;
        }
    }

    void write_offers() {
        Lists<Offer>& lists = found_.problem.offers;
        lists = {};
        for (const std::vector<Offer>& offers : offers_) {
            lists.items.insert(lists.items.end(), offers.begin(), offers.end());
            lists.close_row();
        }
    }

    const WorkOut& work_out_;
    LazyChoice found_;
    std::vector<std::vector<Offer>> offers_;  // per site
};

Sites not_ruled_out(const ChoiceProblem& problem) {
    Sites sites;
    for (std::uint32_t site = 0; site < problem.candidates(); ++site) {
        if (problem.rulings[site] != Ruling::ruled_out) {
            sites.push_back(site);
        }
    }
    return sites;
}

// One at a time, for what is taken first decides what comes after it. False when stopped.
bool settle_greedy(LazySites& sites) {
    for (const GreedyRule rule : {GreedyRule::most_gain, GreedyRule::most_gain_per_cost}) {
        if (rule == GreedyRule::most_gain_per_cost && !sites.problem().budget) {
            continue;
        }
        for (Sites taken = greedy_sites(sites.problem(), rule); !sites.all_known(taken);
             taken = greedy_sites(sites.problem(), rule)) {
            if (!sites.work_out(taken, 1)) {
                return false;
            }
        }
    }
    return true;
}

}  // namespace

std::optional<LazyChoice> choose_lazily(ChoiceProblem bounds, const WorkOut& work_out,
                                        std::optional<double> exact_seconds, bool every_site) {
    LazySites sites(std::move(bounds), work_out);
    const Sites first =
        every_site ? not_ruled_out(sites.problem()) : planned_sites(sites.problem());
    if (!sites.work_out(first, first.size())) {
        return std::nullopt;
    }
    bool exactly = false;
    while (settle_greedy(sites)) {
        Choice choice = choose_sites(sites.problem(), exactly ? exact_seconds : std::nullopt);
        const Sites& taken = choice.considered;
        if (!sites.all_known(taken)) {
            if (!sites.work_out(taken, taken.size())) {
                return std::nullopt;
            }
        } else if (exact_seconds && !exactly) {
            exactly = true;
        } else {
            return std::move(sites).finished(std::move(choice));
        }
    }
    return std::nullopt;
}

}  // namespace farwater::planning
