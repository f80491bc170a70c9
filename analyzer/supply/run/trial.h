// One incident, tried again and again: with every way of filling, many draws, many starts.
// Minutes, gallons, gpm.
#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "analyzer/supply/incident.h"
#include "analyzer/supply/run/attack.h"
#include "analyzer/supply/run/balance.h"
#include "analyzer/supply/run/draw.h"
#include "analyzer/supply/run/schedule.h"
#include "analyzer/supply/run/shuttle.h"

namespace farwater::supply::run {

struct Verdict {
    bool holds = true;
    double flow_below = 0.0;   // where it does not hold: no more than this flow may hold
    double start_after = 0.0;  // where it does not hold: no start before this one may
};

// The memory of the runs, kept between the trials of a thread: to get it anew takes as long as the
// runs of a small shuttle. Trials may live beside each other.
class BorrowedMemory {
public:
    BorrowedMemory();
    ~BorrowedMemory();
    BorrowedMemory(const BorrowedMemory&) = delete;
    BorrowedMemory& operator=(const BorrowedMemory&) = delete;
    Memory* operator->() const { return memory_.get(); }
    Memory& operator*() const { return *memory_; }

private:
    std::unique_ptr<Memory> memory_;
};

class Trial {
public:
    explicit Trial(const Incident& incident);

    const std::vector<FillRegime>& regimes() const { return regimes_; }
    const Attack& attack() const { return attack_; }

    // Fills by `regime` and draws the initial attack up to `until`; runs may start until then.
    void prepare(const FillRegime& regime, double until);

    // Does `flow` hold from `start` for `duration`?
    Verdict judge(double start, double duration, double flow);

    // The first minute at which `flow`, drawn from `start` on, is more than there is; none by
    // `until`.
    std::optional<double> dry_moment(double start, double flow, double until);

    // The first minute at which water other than the engine's own tank may be used, with the attack
    // drawn up to `until`; none when there is none by then. Call after prepare(regime, until).
    std::optional<double> first_supply(double until);
    const AttackDraw& attack_draw() const { return memory_->drawn; }

private:
    Draw draw_from(double start, double flow) const;

    Shuttle shuttle_;
    std::vector<FillRegime> regimes_;
    Attack attack_;
    BorrowedMemory memory_;
};

}  // namespace farwater::supply::run
