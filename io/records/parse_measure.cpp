#include "io/records/parse_measure.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <string>

#include "io/records/not_known.h"
#include "io/records/parse_cell.h"
#include "io/records/parse_quantity.h"
#include "io/records/unit_words.h"

namespace farwater::io {
namespace {

struct MeasureWord {
    std::string_view word;        // lower case
    std::string_view ours;        // the unit that it speaks of; empty = any
    std::optional<double> value;  // none = says that nothing is recorded, or nothing posted
};

// none, signals, walk: OpenStreetMap wiki, Key:maxspeed. default, none, unsigned: Key:maxheight and
// Key:maxweight. Walking pace: common practice, no source.
constexpr std::array measure_words{
    MeasureWord{"none", {}, std::nullopt},
    MeasureWord{"no", {}, std::nullopt},
    MeasureWord{"unsigned", {}, std::nullopt},
    MeasureWord{"no_sign", {}, std::nullopt},
    MeasureWord{"unlimited", {}, std::nullopt},
    MeasureWord{"default", {}, std::nullopt},
    MeasureWord{"signals", "mph", std::nullopt},
    MeasureWord{"variable", "mph", std::nullopt},
    MeasureWord{"walk", "mph", 4.0},
};

struct Code {
    double number;
    std::string_view ours;  // empty = any
};

// What stands for "not recorded" in number columns; 0 and -1 can be no limit, 999 and 9999 could be
// pounds. Common practice, no source.
constexpr std::array codes{
    Code{0.0, {}},    Code{-1.0, {}},    Code{999.0, "mph"}, Code{9999.0, "mph"},
    Code{-999.0, {}}, Code{-9999.0, {}}, Code{999.0, "ft"},  Code{9999.0, "ft"},
};

constexpr Measure unreadable{MeasureKind::unreadable, 0.0};
constexpr Measure not_recorded{MeasureKind::not_recorded, 0.0};

Measure as_measure(std::optional<double> value) {
    return value && std::isfinite(*value) ? Measure{MeasureKind::value, *value} : unreadable;
}

Measure parse_one(std::string_view text, std::string_view theirs, std::string_view ours) {
    for (const MeasureWord& word : measure_words) {
        if (word.word == text && (word.ours.empty() || word.ours == ours)) {
            return word.value ? Measure{MeasureKind::value, *word.value} : not_recorded;
        }
    }
    if (says_not_known(text)) {
        return not_recorded;
    }
    if (const std::optional<double> number = parse_grouped_number(text)) {
        return measure_of(*number, theirs, ours);
    }
    const std::optional<double> number = parse_with_unit(text, theirs, ours);
    return number == 0.0 ? not_recorded : as_measure(number);
}

// The lower of two; what is unreadable makes the whole so.
Measure lower(Measure a, Measure b) {
    if (a.kind == MeasureKind::unreadable || b.kind == MeasureKind::unreadable) {
        return unreadable;
    }
    if (a.kind != b.kind) {
        return a.kind == MeasureKind::value ? a : b;
    }
    return a.value < b.value ? a : b;
}

}  // namespace

Measure measure_of(double number, std::string_view theirs, std::string_view ours) {
    const bool code = std::any_of(codes.begin(), codes.end(), [&](const Code& row) {
        return row.number == number && (row.ours.empty() || row.ours == ours);
    });
    if (code) {
        return not_recorded;
    }
    const std::optional<double> factor = unit_factor(theirs.empty() ? ours : theirs, ours);
    return as_measure(factor ? std::optional(number * *factor) : std::nullopt);
}

Measure parse_measure(std::string_view text, std::string_view theirs, std::string_view ours) {
    const std::string plain = lower_case(text);
    Measure lowest = not_recorded;
    for (std::string_view rest = plain; !is_blank(rest);) {
        const std::size_t end = rest.find(';');
        const std::string_view part = trimmed(rest.substr(0, end));
        lowest = lower(lowest, part.empty() ? not_recorded : parse_one(part, theirs, ours));
        rest = end == std::string_view::npos ? std::string_view{} : rest.substr(end + 1);
    }
    return lowest;
}

}  // namespace farwater::io
