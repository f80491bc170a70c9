// What reading one input layer comes to.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "analyzer/district/problem.h"

namespace farwater::io {

// One input as it was read, for the run record.
struct InputRecord {
    std::string section;
    std::string file;  // as written, without passwords
    std::string layer;
    std::size_t features = 0;  // rows, also empty ones (after `where`); 0 for a raster
    std::string sha256;  // of the file, or of the list of its files; empty = not a file, see `note`
    std::string note;
};

// What happened to the records of a layer. Always count.adds_up().
struct LayerLog {
    RecordCount count;
    std::vector<Problem> problems;  // in the order of the records
    std::size_t left_out = 0;       // of those set aside: rightly, for they are of another kind
    std::size_t empty = 0;          // rows with nothing in them, which count as no records
};

template <class Thing>
struct LayerRows {
    std::vector<Thing> rows;
    LayerLog log;
};

}  // namespace farwater::io
