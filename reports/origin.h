// Where a result comes from, as every document says it.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "analyzer/district/district.h"
#include "reports/layers.h"

namespace farwater::reports {

// "" where the record has no such key.
std::string_view recorded(const RunRecord& record, std::string_view key);

// Program, date of the data and the beginning of the district file's hash:
// "farwater 1.0. Data of 2026-05-31. District file sha256 0123456789abcdef"
std::string origin_words(const District& district, const RunRecord& record);
std::string origin_words(std::optional<Date> data_date, const RunRecord& record);

}  // namespace farwater::reports
