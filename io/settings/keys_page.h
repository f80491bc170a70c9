// The keys of a table of settings as a page of a reference, in Markdown.
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "io/settings/schema.h"

namespace farwater::io {

// A heading, a paragraph and a row for each key: type, range, default, what it is.
std::string keys_page(std::string_view title, std::span<const KeyRow> keys, std::string_view intro);

// "number", "yes or no", "own, automatic or mutual": what a cell of the field holds.
std::string kind_in_words(const FieldRow& field);

// What numbers of this name are in, by its end; empty where they count things.
std::string_view unit_in_words(std::string_view name);
std::string range_of(double low, double high);  // "1 to 60"; empty where there is none

}  // namespace farwater::io
