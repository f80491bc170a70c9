// Tables as CSV that a spreadsheet opens by a double click: UTF-8 with a byte order mark, lines end
// in CR LF, quoted as in RFC 4180, decimal point whatever the locale.
#pragma once

#include <filesystem>
#include <functional>
#include <string_view>

#include "analyzer/parallel/work.h"
#include "io/feature_table.h"

namespace farwater::io {

// The table without its shapes, in pieces, to `sink`. First line: the columns' names. Real numbers
// have the column's decimals; yes_no is "yes" or "no"; NULL, NaN and infinity are empty. Text that
// a spreadsheet would take for a formula (it begins with = + - @, a tab or a carriage return) gets
// an apostrophe in front. False when stopped. O(rows).
bool csv(const FeatureTable& table, const Work& work,
         const std::function<void(std::string_view)>& sink);

// The same into a file that is there whole or not at all (see io/whole_file.h). Throws OutputError.
bool write_csv(const std::filesystem::path& file, const FeatureTable& table, const Work& work);

}  // namespace farwater::io
