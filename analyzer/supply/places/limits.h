// What holds the flow down: the incident is run again with one more of each thing, and the largest
// gain names the binding limit.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <vector>

#include "analyzer/district/words.h"
#include "analyzer/supply/incident.h"
#include "analyzer/supply/places/tank_line.h"

namespace farwater::supply {

// Tenths of a gpm; less counts as nothing gained.
inline constexpr std::int32_t no_gain_below = 5;

// What there is one more of, in this order.
inline constexpr std::array relieved{
    Limit::fleet,    Limit::fill_site, Limit::source_volume, Limit::draft,     Limit::storage,
    Limit::transfer, Limit::road_room, Limit::offload,       Limit::readiness, Limit::crew};

struct Gain {
    Limit limit = Limit::none;
    HeldFlow flow{};  // gained; none below no_gain_below
};

// One more tanker like the largest and with it, one more fill place with its share of the pump, the
// source doubled, the draft without the cap of strainer and pump, one more 2,500-gal portable tank
// (with a siphon where it is the first to stand in line), one more siphon that runs (transfer),
// road for one more of the tanks that came, one more offload slot with its people (in single file
// that tankers can pass each other instead), everything ready five minutes earlier (readiness). In
// the order of `relieved`. People for one more fill site (crew) are no part of an incident: their
// gain is nothing here (shuttle_case.h). The incident's dump site is that of the line; a line
// without tanks stands for one pool and one cap that nobody took apart. Nine runs.
std::vector<Gain> gains(const Incident& incident, const TankLine& line, Window window,
                        HeldFlow sustained);

// The largest gain, the first of equals; none when nothing gains.
Limit binding_limit(const std::vector<Gain>& gains);

// The fewest tankers, each like the largest and with it, beside which the flow holds; none: not
// even with `most` more. Two runs for each one tried. Precondition: the flow does not hold without.
std::optional<int> tankers_short(const Incident& incident, Window window, HeldFlow flow, int most);

}  // namespace farwater::supply
