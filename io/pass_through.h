// The second pass over an input layer: its records' geometry and columns go into a result layer,
// with our own columns behind them.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "io/district_file.h"
#include "io/feature_table.h"
#include "io/inputs/read_parcels.h"

namespace farwater::io {

// The input as the first pass saw it.
struct PassThroughInput {
    LayerSpec spec;                       // the same as in the first pass: same records, same order
    std::size_t features = 0;             // records read then
    std::string sha256;                   // of its files then; empty = not known, count only
    std::vector<RepairedShape> repaired;  // stand in for the records' own shapes; by ascending row
};

// What goes through:
// - geometry byte for byte where the input is in the working CRS (by its numbers), else transformed
//   once; curves, heights and multi-part shapes stay. The layer's geometry type is that of its
//   records where they agree, else the general one. Missing shapes stay missing; a
//   shape that has no place in the working CRS becomes NULL.
// - every column under its own name and type. Lists and times of day become text, JSON stays
//   as plain text; NaN and infinity become NULL; times are written in UTC (one without a zone
//   counts as UTC). A column whose name is taken (by `fid`, `geom`, one of our columns or an
//   earlier column; upper and lower case count as the same) gets "in_" in front, see carried_names.

// The names under which the columns of an input are carried: `name` itself; where it is taken
// `in_name`, then `in_name_2`, `in_name_3`, ... An empty name counts as "column". O(n log n).
std::vector<std::string> carried_names(const std::vector<std::string>& input_columns,
                                       const std::vector<std::string>& taken);

}  // namespace farwater::io
