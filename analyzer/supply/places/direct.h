// Supply without tankers: a second engine stands at the source and pumps through hose to the engine
// at the fire; with further engines in line it is a relay.
//
// Rules. One engine, one job: the first to get to the source is taken for the one that attacks, the
// second pumps there, further ones stand in line at equal distances. Hose of all of them is laid as
// one line or as two of one size; a line that is longer than the hose on them is not built. It is
// ready when the last of them has come, the source is set up and the hose is laid, one length after
// the other. Each engine gives its rated flow at the pressure of supply lines
// (hydraulics/pump.h) and leaves the residual pressure at the next; the source gives what the
// engine there can draw (CountedSource::with_pump) and, over the duration, no more than its usable
// water and inflow. Where only a portable pump gets to the source there is none.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "analyzer/supply/assessment.h"
#include "analyzer/supply/places/arrivals.h"
#include "analyzer/supply/places/hose_line.h"
#include "analyzer/supply/places/house_on_fire.h"
#include "analyzer/supply/places/nurse_at_house.h"

namespace farwater::supply {

// One way to bring water to a house by hose.
struct HoseOption {
    HoseLine line;
    SourceIndex source;
    Length lay, rise;                   // from the source to the house
    Duration setup;                     // at the source
    std::vector<Arrival> engines;       // by arrival at the source, as many as the line has
    std::optional<NurseAtHouse> nurse;  // without terms, where that shortens the gap
    ParcelSupply supply;                // with it where that is better
};

// All that can be: from each source in reach, with 2, 3, ... engines and each of their lines.
std::vector<HoseOption> hose_options(const Situation& situation,
                                     std::span<const ProfileIndex> profile_of,
                                     std::span<const Responder> responders, std::size_t row,
                                     const HouseOnFire& fire);

// The best answer of a parcel or target (its row) by direct supply or relay in the situation's
// order, then fewer engines; none where no source is in reach, or where nobody can pump
// from one. The cautious flow is the flow with set-up and laying slowed.
std::optional<ParcelSupply> direct_supply(const Situation& situation,
                                          std::span<const ProfileIndex> profile_of,
                                          std::span<const Responder> responders, std::size_t row,
                                          const HouseOnFire& fire);

}  // namespace farwater::supply
