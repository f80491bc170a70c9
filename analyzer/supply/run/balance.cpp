#include "analyzer/supply/run/balance.h"

#include <algorithm>
#include <cmath>

namespace farwater::supply::run {

namespace {

constexpr double close_enough = 1e-9;  // minutes
constexpr double no_gallons = 1e-9;
constexpr int quick_steps = 4;

template <class In>
In less(const In& a, const In& b) {
    return b.at < a.at ? b : a;
}
template <class In>
In more(const In& a, const In& b) {
    return b.at > a.at ? b : a;
}

// What a load that has begun and is not all in has put in by then.
template <class Time>
Water<Time> part_in(const Shuttle& shuttle, const Load<Time>& load, Time when, double drawn) {
    using In = Water<Time>;
    const In run_in = In::ramp(load.rate, load.opened, when);
    if (!load.nurses) {
        const In room =
            more(In::constant(load.room), In::following(drawn, load.room - load.nursed));
        return more(In::constant(0.0), less(run_in, room));
    }
    const In fed = more(In::constant(0.0), less(run_in, In::following(drawn, -load.nursed)));
    const Time draft = Time::at_minute(shuttle.draft_ready);
    return when.at > draft.at ? more(fed, In::ramp(load.dump_rate, draft, when)) : fed;
}

}  // namespace

template <class Time>
void Balance<Time>::begin(const Shuttle& shuttle, const Schedule<Time>& schedule, const Draw& draw,
                          double from, double until) {
    shuttle_ = &shuttle;
    schedule_ = &schedule;
    draw_ = draw;
    from_ = from;
    until_ = until;
    mark_ = 0;
    load_ = 0;
    flowing_.clear();
    nursed_ = 0.0;
    dumped_ = 0.0;
    mark();
}

template <class Time>
const Check<Time>* Balance<Time>::next(double known_until) {
    const std::vector<Load<Time>>& loads = schedule_->loads();
    while (mark_ < marks_.size()) {
        const double mark_at = marks_[mark_].when.at;
        if (load_ == loads.size() || !(loads[load_].first_in.at < mark_at)) {
            return mark_at > known_until ? nullptr : check(marks_[mark_++]);
        }
        const Load<Time>& load = loads[load_];
        if (!(load.first_in.at < known_until)) {
            return nullptr;
        }
        const bool counts = load.nurses || load.first_in.at >= shuttle_->draft_ready;
        const bool asked = counts && load.first_in.at > from_;
        const Check<Time>* first_gallon = asked ? check({load.first_in}) : nullptr;
        flowing_.push_back(load_++);
        if (asked) {
            return first_gallon;
        }
    }
    return nullptr;
}

template <class Time>
void Balance<Time>::mark() {
    const double engine = shuttle_->engine_arrives;
    const double draft = shuttle_->draft_ready;
    marks_.clear();
    const auto inside = [&](double minute) { return minute > from_ && minute < until_; };
    if (inside(engine)) {
        marks_.push_back({Time::at_minute(engine), true, engine <= draft});
    }
    if (inside(draft)) {
        marks_.push_back({Time::at_minute(draft), draft <= engine, true});
    }
    for (const Time& surge : schedule_->surges()) {
        if (inside(surge.at)) {
            marks_.push_back({surge});
        }
    }
    std::ranges::sort(marks_, {}, [](const Mark& mark) { return mark.when.at; });
    marks_.push_back({Time::at_minute(until_), until_ <= engine, until_ <= draft});
}

template <class Time>
const Check<Time>* Balance<Time>::check(const Mark& mark) {
    const double drawn = drawn_by(draw_, mark.when.at);
    check_ = {mark.when, water(mark, drawn), drawn};
    return &check_;
}

// Loads that are all in are summed up once and forgotten; marks come in order of time.
template <class Time>
Water<Time> Balance<Time>::water(const Mark& mark, double drawn) {
    const double now = mark.when.at;
    const bool draft = now >= shuttle_->draft_ready && !mark.without_draft;
    const bool engine = now >= shuttle_->engine_arrives && !mark.without_engine;
    Water<Time> sum;
    for (std::size_t i = 0; i < flowing_.size();) {
        const Load<Time>& load = schedule_->loads()[flowing_[i]];
        if (load.last_in.at <= now) {
            (load.nurses ? nursed_ : dumped_) += load.gallons;
            flowing_[i] = flowing_.back();
            flowing_.pop_back();
            continue;
        }
        if (load.nurses || draft) {
            sum = sum + part_in(*shuttle_, load, mark.when, drawn);
        }
        ++i;
    }
    return sum + Water<Time>::constant((engine ? shuttle_->engine_tank : 0.0) + nursed_ +
                                       (draft ? dumped_ : 0.0));
}

template class Balance<Moment>;
template class Balance<Minute>;

double water_by(const Shuttle& shuttle, std::span<const Load<Minute>> loads, const Draw& draw,
                double minute) {
    double sum = minute >= shuttle.engine_arrives ? shuttle.engine_tank : 0.0;
    for (const Load<Minute>& load : loads) {
        if (load.first_in.at >= minute || (!load.nurses && minute < shuttle.draft_ready)) {
            continue;
        }
        sum += load.last_in.at <= minute
                   ? load.gallons
                   : part_in(shuttle, load, Minute{minute}, drawn_by(draw, minute)).at;
    }
    return sum;
}

double dry_minute(const Shuttle& shuttle, std::span<const Load<Minute>> loads, const Draw& draw,
                  double enough_at, const Check<Minute>& short_at) {
    const auto water_in = [&](double minute) { return water_by(shuttle, loads, draw, minute); };
    double dry = short_at.when.at;
    double missing = short_at.drawn - short_at.water.at;
    // Water that is in by a minute is drawn no later than this, and exactly then where none runs
    // in.
    for (int step = 0; step < quick_steps && missing > 0.0; ++step) {
        const double earlier = std::max(enough_at, dry - missing / draw.flow);
        missing = drawn_by(draw, earlier) - water_in(earlier);
        dry = earlier;
    }
    if (missing <= no_gallons) {
        return dry;
    }
    while (dry - enough_at > close_enough) {
        const double middle = enough_at + (dry - enough_at) / 2.0;
        (drawn_by(draw, middle) > water_in(middle) ? dry : enough_at) = middle;
    }
    return dry;
}

double flow_that_fits(const Check<Moment>& check, const Draw& draw) {
    const double minutes = check.when.fixed - draw.start;
    const double gallons = draw.before + check.when.gallons - check.water.fixed;
    // minutes x flow^2 + gallons x flow - per_flow = 0
    const double square = gallons * gallons + 4.0 * minutes * check.water.per_flow;
    if (!check.water.follows_draw && minutes > 0.0 && square >= 0.0) {
        const double flow = (std::sqrt(square) - gallons) / (2.0 * minutes);
        if (flow < draw.flow) {
            return std::max(0.0, flow);
        }
    }
    return std::max(0.0, (check.water.at - draw.before) / (check.when.at - draw.start));
}

}  // namespace farwater::supply::run
