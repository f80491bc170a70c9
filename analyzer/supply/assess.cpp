#include "analyzer/supply/assess.h"

#include <algorithm>
#include <utility>

#include "analyzer/supply/kept_choices.h"
#include "analyzer/supply/places/assessor.h"
#include "analyzer/supply/places/lay_trials.h"
#include "analyzer/supply/places/one_more_engine.h"

namespace farwater::supply {
namespace {

constexpr std::size_t rows_per_chunk = 1024;

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

// Precondition: nothing was asked of the trials yet.
void take_best_lays(const PlanOrder& order, const Assessor& assessor, LayTrials& trials,
                    std::vector<ParcelSupply>& supplies, const Work& work) {
    assessor.answer(trials.first(work), supplies, work);
    for (auto keyed = trials.next(supplies, work); !keyed.empty() && !work.stopped();
         keyed = trials.next(supplies, work)) {
        std::vector<ParcelSupply> others(keyed.size());  // unknown is worse than all
        assessor.answer(keyed, others, work);
        for (const Keyed& item : keyed) {
            if (worse(order, supplies[item.row], others[item.slot])) {
                supplies[item.row] = others[item.slot];
            }
        }
    }
}

// Of those that are of a lay.
std::vector<Keyed> lays_behind(const OneMoreEngine& engine,
                               const std::vector<ParcelSupply>& supplies) {
    std::vector<Keyed> lays;
    for (std::size_t row = 0; row < supplies.size(); ++row) {
        if (const auto lay = engine.lay_behind(row, supplies[row])) {
            lays.push_back(*lay);
        }
    }
    return lays;
}

// The same for one row, with what was found on the way.
void look_at_lays(const PlanOrder& order, const Assessor& assessor, std::size_t row,
                  Working& working) {
    LayTrials trials(assessor);
    trials.add(row);
    std::vector<ParcelSupply> found(row + 1);
    for (auto keyed = trials.first(Work{}); !keyed.empty(); keyed = trials.next(found, Work{})) {
        working.looked.push_back(assessor.look_at(keyed.front()));
        const ParcelSupply& supply = working.looked.back().supply;
        if (working.looked.size() == 1 || worse(order, found[row], supply)) {
            found[row] = supply;
        }
    }
    working.supply = found[row];
}

// A dozen for each row would hold them all; of a large district some are searched again.
constexpr std::size_t choices_a_row = 16;
constexpr std::size_t most_choices = std::size_t{1} << 20;

Situation keeping(Situation situation, KeptChoices& kept) {
    situation.kept = situation.kept == nullptr ? &kept : situation.kept;
    return situation;
}

}  // namespace

std::vector<ParcelSupply> assess(const Situation& asked,
                                 const std::vector<std::optional<Need>>& needs,
                                 const std::vector<DriveTime>& first_arrivals, const Work& work) {
    KeptChoices kept(asked.kept == nullptr ? std::min(choices_a_row * needs.size(), most_choices)
                                           : 0);
    const Situation situation = keeping(asked, kept);
    const Assessor assessor(situation, needs, first_arrivals);
    std::vector<ParcelSupply> supplies(needs.size());
    LayTrials trials(assessor);
    for (std::size_t row = 0; row < needs.size(); ++row) {
        if (auto supply = assessor.settled_answer(row)) {
            supplies[row] = *supply;
            continue;
        }
        trials.add(row);
    }
    take_best_lays(situation.order, assessor, trials, supplies, work);
    const OneMoreEngine engine(situation, needs, first_arrivals);
    std::vector<Keyed> lays = lays_behind(engine, supplies);
    for_each_chunk(work, "direct supply", needs.size(), rows_per_chunk,
                   [&](std::size_t begin, std::size_t end) {
                       for (std::size_t row = begin; row < end; ++row) {
                           take_direct_if_better(situation.order, assessor, row, supplies[row]);
                       }
                   });
    engine.add_gains(std::move(lays), supplies, work);
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
        look_at_lays(situation.order, assessor, row, working);
    }
    if (assessor.asks_for_hose(row, working.supply)) {
        working.options = assessor.hose_options_of(row);
    }
    const OneMoreEngine engine(situation, needs, first_arrivals);
    const std::optional<Keyed> lay = engine.lay_behind(row, working.supply);
    take_direct_if_better(situation.order, assessor, row, working.supply);
    engine.add_gain(lay, working.supply, row);
    return working;
}

}  // namespace farwater::supply
