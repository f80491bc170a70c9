#include "io/records/parse_quantity.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <utility>

#include "io/records/not_known.h"
#include "io/records/parse_cell.h"
#include "io/records/unit_spellings.h"
#include "io/records/unit_words.h"

namespace farwater::io {
namespace {

// Typographic marks as plain ones.
std::string plain_marks(std::string_view text) {
    constexpr std::array<std::pair<std::string_view, std::string_view>, 9> marks{
        {{"\u2032", "'"},
         {"\u2019", "'"},
         {"\u2033", "\""},
         {"\u201d", "\""},
         {"\u2212", "-"},
         {"\u00a0", " "},
         {"\u00bd", " 1/2"},
         {"\u00bc", " 1/4"},
         {"\u00be", " 3/4"}}};
    std::string plain(text);
    for (const auto& [mark, letters] : marks) {
        for (auto at = plain.find(mark); at != std::string::npos; at = plain.find(mark)) {
            plain.replace(at, mark.size(), letters);
        }
    }
    return plain;
}

// What is left of the first thing that is no part of a number, and the rest.
struct NumberAndUnit {
    std::string_view number, unit;
};
NumberAndUnit parted(std::string_view text) {
    const std::size_t end = text.find_first_not_of("+-.,0123456789");
    return {trimmed(text.substr(0, end)),
            end == std::string_view::npos ? std::string_view{} : trimmed(text.substr(end))};
}

// "12'6\"", "12 ft 6 in", "12' 6", "12'-6\"" in feet; inches below 12.
std::optional<double> feet_and_inches(std::string_view text) {
    const std::size_t mark = text.find_first_of("'f");
    if (mark == std::string_view::npos) {
        return std::nullopt;
    }
    std::size_t end = text.find_first_of(" -0123456789", mark);
    if (end == std::string_view::npos ||
        unit_spelled(trimmed(text.substr(mark, end - mark)), {}) != "ft") {
        return std::nullopt;
    }
    const std::size_t rest = text.find_first_not_of(" -", end);
    const std::optional<double> whole = parse_number(text.substr(0, mark));
    const NumberAndUnit inches = parted(rest == std::string_view::npos ? "" : text.substr(rest));
    const std::optional<double> part = parse_number(inches.number);
    const bool is_inches = inches.unit.empty() || unit_spelled(inches.unit, {}) == "in";
    if (!whole || !part || !is_inches || *whole < 0.0 || *part < 0.0 || *part >= 12.0) {
        return std::nullopt;
    }
    return *whole + *part / 12.0;
}

// "2 1/2", "2-1/2", "3/4", as bores are called; the unit behind it is left in `text`.
std::optional<double> take_fraction(std::string_view& text) {
    const std::size_t slash = text.find('/');
    if (slash == std::string_view::npos || slash == 0 || slash + 1 == text.size() ||
        !is_digit(text[slash - 1])) {
        return std::nullopt;
    }
    const std::size_t after =
        std::min(text.find_first_not_of("0123456789", slash + 1), text.size());
    const std::size_t before = text.find_last_not_of("0123456789", slash - 1);
    const std::size_t upper_at = before == std::string_view::npos ? 0 : before + 1;
    const auto upper = parse_number(text.substr(upper_at, slash - upper_at));
    const auto lower = parse_number(text.substr(slash + 1, after - slash - 1));
    const bool alone = upper_at == 0;
    const bool parted_well = alone || text[before] == ' ' || text[before] == '-';
    const auto whole = alone ? std::optional(0.0) : parse_number(text.substr(0, before));
    if (!upper || !lower || !whole || !parted_well || *upper < 1.0 || *upper >= *lower ||
        *lower > 64.0 || *whole < 0.0 || *whole != std::floor(*whole)) {
        return std::nullopt;
    }
    text = trimmed(text.substr(after));
    return *whole + *upper / *lower;
}

std::optional<double> inches_with_fraction(std::string_view text, std::string_view theirs) {
    const std::optional<double> number = take_fraction(text);
    const bool in_inches = text.empty() ? theirs == "in" : unit_spelled(text, {}) == "in";
    return number && in_inches ? number : std::nullopt;
}

CellNumber as_quantity(std::optional<double> value) {
    return value && std::isfinite(*value) ? CellNumber{CellNumberKind::value, *value}
                                          : CellNumber{};
}

// What stands with the sign, as the number that it is.
std::optional<double> with_sign(std::string_view text, NumberSign sign) {
    text = trimmed(text);
    if (sign == NumberSign::money && text.starts_with('$')) {
        return parse_grouped_number(text.substr(1));
    }
    if (sign == NumberSign::share && text.ends_with('%')) {
        const std::optional<double> percent = parse_number(text.substr(0, text.size() - 1));
        return percent ? std::optional(*percent / 100.0) : std::nullopt;
    }
    return std::nullopt;
}

}  // namespace

std::optional<double> parse_grouped_number(std::string_view text) {
    text = trimmed(text);
    const std::size_t point = std::min(text.find('.'), text.size());
    std::string_view whole = text.substr(0, point);
    if (text.find(',') == std::string_view::npos) {
        return parse_number(text);
    }
    whole.remove_prefix(whole.starts_with('-') || whole.starts_with('+') ? 1 : 0);
    const std::size_t first = whole.find(',');
    bool grouped = first >= 1 && first <= 3 && whole[0] != '0' && whole.size() % 4 == first % 4 &&
                   text.find(',', point) == std::string_view::npos;
    for (std::size_t i = 0; grouped && i < whole.size(); ++i) {
        const bool comma = i >= first && (i - first) % 4 == 0;
        grouped = comma ? whole[i] == ',' : is_digit(whole[i]);
    }
    std::string plain(text);
    std::erase(plain, ',');
    return grouped ? parse_number(plain) : std::nullopt;
}

bool may_part_thousands(std::string_view text) {
    std::string_view number = trimmed(text);
    number = number.substr(std::min(number.find_first_not_of("+-$ "), number.size()));
    number = number.substr(0, number.find_first_not_of(".0123456789"));
    const std::size_t first = number.find('.');
    if (first == std::string_view::npos || first < 1 || first > 3 || number[0] == '0' ||
        number.size() % 4 != first % 4) {
        return false;
    }
    for (std::size_t i = first; i < number.size(); ++i) {
        if ((number[i] == '.') != ((i - first) % 4 == 0)) {
            return false;
        }
    }
    return true;
}

std::optional<double> parse_with_unit(std::string_view text, std::string_view theirs,
                                      std::string_view ours) {
    const std::string plain = lower_case(plain_marks(text));
    const NumberAndUnit parts = parted(trimmed(plain));
    const std::optional<double> number = parse_grouped_number(parts.number);
    const std::optional<double> factor = unit_factor(unit_spelled(parts.unit, theirs), ours);
    if (number && factor) {
        return *number * *factor;
    }
    const std::optional<double> from_feet = unit_factor("ft", ours);
    const std::optional<double> feet = from_feet ? feet_and_inches(plain) : std::nullopt;
    return feet ? std::optional(*feet * *from_feet) : std::nullopt;
}

CellNumber parse_quantity(std::string_view text, std::string_view theirs, std::string_view ours,
                          NumberSign sign) {
    if (says_not_known(text)) {
        return {CellNumberKind::not_known, 0.0};
    }
    const std::string plain = plain_marks(text);
    if (const std::optional<double> number = parse_grouped_number(plain)) {
        return as_quantity(*number * unit_factor(theirs, ours).value_or(1.0));
    }
    if (ours.empty()) {
        return as_quantity(with_sign(plain, sign));
    }
    if (const std::optional<double> value = parse_with_unit(plain, theirs, ours)) {
        return as_quantity(value);
    }
    return as_quantity(ours == "in" ? inches_with_fraction(trimmed(lower_case(plain)), theirs)
                                    : std::nullopt);
}

}  // namespace farwater::io
