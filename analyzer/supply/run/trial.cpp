#include "analyzer/supply/run/trial.h"

#include <algorithm>
#include <limits>
#include <utility>

namespace farwater::supply::run {

namespace {

Attack attack_of(const Incident& incident) {
    return {in_gpm(incident.initial_attack.flow),
            std::max(in_minutes(incident.initial_attack.from),
                     in_minutes(incident.dump_site.engine_arrives))};
}

// Not the caller's business: what comes out of a run does not depend on it.
std::vector<std::unique_ptr<Memory>>& free_memory() {
    thread_local std::vector<std::unique_ptr<Memory>> memory;
    return memory;
}

}  // namespace

BorrowedMemory::BorrowedMemory() {
    if (free_memory().empty()) {
        memory_ = std::make_unique<Memory>();
    } else {
        memory_ = std::move(free_memory().back());
        free_memory().pop_back();
    }
}

BorrowedMemory::~BorrowedMemory() { free_memory().push_back(std::move(memory_)); }

Trial::Trial(const Incident& incident)
    : shuttle_(shuttle_of(incident)),
      regimes_(fill_regimes(incident)),
      attack_(attack_of(incident)) {}

void Trial::prepare(const FillRegime& regime, double until) {
    fill_by(shuttle_, regime);
    draw_attack(shuttle_, attack_, until, *memory_);
}

Draw Trial::draw_from(double start, double flow) const {
    return {start, flow, drawn_in_history(memory_->drawn.history, start), memory_->drawn.history};
}

Verdict Trial::judge(double start, double duration, double flow) {
    const Draw draw = draw_from(start, flow);
    const double until = start + duration;
    memory_->schedule.run(shuttle_, draw, until);
    Verdict verdict{true, flow, start};
    for (const Check& check :
         memory_->balance.checks(shuttle_, memory_->schedule, draw, start, until)) {
        if (falls_short(check)) {
            verdict.holds = false;
            verdict.flow_below = std::min(verdict.flow_below, flow_that_fits(check, draw));
            const double lasts = (check.water.at - draw.before) / flow;
            verdict.start_after = std::max(verdict.start_after, check.when.at - lasts);
        }
    }
    return verdict;
}

std::optional<double> Trial::dry_moment(double start, double flow, double until) {
    const Draw draw = draw_from(start, flow);
    const std::vector<Load>& loads = memory_->schedule.run(shuttle_, draw, until);
    double enough_at = start;
    for (const Check& check :
         memory_->balance.checks(shuttle_, memory_->schedule, draw, start, until)) {
        if (falls_short(check)) {
            return dry_minute(shuttle_, loads, draw, enough_at, check);
        }
        enough_at = check.when.at;
    }
    return std::nullopt;
}

std::optional<double> Trial::first_supply(double until) {
    const double flow = attack_.flow > 0.0 ? attack_.flow : 1.0;
    const Draw draw{until, flow, drawn_in_history(memory_->drawn.history, until),
                    memory_->drawn.history};
    double first = std::numeric_limits<double>::infinity();
    for (const Load& load : memory_->schedule.run(shuttle_, draw, until)) {
        const double usable =
            load.nurses ? load.first_in.at : std::max(load.opened.at, shuttle_.draft_ready);
        first = std::min(first, usable);
    }
    return first < until ? std::optional(first) : std::nullopt;
}

}  // namespace farwater::supply::run
