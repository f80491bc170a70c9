// The table [need] of the district file.
#pragma once

#include <filesystem>
#include <string>

#include "analyzer/district/need_rules.h"
#include "io/settings/faults.h"
#include "io/settings/toml_tree.h"

namespace farwater::io {

struct NeedTable {
    NeedRules rules;           // without the standard's values
    std::string own_standard;  // as written; empty = the program's own
    std::filesystem::path own_standard_path;
};

// Without the table: the parcels' column, else the default flow.
NeedTable need_table_of(const TomlTable& top, const std::filesystem::path& folder, Faults& faults);

}  // namespace farwater::io
