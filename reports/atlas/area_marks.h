// Signs of a map on paper: each state of a property has a colour and a shape of its own, each kind
// of water a shape.
#pragma once

#include <array>
#include <string>
#include <string_view>

#include "analyzer/district/road.h"
#include "analyzer/district/words.h"
#include "reports/print/page_canvas.h"

namespace farwater::reports {

struct StateSign {
    SupplyState state;
    std::string_view legend;
};

// In the order in which they are drawn: bad news last, so that it is never hidden.
inline constexpr std::array state_signs{
    StateSign{SupplyState::held, "meets planned flow"},
    StateSign{SupplyState::late, "meets it late"},
    StateSign{SupplyState::short_flow, "short of it"},
    StateSign{SupplyState::tank_only, "water on wheels only"},
    StateSign{SupplyState::unreached, "no way there"},
    StateSign{SupplyState::unknown, "not known"},
};

// About `radius` points from its middle to its edge. Nothing for a parcel without a building.
void draw_state(PageCanvas& canvas, SupplyState state, Point middle, double radius);

// Filled where it counts, hollow and grey where it does not.
void draw_water(PageCanvas& canvas, SourceKind kind, bool counts, Point middle, double radius);

void draw_station(PageCanvas& canvas, Point middle, double radius);

// A black plate with the card's number; a small square where it has none.
Rect dump_site_plate(const PageCanvas& canvas, const std::string& number, Point middle,
                     double size);
void draw_dump_site(PageCanvas& canvas, const std::string& number, Point middle, double size);

// How a road is drawn, at that size of the whole map.
Stroke road_stroke(RoadClass kind, bool tanker_may_use, double size);

}  // namespace farwater::reports
