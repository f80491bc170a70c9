#include "io/draft/unit_by_size.h"

#include <algorithm>
#include <vector>

#include "io/records/parse_cell.h"

namespace farwater::io {

std::optional<std::string_view> unit_by_size(const FieldRow& field, const ColumnLook& column) {
    constexpr double most_tons = 100.0;
    constexpr double least_pounds = 2000.0;
    if (field.name != "weight_limit_lb") {
        return std::nullopt;
    }
    double low = 0.0;
    double high = 0.0;
    for (const std::string& value : column.values) {
        const double number = parse_number(value).value_or(0.0);
        if (number > 0.0) {  // 0 is none
            low = high == 0.0 ? number : std::min(low, number);
            high = std::max(high, number);
        }
    }
    if (high == 0.0) {
        return std::nullopt;
    }
    return high <= most_tons     ? std::optional<std::string_view>("short_ton")
           : low >= least_pounds ? std::optional<std::string_view>("")
                                 : std::nullopt;
}

}  // namespace farwater::io
