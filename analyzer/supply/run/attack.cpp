#include "analyzer/supply/run/attack.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "analyzer/supply/run/memory.h"

namespace farwater::supply::run {

namespace {

constexpr int most_passes = 200;
constexpr double same = 1e-9;  // minutes or gallons

void start_again(AttackDraw& draw) {
    draw.history.clear();
    draw.dry = 0.0;
    draw.dry_until.reset();
}

// Draws along the checks of one run.
class Redraw {
public:
    Redraw(const Shuttle& shuttle, const Schedule<Minute>& schedule, Attack attack,
           const Draw& before, AttackDraw& found)
        : shuttle_(shuttle),
          schedule_(schedule),
          flow_(attack.flow),
          enough_at_(attack.from),
          before_(before),
          found_(found) {
        start_again(found_);
        found_.history.push_back({attack.from, 0.0});
    }

    void pass(Check<Minute> check) {
        const Knot last = found_.history.back();
        check.drawn = drawn_if_wet(last, check.when.at);
        if (falls_short(check)) {
            dry_up(last, check);
        }
        enough_at_ = check.when.at;
    }

    void finish(double until) {
        const Knot last = found_.history.back();
        if (until > last.minute) {
            found_.history.push_back({until, drawn_if_wet(last, until)});
        }
    }

private:
    double drawn_if_wet(Knot last, double minute) const {
        return last.drawn + flow_ * (minute - last.minute);
    }

    // The water ran out somewhere since the last check and stayed out up to this one: the draw
    // follows the water, whose bends are where loads end.
    void dry_up(Knot last, const Check<Minute>& check) {
        const Draw wet{last.minute, flow_, last.drawn, {}};
        const double enough_at = std::max(last.minute, enough_at_);
        const double out = dry_minute(shuttle_, schedule_.loads(), wet, enough_at, check);
        const Knot end{check.when.at, check.water.at};
        std::vector<Knot> bends{{out, drawn_if_wet(last, out)}, end};
        for (const Load<Minute>& load : schedule_.loads()) {
            if (load.last_in.at > out + same && load.last_in.at < end.minute - same) {
                const double minute = load.last_in.at;
                bends.push_back({minute, water_by(shuttle_, schedule_.loads(), before_, minute)});
            }
        }
        std::ranges::sort(bends, {}, &Knot::minute);
        for (const Knot& bend : bends) {
            add({bend.minute, std::max(bend.drawn, found_.history.back().drawn)});
        }
        found_.dry += end.minute - out;
        found_.dry_until = end.minute;
    }

    void add(Knot knot) {
        if (knot.minute > found_.history.back().minute) {
            found_.history.push_back(knot);
        }
    }

    const Shuttle& shuttle_;
    const Schedule<Minute>& schedule_;
    double flow_;
    double enough_at_ = 0.0;  // the last check
    const Draw& before_;
    AttackDraw& found_;
};

bool alike(const std::vector<Knot>& a, const std::vector<Knot>& b) {
    return std::ranges::equal(a, b, [](const Knot& x, const Knot& y) {
        return std::abs(x.minute - y.minute) <= same && std::abs(x.drawn - y.drawn) <= same;
    });
}

}  // namespace

void draw_attack(const Shuttle& shuttle, Attack attack, double until, Memory& memory) {
    AttackDraw& found = memory.drawn;
    start_again(found);
    if (!(attack.flow > 0.0) || !(attack.from < until)) {
        return;
    }
    found.history.push_back({attack.from, 0.0});
    found.history.push_back({until, attack.flow * (until - attack.from)});
    for (int pass = 0; pass < most_passes; ++pass) {
        const Draw draw{until, attack.flow, found.history.back().drawn, found.history};
        memory.schedule.run(shuttle, draw, until);
        Redraw redraw(shuttle, memory.schedule, attack, draw, memory.redrawn);
        memory.balance.begin(shuttle, memory.schedule, draw, attack.from, until);
        while (const Check<Minute>* check = memory.balance.next()) {
            redraw.pass(*check);
        }
        redraw.finish(until);
        const bool settled =
            !memory.schedule.follows_draw() || alike(memory.redrawn.history, found.history);
        std::swap(found, memory.redrawn);
        if (settled) {
            break;
        }
    }
}

}  // namespace farwater::supply::run
