// The slow twin of plain crossings: every vertex against every segment, every segment against every
// other.
#pragma once

#include <cstddef>
#include <vector>

#include "analyzer/district/district.h"

namespace farwater::slow {

struct LineSpot {
    std::size_t road = 0;
    double along = 0.0;  // metres from the start of the road
};

// Two places of roads, or of one road, that are one place though no vertex is shared.
struct Meet {
    LineSpot a, b;
};

// By the rules of build_network, whatever join_crossings says. Roads that are drawn twice take
// part.
std::vector<Meet> meets_of(const District& district);

// Cuts of one segment no farther apart than this are one.
double merged_cuts(const Assumptions& assumptions);

}  // namespace farwater::slow
