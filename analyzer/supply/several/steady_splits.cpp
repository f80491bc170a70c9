#include "analyzer/supply/several/steady_splits.h"

#include <algorithm>
#include <array>
#include <limits>

#include "analyzer/supply/incident_run.h"
#include "analyzer/supply/visits.h"

namespace farwater::supply {
namespace {

constexpr std::size_t most_bits = 32;

bool has(std::uint32_t set, std::size_t tanker) { return (set >> tanker & 1U) != 0; }

// The fill site at its best: by the strongest engine that could run it, from the first moment.
FillSite at_its_best(const SeveralQuestion& question, const FillOption& option) {
    FillSite site{.places = option.places,
                  .flows = std::nullopt,
                  .pump = option.source->with_pump(gpm(0)),
                  .ready = never_ready,
                  .usable = option.source->usable,
                  .inflow = option.source->inflow,
                  .backing = option.backing};
    for (std::size_t engine = 0; engine < option.run_by.size(); ++engine) {
        if (option.run_by[engine]) {
            const Flow rated = pump_of(question.situation, question.scene.engines[engine]);
            site.pump = std::max(site.pump, option.source->with_pump(rated));
            site.ready = std::min(site.ready, *option.run_by[engine]);
        }
    }
    for (const auto& opened : option.opened_by) {
        site.ready = std::min(site.ready, opened.value_or(site.ready));
    }
    return site;
}

}  // namespace

// The best so many of all that are added, in order; of equals those that came first.
class SteadySplits::BestSplits {
public:
    explicit BestSplits(std::size_t most) : most_(most) { best_.reserve(most + 1); }

    void add(const SteadySplit& split) {
        if (best_.size() == most_ && !(split.estimate > best_.back().estimate)) {
            return;
        }
        best_.insert(std::ranges::upper_bound(best_, split.estimate, std::ranges::greater{},
                                              &SteadySplit::estimate),
                     split);
        best_.resize(std::min(best_.size(), most_));
    }

    std::vector<SteadySplit> all() && { return std::move(best_); }

private:
    std::size_t most_;
    std::vector<SteadySplit> best_;
};

void SteadySplits::Stream::add(const Stream& other, double sign) {
    delivered += sign * other.delivered;
    refilled += sign * other.refilled;
    in_place += sign * other.in_place;
    in_slot += sign * other.in_slot;
}

SteadySplits::SteadySplits(const SeveralQuestion& question)
    : question_(question),
      tankers_(std::min(question.tankers.size(), most_bits)),
      slots_(question.scene.set_up.offload_slots),
      cap_(question.scene.set_up.flow_cap ? in_gpm(*question.scene.set_up.flow_cap)
                                          : std::numeric_limits<double>::infinity()) {
    Incident all{.dump_site = question.scene.set_up,
                 .fill_sites = {},
                 .tankers = question.tankers,
                 .initial_attack = {}};
    for (const FillOption& option : question.options) {
        all.fill_sites.push_back(at_its_best(question, option));
    }
    const Incident slow = slowed(all, question.judge.factor());
    const Duration end = question.judge.window().start + question.judge.window().duration;
    for (std::size_t o = 0; o < question.options.size(); ++o) {
        const FillSite& site = slow.fill_sites[o];
        const double rate =
            site.usable
                ? std::min(in_gpm(site.pump),
                           in_gpm(*site.usable / question.judge.window().duration + site.inflow))
                : in_gpm(site.pump);
        strengths_.push_back(
            {static_cast<double>(site.places), rate,
             std::clamp((end - site.ready) / question.judge.window().duration, 0.0, 1.0)});
        for (std::size_t t = 0; t < tankers_; ++t) {
            const auto& leg = question.options[o].legs[t];
            if (!leg) {
                rounds_.push_back(0.0);
                streams_.emplace_back();
                continue;
            }
            const Tanker& tanker = slow.tankers[t];
            const double place = in_minutes(fill_visit(site, tanker).in_place());
            const double slot = in_minutes(slot_visit(slow.dump_site, tanker));
            const double round = place + in_minutes(offload_visit(tanker)) +
                                 in_minutes(leg->empty + leg->loaded) * question.judge.factor();
            rounds_.push_back(round);
            streams_.push_back({in_gallons(tanker.delivered) / round,
                                in_gallons(tanker.refilled) / round, place / round, slot / round});
        }
    }
}

double SteadySplits::estimate(std::span<const Stream> streams,
                              std::span<const std::size_t> options) const {
    double delivered = 0.0;
    double in_slot = 0.0;
    for (std::size_t i = 0; i < streams.size(); ++i) {
        const Stream& stream = streams[i];
        const Strength& strength = strengths_[options[i]];
        double part = 1.0;
        if (stream.in_place > strength.places) {
            part = strength.places / stream.in_place;
        }
        if (stream.refilled * part > strength.rate) {
            part = strength.rate / stream.refilled;
        }
        delivered += part * strength.share * stream.delivered;
        in_slot += part * strength.share * stream.in_slot;
    }
    if (in_slot > slots_) {
        delivered *= slots_ / in_slot;
    }
    return std::min(delivered, cap_);
}

double SteadySplits::best_alone(std::uint32_t running) const {
    double best = 0.0;
    for (std::size_t option = 0; option < strengths_.size(); ++option) {
        Stream sum;
        for (std::size_t t = 0; t < tankers_; ++t) {
            if (has(running, t)) {
                sum.add(stream(option, t), 1.0);
            }
        }
        best = std::max(best, estimate({&sum, 1}, {&option, 1}));
    }
    return best;
}

// The tankers of two sites, as they are sent from one to the other.
class SteadySplits::Pair {
public:
    // All who have a way to the first are there; the others at the second.
    Pair(const SteadySplits& of, std::size_t first, std::size_t second, std::uint32_t running)
        : of_(of), options_{first, second} {
        split_.first = static_cast<std::uint32_t>(first);
        split_.second = static_cast<std::uint32_t>(second);
        for (std::size_t t = 0; t < of.tankers_; ++t) {
            if (has(running, t)) {
                place(t);
            }
        }
        std::stable_sort(order_.begin(), order_.begin() + static_cast<std::ptrdiff_t>(count_),
                         [&](std::size_t a, std::size_t b) {
                             return of.round(second, a) * of.round(first, b) <
                                    of.round(second, b) * of.round(first, a);
                         });
    }

