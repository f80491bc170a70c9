// What a department can say in an evening, as suggestions of a drafted district file.
#pragma once

#include "io/draft/toml_lines.h"

namespace farwater::io {

// Keys of the top, which stand before every table.
void add_top_suggestions(TomlLines& lines);

// The rest: seasons, periods, who drives, closed roads and weak bridges, aid, the needed flow and
// the assumptions that matter first. Keys, meanings and defaults are those of the schema; taking
// away each "# " before a table or a key gives a file that can be read.
// `has_buildings`: the file has that table, which the methods of needed flow go by.
void add_evening_suggestions(TomlLines& lines, bool has_buildings);

}  // namespace farwater::io
