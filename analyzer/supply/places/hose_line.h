// What engines can move through their hose from one source to a house (direct.h has the rules).
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/hydraulics/hose.h"
#include "analyzer/supply/assessment.h"
#include "analyzer/supply/places/arrivals.h"
#include "analyzer/supply/water_review.h"

namespace farwater::supply {

// One attacks, one pumps.
inline constexpr std::size_t fewest_engines = 2;

// What a number of engines can do from one source.
struct HoseLine {
    std::size_t engines = 0;  // the attacking one and those in line included; 2 = no relay
    hydraulics::HoseSize size = hydraulics::HoseSize::in_2_5;
    int lines = 1;                     // side by side
    Length stretch, rise_of_stretch;   // from engine to engine
    Flow by_hose, by_pump, by_source;  // what each lets through
    std::optional<Flow> by_volume;     // over the duration; none = unlimited
    Flow flow;                         // the least of them
    Limit limit = Limit::none;         // what keeps the flow down
    Duration ready;                    // since the alarm
    Duration work;                     // of that, setting up and laying
};

// With 2, 3, ... engines, `engines` being those that get to the source, by arrival: one line or two
// of each size of hose, but for those that another outdoes in flow and time, for a second line may
// give more and be there too late. None where their hose is too short. The rise is from the source
// to the house.
std::vector<HoseLine> hose_lines(const District& district, std::span<const Arrival> engines,
                                 const CountedSource& source, Length lay, Length rise,
                                 Duration setup, Duration duration);

}  // namespace farwater::supply
