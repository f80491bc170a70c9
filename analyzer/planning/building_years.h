// Dealing chosen sites, or other things that are paid for, into years, each with as much to spend.
// What a year does not spend is put by for the next.
#pragma once

#include <span>
#include <vector>

#include "analyzer/planning/choice_problem.h"

namespace farwater::planning {

// What something costs when it is bought, and in that and every later year.
struct Outlay {
    Cents cost = 0;
    Cents upkeep = 0;
};

// The sites in the order in which they are built: the planned ones first, for they are paid
// otherwise, then, of those that the money at hand buys, the one that adds most, the cheaper of
// equals, then the smaller index; where it buys none, years pass until it does. `upkeep` is that of
// each of the problem's sites; empty: none has any. Left out is what no year can keep up beside
// what stands before it. O(sites x offers). Precondition: yearly > 0.
Sites order_of_building(const ChoiceProblem& problem, const Sites& sites, Cents yearly,
                        std::span<const Cents> upkeep = {});

// The year, from 1, by whose end each can be paid; in order of building. Precondition: yearly > 0,
// and a year can keep up all of them.
std::vector<Cents> years_of_building(std::span<const Outlay> outlays, Cents yearly);

}  // namespace farwater::planning
