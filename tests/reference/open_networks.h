// The open road networks on which our times are compared with those of reference libraries. Each
// comes back empty where its data are not there, with the sentence by which ctest knows a skipped
// test.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "tests/reference/street_graph.h"

namespace farwater::reference {

inline constexpr std::int32_t twenty_minutes = 12'000;  // tenths of a second

// What one comparison is about: 100 sources, 1,000 targets, and our times between them all. `graph`
// is what the libraries are given.
struct Question {
    std::string name;
    StreetGraph graph;
    Sample sample;
    Times ours;
    Times ours_in_twenty_minutes;  // by a search with that limit
};
using Questions = std::optional<std::vector<Question>>;

// Bremen's streets with drive times (gr_weighted): 40,461 nodes, one-way arcs, loops and repeats.
Questions weighted_streets();

// The 264,346 nodes of the New York road graph (dimacs_pace). It has no weights: a stated function
// of the two node numbers stands in.
Questions topology_with_stated_weights();

// The rural town (washington_nh), read by io and built by build_network: loaded away from spots on
// roads, and empty towards them, for each profile of the fleet.
Questions rural_town();

// The city streets that the npm package in tests/npm carries, read and built like the town.
Questions city_of_the_npm_package();

}  // namespace farwater::reference
