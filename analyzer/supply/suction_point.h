// A suction point as it is built: its cells, with a stated value for each that is blank.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "analyzer/district/district.h"
#include "analyzer/hydraulics/suction.h"

namespace farwater::supply {

struct SuctionPoint {
    hydraulics::SuctionLine line;
    Length lift;
    Length head_limit;
    Length altitude;
    SuctionFriction formula = SuctionFriction::conservative;
    std::vector<std::string_view> assumed;  // columns for which a stated value stands

    std::optional<Flow> most() const;  // what can be drawn; none = it cannot be drafted
    Length head_at(Flow flow) const;   // lift, losses and velocity head
    std::string assumed_in_words() const;
};

// Blank cells: the lift is the highest that may be, the pipe as long, narrow, bent and rough as the
// assumptions say, and its strainer and standpipe, of which those tell the loss at 6 in, lose by
// the fourth power of the bore more where that is narrower; an open bank has hard suction and no
// pipe unless a length is given. Altitude from the elevation grid, else altitude_ft. Precondition:
// not a hydrant.
SuctionPoint suction_point(const WaterSource& source, const District& district);

}  // namespace farwater::supply
