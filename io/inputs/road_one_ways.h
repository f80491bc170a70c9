// The directions of a layer's roads. Some spellings can be told only once the whole column has
// been seen (io/inputs/one_way_words.h); until then their roads are remembered.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "analyzer/district/road.h"
#include "io/inputs/one_way_words.h"
#include "io/records/layer_rows.h"
#include "io/records/record.h"

namespace farwater::io {

class RoadOneWays {
public:
    // Sets the road's direction. What cannot be told closes the road, for each direction may be the
    // wrong one, and is reported. `place` is that of the road's first part in the layer's roads.
    void take(Record& record, Road& road, std::size_t place);

    // Sets the directions that the whole column tells, closes the roads whose direction stays
    // unclear, and adds one problem for each such spelling to the log.
    void settle(LayerRows<Road>& roads, const std::string& column) const;

private:
    struct Waiting {
        std::size_t place;
        std::uint32_t row;
        OneWaySign sign;
        std::string text;
    };
    OneWayColumn column_;
    std::vector<Waiting> waiting_;
};

}  // namespace farwater::io
