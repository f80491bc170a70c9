// The columns of a drafted table and the words in them.
#pragma once

#include <string>
#include <vector>

#include "io/draft/recognise.h"
#include "io/draft/toml_lines.h"

namespace farwater::io {

// [SECTION.columns] with those that are sure, likely ones behind #; before it, as comments, the
// columns that are found without it and those that nothing reads.
void add_columns(TomlLines& lines, const Candidate& one);

// For each field that several columns could be, which is taken and why; and of an id that only
// counts the records, that it does.
std::vector<std::string> competing_columns(const SectionMatch& match);

// For each column whose words are not ours a table of values behind #, to be told: unknown words
// count as the worst.
void add_values(TomlLines& lines, const Candidate& one);

}  // namespace farwater::io
