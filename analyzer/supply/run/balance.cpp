#include "analyzer/supply/run/balance.h"

#include <algorithm>
#include <cmath>

namespace farwater::supply::run {

namespace {

constexpr double rounding = 1e-7;        // relative, of gallons
constexpr double rounding_floor = 1e-9;  // gallons
constexpr double close_enough = 1e-9;
constexpr int quick_steps = 4;

Water operator+(Water a, Water b) {
    return {a.fixed + b.fixed, a.per_flow + b.per_flow, a.at + b.at,
            a.follows_draw || b.follows_draw};
}

Water constant(double gallons) { return {gallons, 0.0, gallons, false}; }

Water ramp(double rate, Moment since, Moment when) {
    return {rate * (when.fixed - since.fixed), rate * (when.gallons - since.gallons),
            rate * (when.at - since.at), false};
}

Water less(const Water& a, const Water& b) { return b.at < a.at ? b : a; }
Water more(const Water& a, const Water& b) { return b.at > a.at ? b : a; }

Water following(double drawn, double apart) { return {apart, 0.0, drawn + apart, true}; }

// What a load that has begun and is not all in has put in by then.
Water part_in(const Shuttle& shuttle, const Load& load, Moment when, double drawn) {
    const Water run_in = ramp(load.rate, load.opened, when);
    if (!load.nurses) {
        const Water room = more(constant(load.room), following(drawn, load.room - load.nursed));
        return more(constant(0.0), less(run_in, room));
    }
    const Water fed = more(constant(0.0), less(run_in, following(drawn, -load.nursed)));
    const Moment draft = at_minute(shuttle.draft_ready);
    return when.at > draft.at ? more(fed, ramp(load.dump_rate, draft, when)) : fed;
}

}  // namespace

const std::vector<Check>& Balance::checks(const Shuttle& shuttle, const Schedule& schedule,
                                          const Draw& draw, double from, double until) {
    mark(shuttle, schedule, from, until);
    checks_.clear();
    flowing_.clear();
    nursed_ = 0.0;
    dumped_ = 0.0;
    const auto check = [&](const Mark& mark) {
        const double drawn = drawn_by(draw, mark.when.at);
        checks_.push_back({mark.when, water(shuttle, mark, drawn), drawn});
    };
    auto load = schedule.loads().begin();
    for (const Mark& mark : marks_) {
        for (; load != schedule.loads().end() && load->first_in.at < mark.when.at; ++load) {
            const bool counts = load->nurses || load->first_in.at >= shuttle.draft_ready;
            if (counts && load->first_in.at > from) {
                check({load->first_in});
            }
            flowing_.push_back(&*load);
        }
        check(mark);
    }
    return checks_;
}

void Balance::mark(const Shuttle& shuttle, const Schedule& schedule, double from, double until) {
    marks_.clear();
    const auto inside = [&](double minute) { return minute > from && minute < until; };
    if (inside(shuttle.engine_arrives)) {
        marks_.push_back({at_minute(shuttle.engine_arrives), true,
                          shuttle.engine_arrives <= shuttle.draft_ready});
    }
    if (inside(shuttle.draft_ready)) {
        marks_.push_back(
            {at_minute(shuttle.draft_ready), shuttle.draft_ready <= shuttle.engine_arrives, true});
    }
    for (const Moment& surge : schedule.surges()) {
        if (inside(surge.at)) {
            marks_.push_back({surge});
        }
    }
    std::ranges::sort(marks_, {}, [](const Mark& mark) { return mark.when.at; });
    marks_.push_back(
        {at_minute(until), until <= shuttle.engine_arrives, until <= shuttle.draft_ready});
}

// Loads that are all in are summed up once and forgotten; marks come in order of time.
Water Balance::water(const Shuttle& shuttle, const Mark& mark, double drawn) {
    const double now = mark.when.at;
    const bool draft = now >= shuttle.draft_ready && !mark.without_draft;
    const bool engine = now >= shuttle.engine_arrives && !mark.without_engine;
    Water sum;
    for (std::size_t i = 0; i < flowing_.size();) {
        const Load& load = *flowing_[i];
        if (load.last_in.at <= now) {
            (load.nurses ? nursed_ : dumped_) += load.gallons;
            flowing_[i] = flowing_.back();
            flowing_.pop_back();
            continue;
        }
        if (load.nurses || draft) {
            sum = sum + part_in(shuttle, load, mark.when, drawn);
        }
        ++i;
    }
    return sum + constant((engine ? shuttle.engine_tank : 0.0) + nursed_ + (draft ? dumped_ : 0.0));
}

double water_by(const Shuttle& shuttle, std::span<const Load> loads, const Draw& draw,
                double minute) {
    double sum = minute >= shuttle.engine_arrives ? shuttle.engine_tank : 0.0;
    for (const Load& load : loads) {
        if (load.first_in.at >= minute || (!load.nurses && minute < shuttle.draft_ready)) {
            continue;
        }
        sum += load.last_in.at <= minute
                   ? load.gallons
                   : part_in(shuttle, load, at_minute(minute), drawn_by(draw, minute)).at;
    }
    return sum;
}

double dry_minute(const Shuttle& shuttle, std::span<const Load> loads, const Draw& draw,
                  double enough_at, const Check& short_at) {
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
    if (missing <= rounding_floor) {
        return dry;
    }
    while (dry - enough_at > close_enough) {
        const double middle = enough_at + (dry - enough_at) / 2.0;
        (drawn_by(draw, middle) > water_in(middle) ? dry : enough_at) = middle;
    }
    return dry;
}

bool falls_short(const Check& check) {
    return check.drawn > check.water.at * (1.0 + rounding) + rounding_floor;
}

double flow_that_fits(const Check& check, const Draw& draw) {
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
