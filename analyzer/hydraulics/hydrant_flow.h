// What a hydrant gives, from its flow test or from the colour of its bonnet.
#pragma once

#include <optional>

#include "analyzer/district/units.h"
#include "analyzer/district/words.h"

namespace farwater::hydraulics {

// One flow test: pressures at the residual hydrant before and while `flow` runs.
struct FlowTest {
    double static_psi = 0.0;
    double residual_psi = 0.0;
    Flow flow;
};

// Discharge of an open outlet by pitot reading: Q = 29.84 c d^2 sqrt(p), d in inches, p in psi.
// From a pumper outlet, 4 in or wider, the stream has voids: 0.97 of that at 2 psi, falling to 0.83
// at 7 psi and more. Zero where the pressure is not above zero. Source: NFPA 291, flow testing and
// its table for pumper outlets (from memory).
Flow pitot_flow(double pitot_psi, Length outlet, double coefficient);

// Where a test can be right: 0 <= residual < static, and something flowed.
bool is_possible(const FlowTest& test);

// Whether the pressure fell by a quarter or more: only then is a test carried on to a larger flow.
// Source: NFPA 291 4.3.6.
bool drops_enough(const FlowTest& test);

// The flow at another residual pressure: Q (static - at)^0.54 / (static - residual)^0.54. Zero when
// the main stands at or below `at_psi` with nothing flowing: such a hydrant gives nothing without
// pulling the main below it. None for a test that cannot be right.
// Source: NFPA 291, and AWWA M17 (from memory).
std::optional<Flow> flow_at_residual(const FlowTest& test, double at_psi);

// Least flow of a colour class at 20 psi: blue 1,500, green 1,000, orange 500, red 0 gpm (a red
// bonnet says "below 500" and no more). Source: NFPA 291, colour classes (from memory).
Flow least_of_class(HydrantColour colour);

}  // namespace farwater::hydraulics
