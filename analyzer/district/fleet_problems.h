// What the whole list of apparatus lacks that no single row shows.
#pragma once

#include <vector>

#include "analyzer/district/apparatus.h"
#include "analyzer/district/problem.h"

namespace farwater {

// A tanker shuttle takes a tanker, one engine to attack and one to draft, and a portable tank;
// each that no unit of the list gives is a problem.
std::vector<Problem> fleet_problems(const std::vector<Unit>& units);

}  // namespace farwater
