#include "io/records/parse_date.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <string>
#include <vector>

#include "io/records/not_known.h"
#include "io/records/parse_cell.h"

namespace farwater::io {
namespace {

using namespace std::string_view_literals;

constexpr ReadDate no_date{DateKind::unreadable, {}};

constexpr std::array month_names{"january"sv,   "february"sv, "march"sv,    "april"sv,
                                 "may"sv,       "june"sv,     "july"sv,     "august"sv,
                                 "september"sv, "october"sv,  "november"sv, "december"sv};

bool is_letter(char c) { return c >= 'a' && c <= 'z'; }

// "jan", "january", "sept"; 0 for what is no month's name.
unsigned month_named(std::string_view text) {
    for (unsigned i = 0; i < month_names.size(); ++i) {
        const bool brief = text.size() == 3 || text == "sept";
        if (text == month_names[i] || (brief && month_names[i].starts_with(text))) {
            return i + 1;
        }
    }
    return 0;
}

// One run of figures or letters, and what stands between it and the one before.
struct Part {
    std::string_view text;
    std::string_view between;
    bool is_number() const { return is_digit(text.front()); }
    int number() const {
        int value = -1;
        std::from_chars(text.data(), text.data() + text.size(), value);
        return value;
    }
};

// None where anything but figures, letters and separators stands.
std::vector<Part> parts_of(std::string_view text) {
    std::vector<Part> parts;
    for (std::size_t at = 0; at < text.size();) {
        const auto separators = text.find_first_not_of(" -/.,", at);
        const std::string_view between = text.substr(at, separators - at);
        at = separators == std::string_view::npos ? text.size() : separators;
        std::size_t end = at;
        while (end < text.size() && is_digit(text[end])) {
            ++end;
        }
        while (end < text.size() && is_letter(text[end]) && !is_digit(text[at])) {
            ++end;
        }
        if (end == at) {
            return {};
        }
        parts.push_back({text.substr(at, end - at), between});
        at = end;
    }
    return parts;
}

// The st of "1st".
void leave_out_ordinals(std::vector<Part>& parts) {
    constexpr std::array endings{"st"sv, "nd"sv, "rd"sv, "th"sv};
    std::erase_if(parts, [&](const Part& part) {
        return part.between.empty() && std::ranges::find(endings, part.text) != endings.end();
    });
}

// The day before the blank or T that a time follows.
std::string_view without_time(std::string_view text) {
    const std::size_t colon = text.find(':');
    if (colon == std::string_view::npos) {
        return text;
    }
    const std::size_t hours = text.find_last_not_of("0123456789", colon - (colon == 0 ? 0 : 1));
    const bool parted =
        hours != std::string_view::npos && (text[hours] == ' ' || text[hours] == 't');
    const bool is_time =
        text.find_first_not_of("0123456789:.+-zapm ", colon) == std::string_view::npos;
    return parted && is_time ? trimmed(text.substr(0, hours)) : text;
}

// The calendar's day; none for one that it has not, or for a year that is a slip.
std::optional<Date> day_of(int year, int month, int day) {
    const Date date{std::chrono::year(year), std::chrono::month(static_cast<unsigned>(month)),
                    std::chrono::day(static_cast<unsigned>(day))};
    const bool fits = year >= 1900 && year <= 2099 && month > 0 && day > 0;
    return fits && date.ok() ? std::optional(date) : std::nullopt;
}

// The year that stands there: four figures, or two.
int year_of(const Part& part) {
    const int number = part.number();
    return part.text.size() == 4   ? number
           : part.text.size() != 2 ? -1
           : number < 30           ? 2000 + number
                                   : 1900 + number;
}

bool is_short(const Part& part) { return part.text.size() <= 2; }

ReadDate as_read(std::optional<Date> date) {
    return date ? ReadDate{DateKind::value, *date} : no_date;
}

// One month by its name.
ReadDate with_name(const Part& a, const Part& b, const Part& c) {
    if (const unsigned month = a.is_number() ? 0 : month_named(a.text)) {
        return b.is_number() && is_short(b) && c.is_number()
                   ? as_read(day_of(year_of(c), static_cast<int>(month), b.number()))
                   : no_date;
    }
    const unsigned month = b.is_number() ? 0 : month_named(b.text);
    if (month == 0 || !a.is_number() || !c.is_number()) {
        return no_date;
    }
    const bool year_first = a.text.size() == 4;
    const Part& day = year_first ? c : a;
    return is_short(day)
               ? as_read(day_of(year_of(year_first ? a : c), static_cast<int>(month), day.number()))
               : no_date;
}

// Every day that the figures can mean under the order.
std::vector<Date> days_meant(const Part& a, const Part& b, const Part& c, DateOrder order) {
    std::vector<Date> days;
    const auto meant = [&](std::optional<Date> day) {
        if (day && std::ranges::find(days, *day) == days.end()) {
            days.push_back(*day);
        }
    };
    if (order != DateOrder::day_first) {
        meant(day_of(year_of(c), a.number(), b.number()));
    }
    if (order != DateOrder::month_first) {
        meant(day_of(year_of(c), b.number(), a.number()));
    }
    if (order == DateOrder::unstated && c.text.size() == 2 && a.text.size() == 2) {
        meant(day_of(year_of(a), b.number(), c.number()));
    }
    return days;
}

ReadDate in_figures(const Part& a, const Part& b, const Part& c, DateOrder order) {
    const bool one_separator =
        b.between == c.between && (b.between == "-" || b.between == "/" || b.between == ".");
    if (!one_separator || !is_short(b)) {
        return no_date;
    }
    if (a.text.size() == 4 && is_short(c)) {
        return as_read(day_of(a.number(), b.number(), c.number()));
    }
    const std::vector<Date> days = is_short(a) ? days_meant(a, b, c, order) : std::vector<Date>();
    return days.size() > 1    ? ReadDate{DateKind::ambiguous, {}}
           : days.size() == 1 ? ReadDate{DateKind::value, days.front()}
                              : no_date;
}

}  // namespace

ReadDate read_date(std::string_view text, DateOrder order) {
    if (says_not_known(text)) {
        return {DateKind::not_known, {}};
    }
    if (const std::optional<double> number = parse_number(text)) {
        return date_of_number(*number);
    }
    const std::string lower = lower_case(trimmed(text));
    std::vector<Part> parts = parts_of(without_time(lower));
    leave_out_ordinals(parts);
    if (parts.size() != 3 || !parts[0].between.empty()) {
        return no_date;
    }
    const bool figures = std::ranges::all_of(parts, &Part::is_number);
    return figures ? in_figures(parts[0], parts[1], parts[2], order)
                   : with_name(parts[0], parts[1], parts[2]);
}

ReadDate date_of_number(double number) {
    if (number >= 19000101.0 && number <= 20991231.0 && number == std::floor(number)) {
        const int figures = static_cast<int>(number);
        return as_read(day_of(figures / 10000, figures / 100 % 100, figures % 100));
    }
    constexpr double first = 18264.0;  // 1950-01-01
    constexpr double after = 73051.0;  // 2100-01-01
    if (!(number >= first && number < after)) {
        return no_date;
    }
    const auto zero = std::chrono::sys_days(
        Date{std::chrono::year(1899), std::chrono::month(12), std::chrono::day(30)});
    return {DateKind::from_day_number, zero + std::chrono::days(static_cast<int>(number))};
}

}  // namespace farwater::io
