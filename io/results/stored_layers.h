// Layers and tables of a result as plain values.
#pragma once

#include <filesystem>
#include <string>

#include "analyzer/district/stored_result.h"
#include "analyzer/parallel/work.h"

class OGRLayer;

namespace farwater::io {

// By the names of the columns; one of another type than it should have is not told, and its numbers
// are not guessed. Shapes are not read. Not whole when stopped. Throws InputError where a number is
// below 0 or beyond what any run writes, with `file`, layer and record. O(records).
StoredAnswers stored_answers(OGRLayer& layer, const std::string& id_column,
                             const std::filesystem::path& file, const Work& work);

// Every column and cell, as StoredTable has them. O(cells).
StoredTable stored_table(OGRLayer& layer);

// "5351.4" of 5351.39990 with one decimal at most, "0.5", "-3", "12": no zeros at the end. Empty
// for what is no number. Precondition: 0 to 9 decimals.
std::string number_text(double value, int decimals);

}  // namespace farwater::io
