// The table [next_source] of the district file.
#pragma once

#include <optional>

#include "analyzer/district/choice_terms.h"
#include "io/settings/faults.h"
#include "io/settings/toml_tree.h"

namespace farwater::io {

// None without the table: then `run` chooses no places.
std::optional<ChoiceTerms> next_source_of(const TomlTable& top, Faults& faults);

}  // namespace farwater::io
