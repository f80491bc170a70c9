// One value of the district file held against its row of the schema.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "io/settings/schema.h"
#include "io/settings/toml_tree.h"

namespace farwater::io {

// What is written where a limit is lifted.
inline constexpr std::string_view unlimited_word = "unlimited";

// "a number": what a value of this kind must be.
std::string_view wanted(KeyKind kind);
bool is_kind(const TomlNode& node, KeyKind kind);

// What is wrong with a value of the right kind, "must be between 1 and 60 min, not 90"; empty when
// nothing is.
std::string wrong_value(const TomlNode& node, const KeyRow& row);

// A whole or broken number of TOML; none for anything else and for nan and inf.
std::optional<double> number_of(const TomlNode& node);

// A text, number or truth value as data would spell it: "II", "99", "true". None for anything else.
std::optional<std::string> spelled(const TomlNode& node);

// The texts of a list of texts; empty for anything else.
std::vector<std::string> texts_of(const TomlNode& node);

}  // namespace farwater::io
