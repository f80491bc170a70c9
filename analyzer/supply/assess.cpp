#include "analyzer/supply/assess.h"

#include <algorithm>
#include <array>
#include <numeric>
#include <utility>

#include "analyzer/supply/kept_choices.h"
#include "analyzer/supply/places/assessor.h"
#include "analyzer/supply/places/lay_trials.h"
#include "analyzer/supply/places/one_more_engine.h"
#include "analyzer/supply/row_answers.h"

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

void settle(const Assessor& assessor, LayTrials& trials, RowAnswers& answers) {
    for (std::size_t i = 0; i < answers.size(); ++i) {
        const std::uint32_t row = answers.rows()[i];
        if (auto supply = assessor.settled_answer(row)) {
            answers.all()[i] = *supply;
        } else {
            trials.add(row);
        }
    }
}

// Precondition: nothing was asked of the trials yet.
void take_best_lays(const PlanOrder& order, const Assessor& assessor, LayTrials& trials,
                    RowAnswers& answers, const Work& work) {
    assessor.answer(trials.first(work), answers.all(), work);
    for (auto keyed = trials.next(work); !keyed.empty() && !work.stopped();
         keyed = trials.next(work)) {
        std::vector<ParcelSupply> others(keyed.size());  // unknown is worse than all
        assessor.answer(keyed, others, work);
        for (const Keyed& item : keyed) {
            ParcelSupply& best = answers.of_row(item.row);
            if (worse(order, best, others[item.slot])) {
                best = others[item.slot];
            }
        }
    }
}

// Of those that are of a lay.
std::vector<Keyed> lays_behind(const OneMoreEngine& engine, const RowAnswers& answers) {
    std::vector<Keyed> lays;
    for (std::size_t i = 0; i < answers.size(); ++i) {
        if (const auto lay = engine.lay_behind(answers.rows()[i], answers.all()[i])) {
            lays.push_back(*lay);
        }
    }
    return lays;
}

// The same for one row, with what was found on the way.
void look_at_lays(const PlanOrder& order, const Assessor& assessor, LayTrials& trials,
                  RowAnswers& answers, Working& working) {
    ParcelSupply& best = answers.all().front();
    for (auto keyed = trials.first(Work{}); !keyed.empty(); keyed = trials.next(Work{})) {
        working.looked.push_back(assessor.look_at(keyed.front()));
        const ParcelSupply& supply = working.looked.back().supply;
        if (working.looked.size() == 1 || worse(order, best, supply)) {
            best = supply;
        }
    }
}

// A dozen for each row of a run would hold them all; of a large run some are searched again.
constexpr std::size_t choices_a_row = 16;
constexpr std::size_t most_choices = std::size_t{1} << 20;

std::size_t room_for_choices(const Situation& asked, std::size_t rows) {
    return asked.kept == nullptr ? std::min(choices_a_row * rows, most_choices) : 0;
}

Situation keeping(Situation situation, KeptChoices& kept) {
    situation.kept = situation.kept == nullptr ? &kept : situation.kept;
    return situation;
}

RowAnswers answers_of(const Situation& situation, const std::vector<std::optional<Need>>& needs,
                      const std::vector<DriveTime>& first_arrivals,
                      std::span<const std::uint32_t> rows, const Work& work) {
    const Assessor assessor(situation, needs, first_arrivals);
    RowAnswers answers(rows);
    LayTrials trials(assessor, answers);
    settle(assessor, trials, answers);
    take_best_lays(situation.order, assessor, trials, answers, work);
    const OneMoreEngine engine(situation, needs, first_arrivals);
    std::vector<Keyed> lays = lays_behind(engine, answers);
    for_each_chunk(work, "direct supply", rows.size(), rows_per_chunk,
                   [&](std::size_t begin, std::size_t end) {
                       for (std::size_t i = begin; i < end; ++i) {
                           take_direct_if_better(situation.order, assessor, rows[i],
                                                 answers.all()[i]);
                       }
                   });
    engine.add_gains(std::move(lays), answers, work);
    return answers;
}

// By their first dump site, those without one last: parcels that share a case are in one run, but
// for a few at its ends.
std::vector<std::uint32_t> neighbours_together(const Lists<HoseLay>& lays) {
    const auto first_site = [&](std::uint32_t row) {
        return lays[row].empty() ? DumpSiteIndex{} : lays[row].front().dump_site;
    };
    std::vector<std::uint32_t> rows(lays.size());
    std::iota(rows.begin(), rows.end(), 0U);
    std::ranges::sort(rows, [&](std::uint32_t a, std::uint32_t b) {
        return std::pair(first_site(a), a) < std::pair(first_site(b), b);
    });
    return rows;
}

}  // namespace

void assess_in_runs(const Situation& asked, const std::vector<std::optional<Need>>& needs,
                    const std::vector<DriveTime>& first_arrivals, std::size_t most_rows,
                    const TakeAnswers& take, const Work& work) {
    KeptChoices kept(room_for_choices(asked, std::min(most_rows, needs.size())));
    const Situation situation = keeping(asked, kept);
    std::vector<std::uint32_t> order = neighbours_together(situation.trips.hose_lays);
    for (std::size_t begin = 0; begin < order.size() && !work.stopped(); begin += most_rows) {
        const auto rows =
            std::span(order).subspan(begin, std::min(most_rows, order.size() - begin));
        std::ranges::sort(rows);
        take(answers_of(situation, needs, first_arrivals, rows, work));
    }
}

std::vector<ParcelSupply> assess(const Situation& asked,
                                 const std::vector<std::optional<Need>>& needs,
                                 const std::vector<DriveTime>& first_arrivals, const Work& work) {
    KeptChoices kept(room_for_choices(asked, needs.size()));
    std::vector<std::uint32_t> rows(needs.size());
    std::iota(rows.begin(), rows.end(), 0U);
    return std::move(answers_of(keeping(asked, kept), needs, first_arrivals, rows, work).all());
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
    const std::array rows{static_cast<std::uint32_t>(row)};
    RowAnswers answers(rows);
    ParcelSupply& answer = answers.all().front();
    LayTrials trials(assessor, answers);
    if (const auto supply = assessor.settled_answer(row)) {
        answer = *supply;
    } else {
        trials.add(row);
        look_at_lays(situation.order, assessor, trials, answers, working);
    }
    if (assessor.asks_for_hose(row, answer)) {
        working.options = assessor.hose_options_of(row);
    }
    const OneMoreEngine engine(situation, needs, first_arrivals);
    std::vector<Keyed> lay = lays_behind(engine, answers);
    take_direct_if_better(situation.order, assessor, row, answer);
    engine.add_gains(std::move(lay), answers, Work{});
    working.supply = answer;
    return working;
}

}  // namespace farwater::supply
