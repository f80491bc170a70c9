#include "analyzer/planning/building_years.h"

#include <algorithm>
#include <tuple>

namespace farwater::planning {
namespace {

// What is at hand as years go by.
class Fund {
public:
    explicit Fund(Cents yearly) : yearly_(yearly), at_hand_(yearly) {}

    Cents year() const { return year_; }
    static Cents due(const Outlay& outlay) { return outlay.cost + outlay.upkeep; }
    bool pays(const Outlay& outlay) const { return due(outlay) <= at_hand_; }
    // Some year can pay it, and every year after that keeps it up.
    bool ever_pays(const Outlay& outlay) const {
        return upkeep_ + outlay.upkeep <= yearly_ && (pays(outlay) || upkeep_ < yearly_);
    }

    // Precondition: some year does.
    void wait_for(const Outlay& outlay) {
        if (!pays(outlay)) {
            const Cents left = yearly_ - upkeep_;
            const Cents years = (due(outlay) - at_hand_ + left - 1) / left;
            at_hand_ += years * left;
            year_ += years;
        }
    }

    void buy(const Outlay& outlay) {
        at_hand_ -= due(outlay);
        upkeep_ += outlay.upkeep;
    }

private:
    Cents yearly_, at_hand_;
    Cents upkeep_ = 0;  // of all that was bought
    Cents year_ = 1;
};

}  // namespace

Sites order_of_building(const ChoiceProblem& problem, const Sites& sites, Cents yearly,
                        std::span<const Cents> upkeep) {
    const auto outlay = [&](std::uint32_t site) {
        return Outlay{problem.costs[site], upkeep.empty() ? 0 : upkeep[site]};
    };
    const auto due = [&](std::uint32_t site) { return Fund::due(outlay(site)); };
    Standings standings(problem);
    Sites order;
    Sites waiting;
    for (const std::uint32_t site : sites) {
        if (problem.rulings[site] == Ruling::planned) {
            standings.take(site);
            order.push_back(site);
        } else {
            waiting.push_back(site);
        }
    }
    Fund fund(yearly);
    while (true) {
        std::erase_if(waiting, [&](std::uint32_t site) { return !fund.ever_pays(outlay(site)); });
        if (waiting.empty()) {
            return order;
        }
        fund.wait_for(outlay(*std::ranges::min_element(waiting, {}, due)));
        const auto worth = [&](std::uint32_t site) {
            return std::tuple(!fund.pays(outlay(site)), -standings.added_by(site), due(site), site);
        };
        const auto best = std::ranges::min_element(waiting, {}, worth);
        fund.buy(outlay(*best));
        standings.take(*best);
        order.push_back(*best);
        waiting.erase(best);
    }
}

std::vector<Cents> years_of_building(std::span<const Outlay> outlays, Cents yearly) {
    Fund fund(yearly);
    std::vector<Cents> years;
    for (const Outlay& outlay : outlays) {
        fund.wait_for(outlay);
        fund.buy(outlay);
        years.push_back(fund.year());
    }
    return years;
}

}  // namespace farwater::planning
