#include "io/records/parse_cell.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

namespace farwater::io {
namespace {

// A whole number of digits only, the whole text.
std::optional<unsigned> parse_digits(std::string_view text) {
    unsigned value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (text.empty() || error != std::errc() || end != text.data() + text.size()) {
        return std::nullopt;
    }
    return value;
}

std::optional<unsigned> parse_month(std::string_view text) {
    const std::optional<unsigned> month = parse_digits(trimmed(text));
    return month && *month >= 1 && *month <= 12 ? month : std::nullopt;
}

// "4" or "11-3" into the set; false when it is neither.
bool include_months(MonthSet& months, std::string_view part) {
    const std::size_t dash = part.find('-');
    const std::optional<unsigned> first = parse_month(part.substr(0, dash));
    const std::optional<unsigned> last =
        dash == std::string_view::npos ? first : parse_month(part.substr(dash + 1));
    if (!first || !last) {
        return false;
    }
    for (unsigned month = *first;; month = month % 12 + 1) {
        months.include(std::chrono::month(month));
        if (month == *last) {
            return true;
        }
    }
}

bool is_date_shape(std::string_view text) {
    constexpr std::string_view shape = "dddd-dd-dd";
    for (std::size_t i = 0; i < shape.size(); ++i) {
        if (shape[i] == 'd' ? !is_digit(text[i]) : (text[i] != '-' && text[i] != '/')) {
            return false;
        }
    }
    return text.size() == shape.size() || text[shape.size()] == 'T' || text[shape.size()] == ' ';
}

}  // namespace

std::string_view trimmed(std::string_view text) {
    constexpr std::string_view blanks = " \t\r\n\v\f";
    const std::size_t begin = text.find_first_not_of(blanks);
    if (begin == std::string_view::npos) {
        return {};
    }
    return text.substr(begin, text.find_last_not_of(blanks) - begin + 1);
}

bool is_blank(std::string_view text) { return trimmed(text).empty(); }

std::string lower_case(std::string_view text) {
    std::string lower(text);
    std::transform(lower.begin(), lower.end(), lower.begin(), [](char c) {
        return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    });
    return lower;
}

std::optional<double> parse_number(std::string_view text) {
    text = trimmed(text);
    if (text.starts_with('+') && !text.starts_with("+-")) {
        text.remove_prefix(1);
    }
    double value = 0.0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc() || end != text.data() + text.size() || !std::isfinite(value)) {
        return std::nullopt;
    }
    return value;
}

std::optional<bool> parse_yes_no(std::string_view text) {
    constexpr std::array<std::string_view, 5> yes{"yes", "true", "y", "t", "1"};
    constexpr std::array<std::string_view, 5> no{"no", "false", "n", "f", "0"};
    const std::string word = lower_case(trimmed(text));
    if (std::find(yes.begin(), yes.end(), word) != yes.end()) {
        return true;
    }
    if (std::find(no.begin(), no.end(), word) != no.end()) {
        return false;
    }
    return std::nullopt;
}

std::optional<Date> parse_year_first_date(std::string_view text) {
    text = trimmed(text);
    if (text.size() < 10 || !is_date_shape(text)) {
        return std::nullopt;
    }
    const Date date{
        std::chrono::year(static_cast<int>(parse_digits(text.substr(0, 4)).value_or(0))),
        std::chrono::month(parse_digits(text.substr(5, 2)).value_or(0)),
        std::chrono::day(parse_digits(text.substr(8, 2)).value_or(0))};
    return date.ok() ? std::optional(date) : std::nullopt;
}

std::optional<MonthSet> parse_months(std::string_view text) {
    text = trimmed(text);
    if (lower_case(text) == "all") {
        return MonthSet::all();
    }
    MonthSet months;
    while (true) {
        const std::size_t comma = text.find(',');
        if (!include_months(months, trimmed(text.substr(0, comma)))) {
            return std::nullopt;
        }
        if (comma == std::string_view::npos) {
            return months;
        }
        text.remove_prefix(comma + 1);
    }
}

}  // namespace farwater::io