    // Who has a way to both, first who is nearest to the second by comparison.
    std::span<const std::size_t> who_may_move() const { return std::span(order_).first(count_); }

    void send(std::size_t tanker, bool to_second) {
        const std::size_t to = to_second ? 1 : 0;
        streams_[1 - to].add(of_.stream(options_[1 - to], tanker), -1.0);
        streams_[to].add(of_.stream(options_[to], tanker), 1.0);
        split_.to_second ^= 1U << tanker;
    }

    // Adds the split as it stands, unless one site has them all.
    void keep(BestSplits& splits) {
        split_.estimate = of_.estimate(streams_, options_);
        if (split_.to_second != 0 && split_.to_second != split_.running) {
            splits.add(split_);
        }
    }

private:
    void place(std::size_t tanker) {
        const bool to_first = of_.round(options_[0], tanker) > 0.0;
        const bool to_second = of_.round(options_[1], tanker) > 0.0;
        if (!to_first && !to_second) {
            return;
        }
        split_.running |= 1U << tanker;
        split_.to_second |= to_first ? 0U : 1U << tanker;
        const std::size_t at = to_first ? 0 : 1;
        streams_[at].add(of_.stream(options_[at], tanker), 1.0);
        if (to_first && to_second) {
            order_[count_++] = tanker;
        }
    }

    const SteadySplits& of_;
    std::array<std::size_t, 2> options_;
    std::array<Stream, 2> streams_{};
    SteadySplit split_{};
    std::array<std::size_t, most_bits> order_{};
    std::size_t count_ = 0;
};

void SteadySplits::add_pair(std::size_t first, std::size_t second, std::uint32_t running,
                            BestSplits& splits) const {
    Pair pair(*this, first, second, running);
    const auto movers = pair.who_may_move();
    const auto alone = movers.empty() ? movers : movers.subspan(1);  // the first comes with the row
    for (const std::size_t tanker : alone) {
        pair.send(tanker, true);
        pair.keep(splits);
        pair.send(tanker, false);
    }
    for (const std::size_t tanker : movers) {
        pair.send(tanker, true);
        pair.keep(splits);
    }
    const auto left_behind = movers.empty() ? movers : movers.first(movers.size() - 1);
    for (const std::size_t tanker : left_behind) {
        pair.send(tanker, false);
        pair.keep(splits);
        pair.send(tanker, true);
    }
}

std::vector<SteadySplit> SteadySplits::best_pairs(std::span<const std::uint32_t> running,
                                                  std::size_t most) const {
    BestSplits splits(most);
    const auto& options = question_.options;
    for (std::size_t i = 0; i < options.size(); ++i) {
        for (std::size_t j = i + 1; j < options.size(); ++j) {
            if (sharing(question_.situation, *options[i].source, *options[j].source) ==
                Sharing::one_water) {
                continue;
            }
            for (const std::uint32_t set : running) {
                add_pair(i, j, set, splits);
            }
        }
    }
    return std::move(splits).all();
}

}  // namespace farwater::supply
