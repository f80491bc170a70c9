// Road ends that look as if they were meant to meet another road.
#pragma once

#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/district/problem.h"
#include "analyzer/parallel/work.h"
#include "routing/network.h"

namespace farwater::routing {

// One road_gap per dead end that has a place of a road within gap_tolerance of it (exact, on true
// segments; of a segment its nearest place counts) to which the way along the roads, whoever may
// use them, is longer than the tolerance and more than 3 times the gap: the nearest such place, of
// equals that of the first road. Two ends that face each other are one gap. By road. Nothing is
// joined. A few microseconds a dead end, on all threads. Stopped early: not complete.
std::vector<Problem> gap_problems(const District& district, const Network& network,
                                  const Work& work);

}  // namespace farwater::routing
