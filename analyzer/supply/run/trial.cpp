#include "analyzer/supply/run/trial.h"

#include <algorithm>
#include <limits>
#include <utility>

namespace farwater::supply::run {

namespace {

// Most flows that do not hold fail long before the end.
constexpr int parts = 8;

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

Trial::Trial(const Incident& incident) : attack_(attack_of(incident)) {
    make_ready(memory_->shuttle, incident);
    memory_->regimes.find(incident);
}

void Trial::prepare(FillRegime regime, double until) {
    Memory& memory = *memory_;
    fill_by(memory.shuttle, regime);
    const bool draws = attack_.flow > 0.0 && attack_.from < until;
    const AttackDraw* kept = draws ? memory.kept.find(memory.shuttle, attack_, until) : nullptr;
    if (kept != nullptr) {
        memory.drawn = *kept;
        return;
    }
    draw_attack(memory.shuttle, attack_, until, memory);
    if (draws) {
        memory.kept.keep(memory.shuttle, attack_, until, memory.schedule.loads(), memory.drawn);
    }
}

Draw Trial::draw_from(double start, double flow) const {
    return {start, flow, drawn_in_history(memory_->drawn.history, start), memory_->drawn.history};
}

void Trial::run(const Draw& draw, double from, double until) {
    memory_->schedule.run(shuttle(), draw, until);
    memory_->balance.begin(shuttle(), memory_->schedule, draw, from, until);
}

// In parts: what falls short in one of them does so in all. A surge that comes to light is one more
// check, maybe before the part.
bool Trial::holds(double start, double duration, double flow) {
    const Draw draw = draw_from(start, flow);
    const double until = start + duration;
    Schedule<Minute>& schedule = memory_->schedule;
    schedule.begin(shuttle(), draw, until);
    std::optional<std::size_t> surges;
    for (int part = 1; part <= parts; ++part) {
        const double part_until = part < parts ? start + duration * part / parts : until;
        schedule.go_on(part_until);
        if (surges != schedule.surges().size()) {
            surges = schedule.surges().size();
            memory_->balance.begin(shuttle(), schedule, draw, start, until);
        }
        while (const Check<Minute>* check = memory_->balance.next(part_until)) {
            if (falls_short(*check)) {
                return false;
            }
        }
    }
    return true;
}

std::optional<double> Trial::flow_below(double start, double duration, double flow) {
    const Draw draw = draw_from(start, flow);
    const double until = start + duration;
    memory_->exact_schedule.run(shuttle(), draw, until);
    memory_->exact_balance.begin(shuttle(), memory_->exact_schedule, draw, start, until);
    std::optional<double> below;
    while (const Check<Moment>* check = memory_->exact_balance.next()) {
        if (falls_short(*check)) {
            below = std::min(below.value_or(flow), flow_that_fits(*check, draw));
        }
    }
    return below;
}

std::optional<double> Trial::start_after(double start, double duration, double flow) {
    const Draw draw = draw_from(start, flow);
    run(draw, start, start + duration);
    std::optional<double> after;
    while (const Check<Minute>* check = memory_->balance.next()) {
        if (falls_short(*check)) {
            const double lasts = (check->water.at - draw.before) / flow;
            after = std::max(after.value_or(start), check->when.at - lasts);
        }
    }
    return after;
}

std::optional<double> Trial::dry_moment(double start, double flow, double until) {
    const Draw draw = draw_from(start, flow);
    run(draw, start, until);
    double enough_at = start;
    while (const Check<Minute>* check = memory_->balance.next()) {
        if (falls_short(*check)) {
            return dry_minute(shuttle(), memory_->schedule.loads(), draw, enough_at, *check);
        }
        enough_at = check->when.at;
    }
    return std::nullopt;
}

std::optional<double> Trial::first_supply(double until) {
    const double flow = attack_.flow > 0.0 ? attack_.flow : 1.0;
    const Draw draw{until, flow, drawn_in_history(memory_->drawn.history, until),
                    memory_->drawn.history};
    Schedule<Minute>& schedule = memory_->schedule;
    schedule.begin(shuttle(), draw, until);
    double first = std::numeric_limits<double>::infinity();
    // What arrives after the first water is no sooner than that.
    for (int part = 1; part <= parts && until * (part - 1) / parts <= first; ++part) {
        schedule.go_on(part < parts ? until * part / parts : until);
        first = std::numeric_limits<double>::infinity();
        for (const Load<Minute>& load : schedule.loads()) {
            first = std::min(first, load.nurses ? load.first_in.at
                                                : std::max(load.opened.at, shuttle().draft_ready));
        }
    }
    return first < until ? std::optional(first) : std::nullopt;
}

}  // namespace farwater::supply::run
