#include "analyzer/supply/incident_run.h"

#include <algorithm>
#include <cstdint>

#include "analyzer/supply/run/tenths.h"
#include "analyzer/supply/run/trial.h"

namespace farwater::supply {

namespace {

using run::Trial;

constexpr int most_newton_steps = 12;

bool holds_in(Trial& trial, Window window, std::int32_t tenths) {
    return trial.holds(in_minutes(window.start), in_minutes(window.duration), run::as_gpm(tenths));
}

// The largest flow from `least`, which holds, to `most`, above which nothing does. Newton's steps
// come down from above. Then the tenth above the answer is tried as well: where it holds, since the
// order of tankers of different size may change with the flow, the rest is searched by halves.
std::int32_t largest_that_holds(Trial& trial, Window window, std::int32_t least,
                                std::int32_t most) {
    std::int32_t holds = least;
    std::int32_t fails = most + 1;
    std::int32_t next = most;
    for (int step = 0; step < most_newton_steps && next > holds; ++step) {
        const std::optional<double> below = trial.flow_below(
            in_minutes(window.start), in_minutes(window.duration), run::as_gpm(next));
        if (!below) {
            holds = next;
            break;
        }
        fails = next;
        next = std::min(next - 1, run::tenths_below(*below));
    }
    for (next = holds + 1; fails - holds > 1; next = holds + (fails - holds) / 2) {
        (holds_in(trial, window, next) ? holds : fails) = next;
    }
    return holds;
}

}  // namespace

HeldFlow sustained_flow(const Incident& incident, Window window) {
    return sustained_flow_above(incident, window, HeldFlow{});
}

HeldFlow sustained_flow_above(const Incident& incident, Window window, HeldFlow least) {
    if (!(in_minutes(window.duration) > 0.0)) {
        return least;
    }
    const std::int32_t most = run::tenths_below(in_gpm(window_bound(incident, window)));
    std::int32_t best = in_tenths(least);
    if (best >= most) {
        return least;
    }
    Trial trial(incident);
    const std::size_t regimes = trial.regimes().size();
    // Round and round, until no way of filling holds a tenth more.
    for (std::size_t i = 0, since_best = 0; since_best < regimes && best < most;
         i = (i + 1) % regimes) {
        trial.prepare(trial.regimes()[i], in_minutes(window.start));
        ++since_best;
        if (best == 0 || holds_in(trial, window, best + 1)) {
            const std::int32_t here = largest_that_holds(trial, window, best, most);
            since_best = here > best ? 1 : since_best;
            best = here;
        }
    }
    return tenths_of_gpm(best);
}

Incident slowed(const Incident& incident, double factor) {
    Incident slow = incident;
    for (Tanker& tanker : slow.tankers) {
        for (Duration* stage : {&tanker.fill_before, &tanker.fill_after, &tanker.offload_before,
                                &tanker.offload_after, &tanker.leg.empty, &tanker.leg.loaded}) {
            *stage = *stage * factor;
        }
        tanker.fill_limit = tanker.fill_limit / factor;
        tanker.offload = tanker.offload / factor;
        tanker.nurse_rate = tanker.nurse_rate / factor;
    }
    for (FillSite& site : slow.fill_sites) {
        site.pump = site.pump / factor;
        site.backing = site.backing * factor;
    }
    slow.dump_site.single_file = slow.dump_site.single_file * factor;
    slow.dump_site.nurse_hookup = slow.dump_site.nurse_hookup * factor;
    return slow;
}

bool holds(const Incident& incident, Window window, HeldFlow flow) {
    if (in_tenths(flow) <= 0) {
        return true;
    }
    if (run::above_cap(incident, flow)) {
        return false;
    }
    Trial trial(incident);
    for (std::size_t i = 0; i < trial.regimes().size(); ++i) {
        trial.prepare(trial.regimes()[i], in_minutes(window.start));
        if (holds_in(trial, window, in_tenths(flow))) {
            return true;
        }
    }
    return false;
}

Duration lasts(const Incident& incident, Duration start, HeldFlow flow, Duration longest) {
    if (in_tenths(flow) <= 0) {
        return longest;
    }
    Duration best;
    if (run::above_cap(incident, flow)) {
        return best;
    }
    Trial trial(incident);
    for (std::size_t i = 0; i < trial.regimes().size(); ++i) {
        trial.prepare(trial.regimes()[i], in_minutes(start));
        const auto dry = trial.dry_moment(in_minutes(start), run::as_gpm(in_tenths(flow)),
                                          in_minutes(start + longest));
        const Duration here = dry ? minutes(*dry) - start : longest;
        best = std::max(best, here);
    }
    return best;
}

}  // namespace farwater::supply
