#include "io/records/parse_clock.h"

#include <regex>
#include <string>

namespace farwater::io {
namespace {

constexpr double day_min = 24.0 * 60.0;

std::optional<double> hour_of(int hour, char half) {
    if (half == ' ') {
        return hour < 24 ? std::optional<double>(hour) : std::nullopt;
    }
    if (hour < 1 || hour > 12) {
        return std::nullopt;
    }
    return hour % 12 + (half == 'p' ? 12 : 0);
}

}  // namespace

std::optional<Duration> parse_clock(std::string_view text) {
    static const std::regex clock(
        R"((?:^|.*[ T])(\d{1,2}):([0-5]\d)(?::([0-5]\d)(?:\.\d+)?)? ?(?:([AaPp])\.?[Mm]\.?)?(?:Z|[+-]\d\d:?\d\d)?$)");
    std::match_results<std::string_view::const_iterator> part;
    if (!std::regex_match(text.begin(), text.end(), part, clock)) {
        return std::nullopt;
    }
    const char half = part[4].matched ? (*part[4].first | 0x20) == 'p' ? 'p' : 'a' : ' ';
    const std::optional<double> hour = hour_of(std::stoi(part[1].str()), half);
    const double second = part[3].matched ? std::stod(part[3].str()) : 0.0;
    return hour ? std::optional(minutes(*hour * 60.0 + std::stod(part[2].str()) + second / 60.0))
                : std::nullopt;
}

std::optional<Duration> clock_between(Duration from, Duration to, Duration most) {
    const double between = in_minutes(to - from);
    const Duration later = minutes(between < 0.0 ? between + day_min : between);
    return later <= most ? std::optional(later) : std::nullopt;
}

}  // namespace farwater::io
