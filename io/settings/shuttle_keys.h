// What may stand in a scenario file: the keys of its tables.
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "io/settings/schema.h"

namespace farwater::io {

inline constexpr std::size_t most_typed_fill_sites = 8;
inline constexpr std::size_t most_typed_tankers = 20;

std::span<const KeyRow> scenario_keys();  // at the top of the file
std::span<const KeyRow> typed_dump_site_keys();
std::span<const KeyRow> typed_fill_site_keys();
std::span<const KeyRow> typed_tanker_keys();
std::span<const KeyRow> typed_travel_keys();

std::string right_table_of_scenario(std::string_view key);  // see RightTable in toml_table.h

}  // namespace farwater::io
