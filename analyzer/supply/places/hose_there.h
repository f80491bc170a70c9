// Supply hose that the engines there bring.
#pragma once

#include <array>
#include <optional>
#include <span>

#include "analyzer/hydraulics/hose.h"
#include "analyzer/supply/places/arrivals.h"

namespace farwater::supply {

inline constexpr std::size_t hose_sizes = 4;

struct HoseThere {
    std::array<Length, hose_sizes> length;  // in all, by hydraulics::HoseSize
    std::array<Length, hose_sizes> listed;  // of that, without the planning default
    // The largest size that is long enough, none = no size is.
    std::optional<hydraulics::HoseSize> size_for(Length lay) const;
};

// Of these engines together; an engine whose hose is not listed carries the planning default.
HoseThere hose_there(const District& district, std::span<const Arrival> engines);

// What laying so much of it takes, one length after the other.
Duration laying(Length hose, const Assumptions& assumptions);

// One line, of the largest size of which there is enough.
struct LaidLine {
    Length hose;
    Duration from;  // when enough of its hose is there
    Duration lies;
};

// By these engines, in the order of their arrival; where no size suffices, as if the last one
// brought it. Precondition: there is an engine.
LaidLine line_laid(const District& district, std::span<const Arrival> engines, Length hose);

}  // namespace farwater::supply
