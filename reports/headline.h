// The five numbers that a chief asks for, of the worst season and period of each parcel.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "reports/findings.h"

namespace farwater::reports {

// Counts of improved parcels; parcels without a building stand in none.
struct Headline {
    std::size_t improved = 0;
    std::size_t held = 0;             // meets the planned flow
    std::size_t tank_only = 0;        // water on wheels only
    std::size_t unknown = 0;          // something that the answer rests on is missing
    std::size_t held_on_assumed = 0;  // of held: rests on an assumed value
    std::size_t held_but_for_one =
        0;  // of held: lost when the one tanker that is missed most is out
    std::size_t held_with_a_gap = 0;      // of held: without water before supply begins
    std::size_t gap_left_by_nursing = 0;  // of those: even if a tanker fed the engine first
    std::size_t late = 0, short_flow = 0, unreached = 0;
    std::size_t no_building = 0;
};

Headline headline_of(const Findings& findings);

// "37.2 %"; "-" of nothing.
std::string percent(std::size_t part, std::size_t whole);

// Of those that are held, the first minutes; empty where none has a gap.
std::string gap_sentence(const Headline& headline, std::string_view tanker_word);

// For which months the numbers hold; empty where seasons cover the whole year.
std::string months_sentence(const District& district);

// The five headline numbers, one sentence each.
std::vector<std::string> headline_sentences(const Headline& headline, std::string_view tanker_word);

}  // namespace farwater::reports
