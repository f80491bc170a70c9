// Columns that nothing reads though what they seem to say could change an answer for the worse.
#pragma once

#include <string>
#include <vector>

#include "io/draft/match_columns.h"

namespace farwater::io {

// A sentence without a full stop for each column with something in it that is not read and looks
// like a limit, a closing, a direction, a gate, a standing: "roads.SEASONAL looks like when the
// road is ploughed or closed, but is not read; ...". A column that only stands behind # is not
// read. Blank cells of these fields count as no limit, so such a column left out would help.
// O(columns x signs).
std::vector<std::string> overlooked_columns(const LayerLook& look, const SectionMatch& match);

}  // namespace farwater::io
