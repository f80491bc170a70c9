// The tables of the district file that name inputs.
#pragma once

#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "io/district_file.h"
#include "io/settings/toml_table.h"
#include "io/settings/toml_tree.h"

namespace farwater::io {

std::map<std::string, LayerSpec, std::less<>> layers_of(const TomlTable& top,
                                                        const std::filesystem::path& folder,
                                                        Faults& faults);
std::vector<JoinSpec> joins_of(const TomlTable& top, const std::filesystem::path& folder,
                               Faults& faults);
std::optional<ElevationSpec> elevation_of(const TomlTable& top, const std::filesystem::path& folder,
                                          Faults& faults);

}  // namespace farwater::io
