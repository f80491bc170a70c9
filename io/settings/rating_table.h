// The table [rating] of the district file.
#pragma once

#include <filesystem>
#include <optional>
#include <string>

#include "analyzer/district/words.h"
#include "io/settings/faults.h"
#include "io/settings/toml_tree.h"

namespace farwater::io {

struct RatingTable {
    RatingTerms terms = RatingTerms::schedule;
    std::string own_terms;  // as written; empty = as the program has them
    std::filesystem::path own_terms_path;
};

// None without the table: then no rating is worked out.
std::optional<RatingTable> rating_table_of(const TomlTable& top,
                                           const std::filesystem::path& folder, Faults& faults);

}  // namespace farwater::io
