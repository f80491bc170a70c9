// The initial attack: what the fire draws before the sustained flow begins. While there is usable
// water it draws its flow; while there is none it draws what runs in, and that time is dry.
// Minutes, gallons, gpm.
#pragma once

#include <optional>
#include <vector>

#include "analyzer/supply/run/balance.h"
#include "analyzer/supply/run/draw.h"
#include "analyzer/supply/run/schedule.h"
#include "analyzer/supply/run/shuttle.h"

namespace farwater::supply::run {

struct Attack {
    double flow = 0.0;  // 0 = none
    double from = 0.0;
};

struct AttackDraw {
    std::vector<Knot> history;        // empty without an attack
    double dry = 0.0;                 // minutes without enough water, in all
    std::optional<double> dry_until;  // the end of the last dry time
};

struct Memory;

// The draw of the attack from its beginning to `until`, into memory.drawn. Each pass runs the
// schedule under the draw found so far and draws again from the water of that run; the pass that
// changes nothing is the answer. Every pass is right up to the first dry time that the one before
// it had wrong, so it ends; where no load waits for room the first pass is the last.
// O(passes x one run).
void draw_attack(const Shuttle& shuttle, Attack attack, double until, Memory& memory);

}  // namespace farwater::supply::run
