#include <array>
#include <string>

#include <fmt/format.h>

#include "reports/explain/explanation.h"

namespace farwater::reports {
namespace {

std::string_view how_sure(Sure sure) {
    switch (sure) {
        case Sure::high:
            return "can be defended";
        case Sure::medium:
            return "fairly sure";
        case Sure::low:
            break;
    }
    return "hardly sure";
}

// As many as the number has, three at most.
Digits digits_of(double value) {
    const std::string text = plain(value, 3);
    const std::size_t point = text.find('.');
    return point == std::string::npos ? Digits::none
                                      : Digits{static_cast<int>(text.size() - point - 1)};
}

std::string unit_of_key(std::string_view key) {
    constexpr std::array units{"min", "mi", "ft", "in",  "gal", "gpm",
                               "mph", "lb", "hp", "psi", "pct"};
    for (const std::string_view unit : units) {
        if (key.ends_with(unit) && key.size() > unit.size() &&
            key[key.size() - unit.size() - 1] == '_') {
            return std::string(unit);
        }
    }
    return {};
}

}  // namespace

void explain_assumptions(const Explained& explained, WorkedPage& page) {
    const Assumptions& values = explained.district().assumptions;
    if (page.assumptions().empty()) {
        return;
    }
    page.part("Assumptions used");
    for (const AssumptionRow& row : assumption_rows()) {
        if (!page.assumptions().contains(row.key)) {
            continue;
        }
        const bool given = values.is_given(row.key);
        const double value = value_in_key_unit(values, row);
        page.number(std::string(row.key), value, digits_of(value), unit_of_key(row.key),
                    given ? std::string("given by the district")
                          : fmt::format("default, {}: {}", how_sure(row.sure), row.source));
    }
}

}  // namespace farwater::reports
