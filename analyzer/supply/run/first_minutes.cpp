#include <algorithm>
#include <optional>

#include "analyzer/supply/incident_run.h"
#include "analyzer/supply/run/trial.h"

namespace farwater::supply {

namespace {

using run::Trial;

// Precondition: the trial is prepared up to `end`.
FirstMinutes first_minutes_of(Trial& trial, Duration tank_water, double end) {
    const run::AttackDraw& drawn = trial.attack_draw();
    FirstMinutes found;
    found.tank_water = tank_water;
    found.dry = minutes(drawn.dry);
    const bool dry_at_end = drawn.dry_until && *drawn.dry_until >= end;
    if (dry_at_end || !(in_minutes(tank_water) < end)) {
        return found;
    }
    const double wet_from = std::max(drawn.dry_until.value_or(0.0), in_minutes(tank_water));
    const std::optional<double> supply = trial.first_supply(end);
    if (supply || trial.attack().flow > 0.0) {
        found.continuous = minutes(std::max(wet_from, supply.value_or(wet_from)));
    }
    return found;
}

// Continuous water sooner, then less time without water.
bool better(const FirstMinutes& a, const FirstMinutes& b) {
    if (a.continuous != b.continuous) {
        return a.continuous && (!b.continuous || *a.continuous < *b.continuous);
    }
    return a.dry < b.dry;
}

}  // namespace

FirstMinutes first_minutes(const Incident& incident, Window window) {
    Trial trial(incident);
    const double end = in_minutes(window.start + window.duration);
    const Duration tank_water = trial.attack().flow > 0.0 ? minutes(trial.attack().from)
                                                          : incident.dump_site.engine_arrives;
    FirstMinutes best;
    for (std::size_t i = 0; i < trial.regimes().size(); ++i) {
        trial.prepare(trial.regimes()[i], end);
        const FirstMinutes found = first_minutes_of(trial, tank_water, end);
        if (i == 0 || better(found, best)) {
            best = found;
        }
    }
    return best;
}

}  // namespace farwater::supply
