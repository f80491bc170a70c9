#include "analyzer/supply/assess.h"

#include <algorithm>
#include <utility>

#include "analyzer/supply/places/assessor.h"

namespace farwater::supply {
namespace {

constexpr std::size_t rows_per_chunk = 1024;

// The lays of many rows that are looked at, one after the other.
struct Trials {
    std::vector<std::uint32_t> row;
    Lists<std::size_t> lays;         // per item of `row`
    std::vector<HeldFlow> promised;  // per item of `lays`

    void add(std::size_t one, std::span<const HoseLay> hose_lays) {
        const LaysLookedAt looked = lays_looked_at(hose_lays);
        row.push_back(static_cast<std::uint32_t>(one));
        lays.items.insert(lays.items.end(), looked.all().begin(), looked.all().end());
        lays.close_row();
    }
};

// Of rows with one lay nothing is asked, nor of lays that are not tried.
void add_promises(const Assessor& assessor, Trials& trials, const Work& work) {
    trials.promised.assign(trials.lays.items.size(), HeldFlow{});
    const auto keyed = [&](std::size_t trial, std::size_t item) {
        return assessor.keyed(trials.row[trial], trials.lays.items[item], item);
    };
    std::vector<Keyed> first;
    for (std::size_t trial = 0; trial < trials.row.size(); ++trial) {
        if (trials.lays[trial].size() > 1) {
            first.push_back(keyed(trial, trials.lays.begin[trial]));
        }
    }
    assessor.promise(std::move(first), trials.promised, work);
    std::vector<Keyed> others;
    for (std::size_t trial = 0; trial < trials.row.size(); ++trial) {
        const std::size_t begin = trials.lays.begin[trial];
        for (std::size_t i = begin + 1; i < trials.lays.begin[trial + 1]; ++i) {
            if (trials.promised[begin] > HeldFlow{} &&
                assessor.worth_trying(trials.row[trial], trials.lays.items[i])) {
                others.push_back(keyed(trial, i));
            }
        }
    }
    assessor.promise(std::move(others), trials.promised, work);
}

// The lay of a row that promises most, the first of equals.
std::size_t most_promising(const Trials& trials, std::size_t trial) {
    const std::span<const std::size_t> lays = trials.lays[trial];
    const auto promised = std::span(trials.promised).subspan(trials.lays.begin[trial], lays.size());
    return lays[static_cast<std::size_t>(std::ranges::max_element(promised) - promised.begin())];
}

// Direct supply needs no tanker: of answers that are as good it is taken. What the other mode would
// give stays beside it.
void take_direct_if_better(const PlanOrder& order, const Assessor& assessor, std::size_t row,
                           ParcelSupply& supply) {
    std::optional<ParcelSupply> direct = assessor.direct(row, supply);
    if (!direct) {
        return;
    }
    direct->wheels_gal = supply.wheels_gal;
    const bool shuttle_is_better = worse(order, *direct, supply);
    ParcelSupply& better = shuttle_is_better ? supply : *direct;
    const ParcelSupply& other = shuttle_is_better ? *direct : supply;
    if (in_tenths(other.cautious) > 0) {
        better.runner_up = other.mode;
        better.runner_up_cautious = other.cautious;
    }
    supply = better;
}

// Works out the most promising lay of each row; where something is missing there, for a bound may
// promise what does not come, the others too, and keeps the better answer.
void take_best_lays(const PlanOrder& order, const Assessor& assessor, const Trials& trials,
                    std::vector<ParcelSupply>& supplies, const Work& work) {
    std::vector<Keyed> keyed;
    for (std::size_t trial = 0; trial < trials.row.size(); ++trial) {
        const std::uint32_t row = trials.row[trial];
        keyed.push_back(assessor.keyed(row, most_promising(trials, trial), row));
    }
    assessor.answer(std::move(keyed), supplies, work);
    keyed.clear();
    for (std::size_t trial = 0; trial < trials.row.size(); ++trial) {
        const std::uint32_t row = trials.row[trial];
        for (const std::size_t lay : trials.lays[trial]) {
            if (!content_with(order, supplies[row]) && lay != most_promising(trials, trial)) {
                keyed.push_back(assessor.keyed(row, lay, keyed.size()));
            }
        }
    }
    std::vector<ParcelSupply> others(keyed.size());
    const std::vector<Keyed> in_order = keyed;
    assessor.answer(std::move(keyed), others, work);
    for (const Keyed& item : in_order) {
        if (worse(order, supplies[item.row], others[item.slot])) {
            supplies[item.row] = others[item.slot];
        }
    }
}

}  // namespace

std::vector<ParcelSupply> assess(const Situation& situation,
                                 const std::vector<std::optional<Need>>& needs,
                                 const std::vector<DriveTime>& first_arrivals, const Work& work) {
    const Assessor assessor(situation, needs, first_arrivals);
    std::vector<ParcelSupply> supplies(needs.size());
    Trials trials;
    for (std::size_t row = 0; row < needs.size(); ++row) {
        if (auto supply = assessor.settled_answer(row)) {
            supplies[row] = *supply;
            continue;
        }
        trials.add(row, situation.trips.hose_lays[row]);
    }
    add_promises(assessor, trials, work);
    take_best_lays(situation.order, assessor, trials, supplies, work);
    for_each_chunk(work, "direct supply", needs.size(), rows_per_chunk,
                   [&](std::size_t begin, std::size_t end) {
                       for (std::size_t row = begin; row < end; ++row) {
                           take_direct_if_better(situation.order, assessor, row, supplies[row]);
                       }
                   });
    return supplies;
}

Working working_of(const Situation& situation, const std::vector<std::optional<Need>>& needs,
                   const std::vector<DriveTime>& first_arrivals, std::size_t row) {
    const Assessor assessor(situation, needs, first_arrivals);
    Working working{.variant = {situation.trips.season, situation.period},
                    .need = needs[row],
                    .house = assessor.house_of(row),
                    .first_arrival = first_arrivals[row],
                    .responders = assessor.responders_of(row)};
    const std::span<const HoseLay> lays = situation.trips.hose_lays[row];
    working.lays.assign(lays.begin(), lays.end());
    if (const auto supply = assessor.settled_answer(row)) {
        working.supply = *supply;
    } else {
        Trials trials;
        trials.add(row, lays);
        add_promises(assessor, trials, Work{});
        working.looked.push_back(assessor.look_at(row, most_promising(trials, 0)));
        working.supply = working.looked.front().supply;
        for (const std::size_t lay : trials.lays[0]) {
            if (!content_with(situation.order, working.looked.front().supply) &&
                lay != most_promising(trials, 0)) {
                working.looked.push_back(assessor.look_at(row, lay));
            }
        }
        for (const ShuttleWorking& look : working.looked) {
            if (worse(situation.order, working.supply, look.supply)) {
                working.supply = look.supply;
            }
        }
    }
    if (assessor.asks_for_hose(row, working.supply)) {
        working.options = assessor.hose_options_of(row);
    }
    take_direct_if_better(situation.order, assessor, row, working.supply);
    return working;
}

}  // namespace farwater::supply
