#include "analyzer/app/buy_improvements.h"

#include <algorithm>
#include <utility>
#include <vector>

#include "analyzer/app/place_rulings.h"
#include "analyzer/planning/building_years.h"
#include "analyzer/planning/with_improvement.h"

namespace farwater::app {
namespace {

using planning::Change;
using reports::ImprovementFindings;
using reports::WeighedImprovement;

planning::Outlay outlay_of(const WeighedImprovement& weighed) {
    const Spending& spending = weighed.improvement.spending;
    return {cents_of(spending.cost.value_or(0.0)),
            cents_of(spending.upkeep_per_year.value_or(0.0))};
}

bool has_price_and_gain(const WeighedImprovement& weighed) {
    return weighed.improvement.spending.cost && weighed.sum.weighted > 0;
}

planning::Sites in_order_of_buying(const ImprovementFindings& findings, planning::Cents yearly) {
    planning::ChoiceProblem problem;
    problem.customers = findings.district.parcels.size();
    std::vector<planning::Cents> upkeep;
    planning::Sites all;
    for (std::uint32_t i = 0; i < findings.weighed.size(); ++i) {
        const WeighedImprovement& weighed = findings.weighed[i];
        const std::vector<planning::Offer> offers =
            planning::offers_of(weighed.changes, findings.weights);
        problem.offers.items.insert(problem.offers.items.end(), offers.begin(), offers.end());
        problem.offers.close_row();
        problem.costs.push_back(outlay_of(weighed).cost);
        upkeep.push_back(outlay_of(weighed).upkeep);
        problem.rulings.push_back(planning::Ruling::open);
        if (has_price_and_gain(weighed)) {
            all.push_back(i);
        }
    }
    return planning::order_of_building(problem, all, yearly, upkeep);
}

// One on top of the other.
class Built {
public:
    Built(const ImprovementFindings& findings, const Analysis& as_is)
        : findings_(findings), as_is_(as_is), district_(findings.district) {
        district_.rating.reset();  // it is not asked for, and takes as long as all else
    }

    // None when stopped, or where it adds nothing; then it is not there.
    std::optional<reports::BoughtImprovement> add(std::uint32_t weighed, const Work& work) {
        District more =
            planning::with_improvement(district_, findings_.weighed[weighed].improvement);
        const std::optional<Analysis> found = analyse_flow(more, as_is_.asked.needs, work);
        if (!found) {
            return std::nullopt;
        }
        std::vector<Change> now =
            planning::changes_between(as_is_.assessment.supplies, found->assessment.supplies,
                                      findings_.district.parcels.size());
        const planning::GainSum added =
            planning::sum_of(planning::last_step(changes_, now), findings_.weights);
        if (added.weighted <= 0) {
            return std::nullopt;
        }
        changes_ = std::move(now);
        district_ = std::move(more);
        return reports::BoughtImprovement{
            .weighed = weighed,
            .added = added,
            .together = planning::sum_of(changes_, findings_.weights)};
    }

private:
    const ImprovementFindings& findings_;
    const Analysis& as_is_;
    District district_;
    std::vector<Change> changes_;  // against the district as it is
};

}  // namespace

bool buy_improvements(ImprovementFindings& findings, const Analysis& as_is, const Work& work) {
    const planning::Cents yearly = cents_of(findings.yearly_budget.value_or(0.0));
    const planning::Sites order = in_order_of_buying(findings, yearly);
    findings.beyond_budget =
        static_cast<std::size_t>(std::ranges::count_if(findings.weighed, has_price_and_gain)) -
        order.size();
    Built built(findings, as_is);
    std::vector<planning::Outlay> outlays;
    const Work quiet = work.told_by_number();
    for (const std::uint32_t next : order) {
        work.step("together", outlays.size(), order.size());
        if (const auto bought = built.add(next, quiet)) {
            findings.bought.push_back(*bought);
            outlays.push_back(outlay_of(findings.weighed[next]));
        } else if (work.stopped()) {
            return false;
        }
    }
    findings.idle = order.size() - findings.bought.size();
    const std::vector<planning::Cents> years = planning::years_of_building(outlays, yearly);
    for (std::size_t i = 0; i < years.size(); ++i) {
        findings.bought[i].year = years[i];
    }
    return true;
}

}  // namespace farwater::app
