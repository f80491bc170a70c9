// The tables [[improvement]] of the district file.
#pragma once

#include <string>
#include <vector>

#include "io/district_file.h"
#include "io/settings/faults.h"
#include "io/settings/toml_tree.h"

namespace farwater::io {

// In the file's order; a key that the kind has no use for, and one that it lacks, are faults.
std::vector<ImprovementSpec> improvement_tables_of(const TomlTable& top, Faults& faults);

// Which keys each kind takes, in Markdown, for the reference page.
std::string keys_of_improvements();

}  // namespace farwater::io
