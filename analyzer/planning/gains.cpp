#include "analyzer/planning/gains.h"

#include <algorithm>

#include "analyzer/planning/weights.h"

namespace farwater::planning {
namespace {

Gain of_need(const supply::ParcelSupply& supply) {
    return std::min(in_tenths(supply.needed), in_tenths(supply::flow_from_start(supply)));
}

void add_loss(GainSum& sum, const Change& change) {
    const Gain lost = -change.gain();
    if (lost <= 0) {
        return;
    }
    ++sum.losing;
    sum.lost_tenths += lost;
    if (change.judged_earlier()) {
        ++sum.losing_earlier;
        sum.earlier_tenths += lost;
    }
}

}  // namespace

bool differs(const supply::ParcelSupply& a, const supply::ParcelSupply& b) {
    return a.state != b.state || a.cautious != b.cautious ||
           supply::flow_from_start(a) != supply::flow_from_start(b);
}

Gain Change::gain() const { return of_need(after) - of_need(before); }

bool Change::newly_held() const {
    return after.state == SupplyState::held && before.state != SupplyState::held;
}

bool Change::no_longer_held() const {
    return before.state == SupplyState::held && after.state != SupplyState::held;
}

bool Change::judged_earlier() const {
    return gain() < 0 && before.first_engine && after.first_engine &&
           *after.first_engine < *before.first_engine;
}

GainSum sum_of(std::span<const Change> changes) { return sum_of(changes, Weights{}); }

GainSum sum_of(std::span<const Change> changes, const Weights& weights) {
    GainSum sum;
    for (const Change& change : changes) {
        const Gain gain = change.gain();
        sum.tenths += gain;
        sum.weighted += gain * weights.of(change.row);
        sum.gaining += gain > 0 ? 1 : 0;
        add_loss(sum, change);
        sum.newly_held += change.newly_held() ? 1U : 0U;
        sum.no_longer_held += change.no_longer_held() ? 1U : 0U;
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
        if (differs(was, is)) {
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
        if (differs(step.before, step.after)) {
            steps.push_back(step);
        }
    }
    one_earlier(UINT32_MAX);
    return steps;
}

std::vector<Offer> offers_of(std::span<const Change> changes, const Weights& weights) {
    std::vector<Offer> offers;
    for (const Change& change : changes) {
        const Gain gain = change.gain() * weights.of(change.row);
        if (gain > 0) {
            offers.push_back({change.row, gain});
        }
    }
    return offers;
}

std::vector<Gain> missing_flow(std::span<const supply::ParcelSupply> answers, std::size_t parcels,
                               const Weights& weights) {
    std::vector<Gain> missing(parcels, 0);
    for (std::uint32_t row = 0; row < parcels; ++row) {
        const supply::ParcelSupply& answer = answers[row];
        if (answer.state != SupplyState::no_building && answer.state != SupplyState::unreached) {
            const Gain lacks = in_tenths(answer.needed) - of_need(answer);
            missing[row] = lacks * weights.of(row);
        }
    }
    return missing;
}

}  // namespace farwater::planning
