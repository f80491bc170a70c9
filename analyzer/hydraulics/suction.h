// What can be drawn through a suction pipe: friction by two published formulas, the strainer, the
// velocity head, and the flow at which they use up the head that is there.
#pragma once

#include <optional>

#include "analyzer/district/units.h"
#include "analyzer/district/words.h"

namespace farwater::hydraulics {

// How smooth a pipe is, for either formula. Sources: Manning's n of plastic is what the table of
// the NRCS form NE-ENG-76 "Dry Hydrant Design" was made with; n of steel, cement and old iron from
// Chow, Open-Channel Hydraulics, 1959 (from memory); C from general pages (from memory).
struct Roughness {
    double manning_n = 0.010;
    double hazen_williams_c = 150.0;
};
Roughness roughness_of(PipeMaterial material);

// One bore: pipe with its fittings as length, or hose. Of length zero where there is none.
struct SuctionPipe {
    Length length;
    Length diameter;
    Roughness roughness;
};

// From the water to the pump's inlet. `entrance_at_500` is the loss of strainer and standpipe at
// 500 gpm; it grows with the square of the flow.
struct SuctionLine {
    SuctionPipe pipe;
    SuctionPipe hose;  // its diameter is the pump inlet's, where the velocity head is counted once
    Length entrance_at_500;
};

// Manning, full pipe, US units: S = n^2 v^2 / (1.486^2 R^(4/3)), R = d / 4, v = 0.40853 Q / d^2.
Length manning_loss(const SuctionPipe& pipe, Flow flow);

// Hazen and Williams: 10.472 L (Q / C)^1.852 / d^4.871 ft, gpm and inches (4.727 in cfs and ft).
Length hazen_williams_loss(const SuctionPipe& pipe, Flow flow);

// v^2 / 2g with v = 0.40853 Q / d^2 ft/s.
Length velocity_head(Length diameter, Flow flow);

// All of it: friction in pipe and hose, entrance, velocity head. With the formula `conservative`
// the larger of the two formulas' totals.
Length suction_loss(const SuctionLine& line, Flow flow, SuctionFriction formula);

// The flow at which lift and losses use up `head`; none when the lift alone does: such water cannot
// be drafted. At most 10,000 gpm. Losses are convex in the flow, so Newton from above never
// overshoots; fewer than 20 steps. Precondition: diameters and roughness above zero.
std::optional<Flow> suction_flow(const SuctionLine& line, Length lift, Length head,
                                 SuctionFriction formula);

}  // namespace farwater::hydraulics
