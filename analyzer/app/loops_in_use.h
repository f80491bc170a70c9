// Whether the tankers of the answers could drive one way round.
#pragma once

#include "analyzer/app/routes_in_use.h"

namespace farwater::app {

// Fills in the loops of the routes in use: of each parcel's and target's shuttle, and of each dump
// site's, the one that most places have (the first of equals). Each different question once.
// Precondition: the ways are there. Stopped early: not complete.
void add_loops(const AnswersGiven& answers, RoutesInUse& routes, const Work& work);

}  // namespace farwater::app
