// How good a plan is by terms of the first minutes, without any shortcut: every start is tried.
#pragma once

#include <algorithm>
#include <cmath>

#include "analyzer/supply/handbook.h"
#include "analyzer/supply/incident_run.h"
#include "analyzer/supply/plan_order.h"

namespace farwater::supply {

struct HonestTerms {
    HeldFlow flow{};
    std::int32_t begin_by = 0, latest = 0;  // tenths of a minute, since the alarm
    Window window;
};

inline std::int32_t honest_tenths(Duration time) {
    return static_cast<std::int32_t>(std::ceil(in_minutes(time) * 10.0 - 1e-9));
}

inline Merit honest_merit(const HonestTerms& terms, const Incident& plain, const Incident& slow) {
    const InitialAttack& attack = plain.initial_attack;
    const Duration on_fire = attack.flow > gpm(0) ? attack.from : plain.dump_site.engine_arrives;
    Merit merit{.begins = std::nullopt,
                .gap = 0,
                .flow = std::min(sustained_flow(slow, terms.window), held(handbook_flow(plain)))};
    const std::int32_t first = std::max(terms.begin_by, honest_tenths(on_fire));
    for (std::int32_t start = first; start <= terms.latest && !merit.begins; ++start) {
        if (holds(slow, {minutes(start / 10.0), terms.window.duration}, terms.flow)) {
            merit.begins = start;
            merit.gap = honest_tenths(first_minutes(plain, terms.window).dry);
        }
    }
    return merit;
}

// With the incident run's own earliest start, where there are too many plans to try every start.
inline Merit plain_merit(const HonestTerms& terms, const Incident& plain, const Incident& slow) {
    const InitialAttack& attack = plain.initial_attack;
    const Duration on_fire = attack.flow > gpm(0) ? attack.from : plain.dump_site.engine_arrives;
    const auto start =
        earliest_start(slow, terms.flow, terms.window.duration, minutes(terms.latest / 10.0));
    Merit merit{.begins = std::nullopt,
                .gap = 0,
                .flow = std::min(sustained_flow(slow, terms.window), held(handbook_flow(plain)))};
    constexpr std::int32_t doubtful = 10;  // tankers that differ may hold so much less later on
    if (!start && in_tenths(merit.flow) + doubtful >= in_tenths(terms.flow)) {
        return honest_merit(terms, plain, slow);
    }
    if (start) {
        merit.begins = std::max({terms.begin_by, honest_tenths(on_fire), honest_tenths(*start)});
        merit.gap = honest_tenths(first_minutes(plain, terms.window).dry);
    }
    return merit;
}
}  // namespace farwater::supply
