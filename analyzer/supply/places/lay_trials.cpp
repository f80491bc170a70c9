#include "analyzer/supply/places/lay_trials.h"

#include <algorithm>
#include <optional>
#include <utility>

namespace farwater::supply {
namespace {

constexpr std::size_t trials_per_chunk = 64;

}  // namespace

template <class Do>
void LayTrials::for_each_left(std::size_t trial, const Do& look) const {
    for (std::size_t item = first_[trial]; item < first_[trial + 1]; ++item) {
        if (stage_[item] < Stage::outdone) {
            look(item);
        }
    }
}

void LayTrials::add(std::size_t row) {
    row_.push_back(static_cast<std::uint32_t>(row));
    first_.push_back(first_.back() + assessor_.lays_of(row).size());
}

// Of rows with one lay nothing is asked, nor, before the first lay is given out, of those that are
// unlikely to give most; ask_for_others() makes up for it.
std::vector<Keyed> LayTrials::first(const Work& work) {
    promised_.assign(first_.back(), Promise{});
    stage_.assign(first_.back(), Stage::untold);
    std::vector<Keyed> asked;
    for (std::size_t trial = 0; trial < row_.size(); ++trial) {
        if (first_[trial + 1] - first_[trial] > 1) {
            asked.push_back(keyed(trial, first_[trial], first_[trial]));
        }
    }
    ask_for(std::move(asked), work);
    asked.clear();
    for (std::size_t trial = 0; trial < row_.size(); ++trial) {
        const std::size_t begin = first_[trial];
        for (std::size_t item = begin + 1; item < first_[trial + 1]; ++item) {
            if (promised_[begin].likely > HeldFlow{} &&
                assessor_.may_be_likeliest(row_[trial], lay_of(trial, item))) {
                asked.push_back(keyed(trial, item, item));
            }
        }
    }
    ask_for(std::move(asked), work);
    std::vector<Keyed> chosen;
    for (std::size_t trial = 0; trial < row_.size(); ++trial) {
        const std::size_t item = most_likely(trial);
        stage_[item] = Stage::given_out;
        chosen.push_back(keyed(trial, item, found_.place_of(row_[trial])));
    }
    return chosen;
}

std::vector<Keyed> LayTrials::next(const Work& work) {
    if (!others_asked_) {
        drop_outdone(work);
        ask_for_others(work);
        others_asked_ = true;
    }
    std::vector<Keyed> chosen;
    for (std::size_t trial = 0; trial < row_.size(); ++trial) {
        const ParcelSupply& so_far = found_.of_row(row_[trial]);
        std::optional<std::size_t> best;
        for_each_left(trial, [&](std::size_t item) {
            const Promise& promise = promised_[item];
            if (is_wanted(promise, so_far) &&
                (!best || promises_more(promise, promised_[*best], so_far.needed))) {
                best = item;
            }
        });
        if (best) {
            stage_[*best] = Stage::given_out;
            const HeldFlow least =
                assessor_.order().terms ? HeldFlow{} : to_exceed(promised_[*best], so_far);
            chosen.push_back(keyed(trial, *best, chosen.size(), least));
        }
    }
    return chosen;
}

// By terms, which ask for more than flow, all are where they are not met.
bool LayTrials::is_wanted(const Promise& promise, const ParcelSupply& found) const {
    const PlanOrder& order = assessor_.order();
    return order.terms ? !content_with(order, found) : may_be_better(promise, found);
}

Keyed LayTrials::keyed(std::size_t trial, std::size_t item, std::size_t slot,
                       HeldFlow least) const {
    return assessor_.keyed(row_[trial], lay_of(trial, item), slot, least);
}

// The first of equals.
std::size_t LayTrials::most_likely(std::size_t trial) const {
    const auto promised =
        std::span(promised_).subspan(first_[trial], first_[trial + 1] - first_[trial]);
    return first_[trial] +
           static_cast<std::size_t>(std::ranges::max_element(promised, {}, &Promise::likely) -
                                    promised.begin());
}

// Slots are items.
void LayTrials::ask_for(std::vector<Keyed> items, const Work& work) {
    for (const Keyed& item : items) {
        stage_[item.slot] = Stage::promised;
    }
    assessor_.promise(std::move(items), promised_, work);
}

void LayTrials::drop_outdone(const Work& work) {
    for_each_chunk(work, "supply", row_.size(), trials_per_chunk,
                   [&](std::size_t first, std::size_t last) {
                       for (std::size_t trial = first; trial < last; ++trial) {
                           drop_outdone(trial);
                       }
                   });
}

// By the lay that was given out.
void LayTrials::drop_outdone(std::size_t trial) {
    std::size_t chosen = first_[trial];
    while (stage_[chosen] != Stage::given_out) {
        ++chosen;
    }
    for_each_left(trial, [&](std::size_t item) {
        if (assessor_.is_outdone(row_[trial], lay_of(trial, item), lay_of(trial, chosen))) {
            stage_[item] = Stage::outdone;
        }
    });
}

void LayTrials::ask_for_others(const Work& work) {
    std::vector<Keyed> asked;
    for (std::size_t trial = 0; trial < row_.size(); ++trial) {
        for_each_left(trial, [&](std::size_t item) {
            if (stage_[item] == Stage::untold) {
                asked.push_back(keyed(trial, item, item));
            }
        });
    }
    ask_for(std::move(asked), work);
}

}  // namespace farwater::supply
