// What the runs of a thread keep between them: to get memory anew takes as long as the runs of a
// small shuttle.
#pragma once

#include "analyzer/supply/run/attack.h"
#include "analyzer/supply/run/balance.h"
#include "analyzer/supply/run/kept_draws.h"
#include "analyzer/supply/run/schedule.h"
#include "analyzer/supply/run/shuttle.h"

namespace farwater::supply::run {

// The memory of the runs of one incident after the other; nothing in it changes
// what the next one says.
struct Memory {
    Shuttle shuttle;
    FillRegimes regimes;
    Schedule<Minute> schedule;
    Balance<Minute> balance;
    Schedule<Moment> exact_schedule;
    Balance<Moment> exact_balance;
    KeptDraws kept;
    AttackDraw drawn;  // the answer of the last draw_attack
    AttackDraw redrawn;
};

}  // namespace farwater::supply::run
