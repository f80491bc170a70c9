// The record that makes a layer's extent wrong.
#pragma once

#include <string>
#include <string_view>

#include "io/records/layer_source.h"

namespace farwater::io {

// "; record N3 lies far from the others, at x 1e+09 y 4500070: look at it first" where one record
// is more than twenty times as far from the middle as half of them are; else empty. The middle is
// the median, so that a few strays do not move it. `id`: the field that names records. O(records).
std::string stray_record(const LayerSource& source, std::string_view id);

}  // namespace farwater::io
