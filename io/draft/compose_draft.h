// The text of a drafted district file and what is told of it.
#pragma once

#include <string>
#include <vector>

#include "io/draft/recognise.h"
#include "io/draft_district.h"

namespace farwater::io {

// The sections that department.xlsx gets a sheet for: none where stations, apparatus and water
// sources can all be read from what is there.
std::vector<std::string> sheets_needed(const Recognised& found);

// The whole file. `name` is the district's.
std::string compose_district_file(const Recognised& found, const std::vector<std::string>& sheets,
                                  const std::string& name);

// The tables that the file has, in its order, and what is still missing.
std::vector<DraftTable> tables_told(const Recognised& found,
                                    const std::vector<std::string>& sheets);
std::vector<std::string> missing_told(const Recognised& found,
                                      const std::vector<std::string>& sheets);

}  // namespace farwater::io
