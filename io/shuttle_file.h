// The scenario file of `farwater shuttle`: a shuttle typed by hand, with no map data. The same
// strictness as for the district file: unknown keys and wrong values are faults with their place.
#pragma once

#include <filesystem>
#include <string>

#include "analyzer/district/shuttle_scenario.h"

namespace farwater::io {

// Throws SettingsError: one line `FILE:LINE:COLUMN: what is wrong` for each fault, in the file's
// order, the first 20 of them; also when the file cannot be read. What comes back keeps the promise
// of ShuttleScenario, every number is finite and in its range, no tanker delivers more than it
// refills, none takes more than its fill site holds, and every round trip takes a minute and more
// besides flow.
ShuttleScenario read_shuttle_file(const std::filesystem::path& path);

// The same from text; `path` is for messages.
ShuttleScenario parse_shuttle_file(const std::string& text, const std::filesystem::path& path);

// The tables and keys with their types, ranges and defaults, in Markdown, from the same rows that
// the reading uses.
std::string shuttle_file_reference();

}  // namespace farwater::io
