// One incident, tried again and again: with every way of filling, many draws, many starts.
// Minutes, gallons, gpm.
#pragma once

#include <memory>
#include <optional>

#include "analyzer/supply/incident.h"
#include "analyzer/supply/run/attack.h"
#include "analyzer/supply/run/balance.h"
#include "analyzer/supply/run/draw.h"
#include "analyzer/supply/run/memory.h"
#include "analyzer/supply/run/schedule.h"
#include "analyzer/supply/run/shuttle.h"

namespace farwater::supply::run {

// Trials of a thread may live beside each other.
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

    const FillRegimes& regimes() const { return memory_->regimes; }
    const Attack& attack() const { return attack_; }

    // Fills by `regime` and draws the initial attack up to `until`; runs may start until then.
    void prepare(FillRegime regime, double until);

    // Does `flow` hold from `start` for `duration`?
    bool holds(double start, double duration, double flow);

    // The same, and where it does not: no more than this flow may hold. None: it holds. Twice the
    // time.
    std::optional<double> flow_below(double start, double duration, double flow);

    // The same, and where it does not: no start before this one may.
    std::optional<double> start_after(double start, double duration, double flow);

    // The first minute at which `flow`, drawn from `start` on, is more than there is; none by
    // `until`.
    std::optional<double> dry_moment(double start, double flow, double until);

    // The first minute at which water other than the engine's own tank may be used, with the attack
    // drawn up to `until`; none when there is none by then. Call after prepare(regime, until).
    std::optional<double> first_supply(double until);
    const AttackDraw& attack_draw() const { return memory_->drawn; }

private:
    Draw draw_from(double start, double flow) const;
    void run(const Draw& draw, double from, double until);

    const Shuttle& shuttle() const { return memory_->shuttle; }

    Attack attack_;
    BorrowedMemory memory_;
};

}  // namespace farwater::supply::run
