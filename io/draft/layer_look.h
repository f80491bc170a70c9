// What one layer of a data set looks like from outside: names, shapes and columns, told from its
// head and its first records. Nothing here says what the layer is.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "io/crs.h"

namespace farwater::io {

// So many records of a layer are looked at, the first ones, to tell what it is.
inline constexpr std::size_t records_sampled = 200;
// So many different words of a column are kept where all records are looked at.
inline constexpr std::size_t most_words_kept = 500;

enum class LookShape : std::uint8_t { none, point, line, area, unknown };

struct ColumnLook {
    std::string name;                   // as messages and the district file write it
    std::vector<std::string> values;    // the different ones of the sample, or of all records
                                        // (io/draft/look_at_words.h), in the order met
    std::optional<std::size_t> looked;  // so many records they are of; none = the sample's
    bool more_values = false;           // there are others, which are not kept
    std::size_t filled = 0;             // records of the sample with something in it
    bool all_differ = false;            // every record of the sample has one, no two the same
    bool numbers = false;               // all that are filled are plain numbers, and one is
    double low = 0.0, high = 0.0;       // of those numbers
};

struct LayerLook {
    std::string file;     // as the district file names it
    std::string layer;    // empty = the file's only one
    std::string where;    // part of the layer that is meant; empty = all of it
    std::string printed;  // "county.gpkg, layer roads", fit to print
    std::string called;   // name of the layer, of an only one with the file's, for hints
    bool is_osm = false;  // an OpenStreetMap file, which is not sampled
    LookShape shape = LookShape::none;
    std::optional<std::size_t> records;  // none = not counted, for that would read the whole file
    std::vector<ColumnLook> columns;
    bool has_crs = false;
    std::optional<CrsExtent> degrees;  // the box round its shapes, where that is told cheaply
    std::size_t sampled = 0;
    double middle_sqft = 0.0;  // of areas: the middle size of the sample
    double covered = 0.0;      // of areas: the share of that box that all would cover, estimated
    std::string lacks;         // what is not beside the file, as a clause
};

struct RasterLook {
    std::string file;
    std::string printed;
    std::string called;
    int bands = 0;
    bool is_picture = false;  // of bytes, or with colours
    bool has_crs = false;
    bool has_unit = false;  // the band says whether heights are in feet or metres
    double cell_m = 0.0;
    std::optional<CrsExtent> degrees;
};

// The names of the columns, for columns_called().
std::vector<std::string> names_of_columns(const LayerLook& look);

}  // namespace farwater::io
