#include "io/records/parse_measure.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <string>

#include "io/records/parse_cell.h"
#include "io/records/unit_words.h"

namespace farwater::io {
namespace {

struct UnitSpelling {
    std::string_view spelling;  // lower case
    std::string_view unit;
};

// mph, km/h, knots, t, st, lbs, m, ft: OpenStreetMap wiki, Map features/Units. The rest: common
// practice, no source.
constexpr std::array spellings{
    UnitSpelling{"mph", "mph"},
    UnitSpelling{"mi/h", "mph"},
    UnitSpelling{"m.p.h.", "mph"},
    UnitSpelling{"miles per hour", "mph"},
    UnitSpelling{"km/h", "km/h"},
    UnitSpelling{"kmh", "km/h"},
    UnitSpelling{"kph", "km/h"},
    UnitSpelling{"kmph", "km/h"},
    UnitSpelling{"kmhr", "km/h"},
    UnitSpelling{"knots", "knot"},
    UnitSpelling{"lb", "lb"},
    UnitSpelling{"lbs", "lb"},
    UnitSpelling{"lb.", "lb"},
    UnitSpelling{"lbs.", "lb"},
    UnitSpelling{"pounds", "lb"},
    UnitSpelling{"#", "lb"},
    UnitSpelling{"kg", "kg"},
    UnitSpelling{"st", "short_ton"},
    UnitSpelling{"ton", "short_ton"},
    UnitSpelling{"tons", "short_ton"},
    UnitSpelling{"tn", "short_ton"},
    UnitSpelling{"short ton", "short_ton"},
    UnitSpelling{"short tons", "short_ton"},
    UnitSpelling{"us tons", "short_ton"},
    UnitSpelling{"tonne", "tonne"},
    UnitSpelling{"tonnes", "tonne"},
    UnitSpelling{"metric ton", "tonne"},
    UnitSpelling{"metric tons", "tonne"},
    UnitSpelling{"m", "m"},
    UnitSpelling{"metre", "m"},
    UnitSpelling{"metres", "m"},
    UnitSpelling{"meter", "m"},
    UnitSpelling{"meters", "m"},
    UnitSpelling{"cm", "cm"},
    UnitSpelling{"ft", "ft"},
    UnitSpelling{"ft.", "ft"},
    UnitSpelling{"feet", "ft"},
    UnitSpelling{"foot", "ft"},
    UnitSpelling{"'", "ft"},
    UnitSpelling{"in", "in"},
    UnitSpelling{"in.", "in"},
    UnitSpelling{"inch", "in"},
    UnitSpelling{"inches", "in"},
    UnitSpelling{"\"", "in"},
    UnitSpelling{"''", "in"},
};

struct MeasureWord {
    std::string_view word;        // lower case
    std::string_view ours;        // the unit that it speaks of; empty = any
    std::optional<double> value;  // none = says that nothing is recorded, or nothing posted
};

// none, signals, walk: OpenStreetMap wiki, Key:maxspeed. default, none, unsigned: Key:maxheight and
// Key:maxweight. Walking pace: common practice, no source.
constexpr std::array measure_words{
    MeasureWord{"none", {}, std::nullopt},        MeasureWord{"no", {}, std::nullopt},
    MeasureWord{"unknown", {}, std::nullopt},     MeasureWord{"unsigned", {}, std::nullopt},
    MeasureWord{"no_sign", {}, std::nullopt},     MeasureWord{"unlimited", {}, std::nullopt},
    MeasureWord{"default", {}, std::nullopt},     MeasureWord{"signals", "mph", std::nullopt},
    MeasureWord{"variable", "mph", std::nullopt}, MeasureWord{"walk", "mph", 4.0},
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

// Typographic feet and inches as plain ones.
std::string plain_marks(std::string_view text) {
    constexpr std::array<std::pair<std::string_view, char>, 4> marks{
        {{"\u2032", '\''}, {"\u2019", '\''}, {"\u2033", '"'}, {"\u201d", '"'}}};
    std::string plain(text);
    for (const auto& [mark, letter] : marks) {
        for (auto at = plain.find(mark); at != std::string::npos; at = plain.find(mark)) {
            plain.replace(at, mark.size(), 1, letter);
        }
    }
    return plain;
}

std::string_view unit_spelled(std::string_view text, std::string_view theirs) {
    if (text == "t") {
        return theirs == "tonne" ? "tonne" : "short_ton";
    }
    const auto* found = std::find_if(spellings.begin(), spellings.end(),
                                     [&](const UnitSpelling& row) { return row.spelling == text; });
    return found == spellings.end() ? std::string_view{} : found->unit;
}

// "65 mph": what is left of the first thing that is no part of a number, and the rest.
struct NumberAndUnit {
    std::string_view number, unit;
};
NumberAndUnit parted(std::string_view text) {
    const std::size_t end = text.find_first_not_of("+-.0123456789");
    return {trimmed(text.substr(0, end)),
            end == std::string_view::npos ? std::string_view{} : trimmed(text.substr(end))};
}

// A number that names its unit, in ours; none when it does not, or names one of another kind.
std::optional<double> with_unit(std::string_view text, std::string_view theirs,
                                std::string_view ours) {
    const NumberAndUnit parts = parted(text);
    const std::optional<double> number = parse_number(parts.number);
    const std::optional<double> factor = unit_factor(unit_spelled(parts.unit, theirs), ours);
    return number && factor ? std::optional(*number * *factor) : std::nullopt;
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

Measure as_measure(std::optional<double> value) {
    return value && std::isfinite(*value) ? Measure{MeasureKind::value, *value} : unreadable;
}

Measure parse_one(std::string_view text, std::string_view theirs, std::string_view ours) {
    for (const MeasureWord& word : measure_words) {
        if (word.word == text && (word.ours.empty() || word.ours == ours)) {
            return word.value ? Measure{MeasureKind::value, *word.value} : not_recorded;
        }
    }
    if (const std::optional<double> number = parse_number(text)) {
        return measure_of(*number, theirs, ours);
    }
    if (const std::optional<double> number = with_unit(text, theirs, ours)) {
        return *number == 0.0 ? not_recorded : as_measure(number);
    }
    const std::optional<double> length = ours == "ft" ? feet_and_inches(text) : std::nullopt;
    return as_measure(length);
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
    const std::string plain = lower_case(plain_marks(text));
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
