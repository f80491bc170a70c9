// A district file's text as one line for each key, so that two of them can be laid side by side.
#pragma once

#include <optional>
#include <string_view>

#include "analyzer/district/calendar.h"
#include "analyzer/district/stored_result.h"

namespace farwater::io {

struct FlatSettings {
    StoredRecord keys;  // "season.winter.months" and its value, in the file's order
    std::optional<Date> data_date;
};

// None where the text is no TOML. Tables of a list are numbered from 1: "improvement.2.kind".
// Comments and the order of keys are no matter of it.
std::optional<FlatSettings> flat_settings(std::string_view text);

}  // namespace farwater::io
