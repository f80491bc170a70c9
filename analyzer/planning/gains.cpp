#include "analyzer/planning/gains.h"

#include <algorithm>

namespace farwater::planning {
namespace {

Gain of_need(const supply::ParcelSupply& supply) {
    return std::min(in_tenths(supply.needed), in_tenths(flow_from_start(supply)));
}

}  // namespace

HeldFlow flow_from_start(const supply::ParcelSupply& supply) {
    return std::max(supply.cautious, supply.runner_up_cautious);
}

Gain Change::gain() const { return of_need(after) - of_need(before); }

GainSum sum_of(std::span<const Change> changes) {
    GainSum sum;
    for (const Change& change : changes) {
        const Gain gain = change.gain();
        const bool was = change.before.state == SupplyState::held;
        const bool is = change.after.state == SupplyState::held;
        sum.tenths += gain;
        sum.gaining += gain > 0 ? 1 : 0;
        sum.losing += gain < 0 ? 1 : 0;
        sum.lost_tenths -= std::min(gain, Gain{0});
        sum.newly_held += is && !was ? 1 : 0;
        sum.no_longer_held += was && !is ? 1 : 0;
        const int better =
            supply::severity_of(change.before.state) - supply::severity_of(change.after.state);
        sum.better_state += better > 0 ? 1U : 0U;
        sum.worse_state += better < 0 ? 1U : 0U;
    }
    return sum;
}

std::vector<Change> changes_between(std::span<const supply::ParcelSupply> before,
                                    std::span<const supply::ParcelSupply> after,
                                    std::size_t parcels) {
    std::vector<Change> changes;
    for (std::uint32_t row = 0; row < parcels; ++row) {
        const supply::ParcelSupply& was = before[row];
        const supply::ParcelSupply& is = after[row];
        if (was.state != is.state || was.cautious != is.cautious ||
            flow_from_start(was) != flow_from_start(is)) {
            changes.push_back({row, was, is});
        }
    }
    return changes;
}

std::vector<Change> last_step(std::span<const Change> without, std::span<const Change> with) {
    std::vector<Change> steps;
    auto earlier = without.begin();
    const auto one_earlier = [&](std::uint32_t row) {
        // What an earlier source changed and the last one turned back.
        for (; earlier != without.end() && earlier->row < row; ++earlier) {
            steps.push_back({earlier->row, earlier->after, earlier->before});
        }
    };
    for (const Change& change : with) {
        one_earlier(change.row);
        Change step = change;
        if (earlier != without.end() && earlier->row == change.row) {
            step.before = (earlier++)->after;
        }
        if (step.before.state != step.after.state || step.before.cautious != step.after.cautious) {
            steps.push_back(step);
        }
    }
    one_earlier(UINT32_MAX);
    return steps;
}

Lists<Offer> offers_of(const std::vector<std::vector<Change>>& changes_of_candidate) {
    Lists<Offer> offers;
    for (const std::vector<Change>& changes : changes_of_candidate) {
        for (const Change& change : changes) {
            if (change.gain() > 0) {
                offers.items.push_back({change.row, change.gain()});
            }
        }
        offers.close_row();
    }
    return offers;
}

}  // namespace farwater::planning
