// The words of a column from all records of its layer.
#pragma once

#include <cstddef>
#include <filesystem>
#include <vector>

#include "analyzer/parallel/work.h"
#include "io/draft/recognise.h"

namespace farwater::io {

// A column of a layer, by their places in the list of looks.
struct WordColumn {
    std::size_t layer = 0;
    std::size_t column = 0;

    friend auto operator<=>(const WordColumn&, const WordColumn&) = default;
};

// The columns whose values the draft writes down, or takes a unit by: of the layer that each
// section takes, those of words, of names of periods, and limits that say no unit. Sorted. `layers`
// are those that were recognised.
std::vector<WordColumn> columns_of_words(const Recognised& found,
                                         const std::vector<LayerLook>& layers);

// Puts the different values of these columns, at most most_words_kept of each, in the place of
// those of the sample; a layer that cannot be opened again, or an OpenStreetMap file, keeps its
// sample. Reads each of these layers from one end to the other without its shapes and other
// columns, most of a second for a million records of a GeoPackage. Comes back early when `work` is
// stopped.
void look_at_words(const std::filesystem::path& folder, const std::vector<WordColumn>& columns,
                   std::vector<LayerLook>& layers, const Work& work);

}  // namespace farwater::io
