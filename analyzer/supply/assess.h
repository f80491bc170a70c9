// The supply stage: from round trips, arrivals and needs to a state for every parcel and target.
#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <vector>

#include "analyzer/district/need.h"
#include "analyzer/parallel/work.h"
#include "analyzer/supply/assessment.h"
#include "analyzer/supply/row_answers.h"
#include "analyzer/supply/working.h"

namespace farwater::supply {

// Per parcel, then per target, as are `needs` (none = no building) and `first_arrivals`, which say
// when the first engine is at the house, counted from the alarm, no_time = none gets there.
//
// All of a parcel's hose lays are looked at: the one that likely gives most is worked out, then all
// that may give a better answer by a bound, and the best answer is taken (places/lay_trials.h).
//
// Then direct supply and relay are looked at (direct.h); the better answer is taken, hose before
// tankers where both are as good, and the other mode is kept beside it.
//
// Work is keyed by case: parcels that share dump site, approach, lane class, zone, duration and
// first arrival (rounded down to half a minute, so that the flow has to hold from no later than it
// should) share one. Stopped early: what it returns is not complete, the caller discards it.
std::vector<ParcelSupply> assess(const Situation& situation,
                                 const std::vector<std::optional<Need>>& needs,
                                 const std::vector<DriveTime>& first_arrivals, const Work& work);

// The same in runs of at most `most_rows` rows, 1 or more: each run's answers are handed over
// before the next run is worked out, so that those of a large district never stand whole. Rows of
// neighbouring dump sites are in one run; a case is worked out once in each run that has it. All
// rows are handed over once, and what their answers are does not depend on `most_rows`.
using TakeAnswers = std::function<void(const RowAnswers&)>;
void assess_in_runs(const Situation& situation, const std::vector<std::optional<Need>>& needs,
                    const std::vector<DriveTime>& first_arrivals, std::size_t most_rows,
                    const TakeAnswers& take, const Work& work);

// How the answer of one row comes about: the same functions, with what they found on the way. What
// its `supply` says is what `assess` says of the row.
Working working_of(const Situation& situation, const std::vector<std::optional<Need>>& needs,
                   const std::vector<DriveTime>& first_arrivals, std::size_t row);

}  // namespace farwater::supply
