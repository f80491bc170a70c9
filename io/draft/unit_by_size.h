// The unit of a column of numbers that says none, where only one can be meant.
#pragma once

#include <optional>
#include <string_view>

#include "io/draft/layer_look.h"
#include "io/settings/schema.h"

namespace farwater::io {

// Of weight limits, since no road has one of 200 lb or of 1,000 tons: "short_ton" or "" (the
// field's own, lb), each the lightest of the units it may be. None: other fields, or numbers that
// can be either. Limits of bridges: 3 to 80 tons (23 CFR 658.17, from memory: 40 is
// the most without a permit).
std::optional<std::string_view> unit_by_size(const FieldRow& field, const ColumnLook& column);

}  // namespace farwater::io
