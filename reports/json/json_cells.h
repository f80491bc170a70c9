// What the JSON documents of all commands share. The JSON library is known in this folder only.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string>

#include <nlohmann/json.hpp>

#include "analyzer/district/district.h"
#include "io/feature_table.h"

namespace farwater::reports {

using nlohmann::json;

inline constexpr int json_schema_version = 1;

// With indents, and a newline behind it. Names may hold any bytes; what is no UTF-8 is replaced,
// never an error.
std::string dumped(const json& document);

// Read = used + repaired + set aside, by layer.
json records_of(const District& district);
json problem_counts(std::span<const Problem> problems);

// A row under the names of its columns: as supply.gpkg holds it, or as tables/*.csv print it.
json stored_row(const io::FeatureTable& table, std::size_t row);
json printed_row(const io::FeatureTable& table, std::size_t row);
json printed_rows(const io::FeatureTable& table);

template <class Number>
json number_or_null(const std::optional<Number>& number) {
    return number ? json(*number) : json(nullptr);
}

}  // namespace farwater::reports
