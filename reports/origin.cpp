#include "reports/origin.h"

#include <algorithm>

#include <fmt/format.h>

#include "reports/text/number_words.h"

namespace farwater::reports {

std::string_view recorded(const RunRecord& record, std::string_view key) {
    const auto found = std::ranges::find(record, key, &RunRecord::value_type::first);
    return found == record.end() ? std::string_view{} : std::string_view(found->second);
}

std::string origin_words(const District& district, const RunRecord& record) {
    return origin_words(district.data_date, record);
}

std::string origin_words(std::optional<Date> data_date, const RunRecord& record) {
    constexpr std::size_t letters_of_hash = 16;
    const std::string date = day(data_date);
    return fmt::format("{}. Data of {}. District file sha256 {}", recorded(record, "program"),
                       date.empty() ? "an unknown date" : date,
                       recorded(record, "district_file_sha256").substr(0, letters_of_hash));
}

}  // namespace farwater::reports
