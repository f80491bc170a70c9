// One opened layer, seen from outside.
#pragma once

#include "io/draft/layer_look.h"

class OGRLayer;

namespace farwater::io {

// What may be asked of the layer: those that are read from one end to the other are only asked for
// their head.
struct LookRules {
    bool samples = true;  // read the first records
    bool counts = true;   // count them where that takes reading all
};

// Columns, shapes, number and sample; names of the file are the caller's. Leaves the layer reading
// from the start.
LayerLook look_at_layer(OGRLayer& layer, const LookRules& rules);

// A box in `crs`, in degrees; none where there is no way, or the box is empty.
std::optional<CrsExtent> in_degrees(const CrsExtent& box, const Crs& crs);

}  // namespace farwater::io
