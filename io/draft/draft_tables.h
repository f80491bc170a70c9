// The tables of a drafted district file that name inputs.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "io/draft/recognise.h"
#include "io/draft/toml_lines.h"

namespace farwater::io {

// [SECTION] as it can be read; as a suggestion behind # where it cannot and the analysis does
// without. Their words that are not ours stand below it, to be told.
void add_table(TomlLines& lines, const std::vector<Candidate>& candidates);

// A required table that the folder does not hold, with a name to put right.
void add_missing_table(TomlLines& lines, const SectionRow& section);

// A sheet of the workbook to fill in.
void add_sheet(TomlLines& lines, const SectionRow& section);

// That a column of a joined table is likely a field of the parcels', and not read: a sentence
// without a full stop.
std::string likely_of_join(const JoinCandidate& join, const ColumnMatch& match);

// [[join]], all that are sure but for fields that one before gave; others as a suggestion.
void add_joins(TomlLines& lines, const std::vector<JoinCandidate>& joins);

void add_elevation(TomlLines& lines, const std::vector<const RasterLook*>& rasters);

// "2,016 records", "1 record", "records not counted".
std::string printed_records(const std::optional<std::size_t>& records);

// "properties": what the section is, in a few words.
std::string_view first_clause(const SectionRow& section);

}  // namespace farwater::io
