// How the flow builds up: what can be held from each of some minutes since the alarm on.
#pragma once

#include <array>

#include "analyzer/district/units.h"
#include "analyzer/supply/incident.h"

namespace farwater::supply {

inline constexpr std::array<int, 7> build_up_minutes{5, 8, 10, 15, 20, 30, 60};  // since the alarm

using BuildUp = std::array<HeldFlow, build_up_minutes.size()>;

// Each for the duration, and none more than from any later minute of the list on: where the initial
// attack has drawn on the same water until then, a small flow could be held from minute 10 on, none
// from 20, and much from 30; that is none before 30. Preconditions as for the incident run, of
// which it asks four or five sustained flows.
BuildUp build_up(const Incident& incident, Duration duration);

}  // namespace farwater::supply
