// What several OpenStreetMap tags of a road say together. Words in lower case.
#pragma once

#include <string_view>

#include "analyzer/district/words.h"

namespace farwater::io {

// A surface on which a heavy vehicle goes no faster than on a narrow road.
bool is_soft(std::string_view surface);

// How the kind of road narrows who may use it: tracks are unmaintained, construction and what is
// only planned or gone is closed; open where it does not.
RoadAccess access_of_highway(std::string_view highway);

// Motorways and roundabouts are one-way, along the line, without a tag (Key:oneway).
bool implies_one_way(std::string_view highway, std::string_view junction);

}  // namespace farwater::io
