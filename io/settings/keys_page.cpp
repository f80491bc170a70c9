#include "io/settings/keys_page.h"

#include <array>
#include <utility>

#include <fmt/format.h>

#include "io/near_word.h"
#include "io/records/unit_words.h"

namespace farwater::io {
namespace {

// Of names that end in no unit of the data. What counts things or is a share has none.
constexpr std::array<std::pair<std::string_view, std::string_view>, 16> units_told{{
    {"_sqft", "sqft"},
    {"_years", "years"},
    {"_per_year", "money a year"},
    {"budget", "money"},
    {"cost", "money"},
    {"value", "money"},
    {"gallons", "gal"},
    {"gal", "gal"},
    {"_pounds_per_gallon", "lb a gal"},
    {"_pct", "%"},
    {"_temperature_f", "F"},
    {"_valid_months", "months"},
    {"_days", "days"},
    {"_factor", "a factor"},
    {"_fraction", "a share"},
    {"_share", "a share"},
}};

std::string type_of(const KeyRow& key) {
    switch (key.kind) {
        case KeyKind::text:
        case KeyKind::crs:
            return "text";
        case KeyKind::number:
            return "number";
        case KeyKind::whole:
            return "whole number";
        case KeyKind::yes_no:
            return "true or false";
        case KeyKind::date:
            return "date";
        case KeyKind::months:
            return "months";
        case KeyKind::texts:
            return "list of texts";
        case KeyKind::words:
            return "list of " + one_of(key.words());
        case KeyKind::word:
            return one_of(key.words());
        case KeyKind::limit:
            return "number or \"unlimited\"";
        case KeyKind::pairs:
            return "table";
        case KeyKind::pair_tables:
            return "table of tables";
    }
    return {};
}

}  // namespace

std::string kind_in_words(const FieldRow& field) {
    switch (field.kind) {
        case FieldKind::text:
            return "text";
        case FieldKind::number:
            return "number";
        case FieldKind::whole:
            return "whole number";
        case FieldKind::yes_no:
            return "yes or no";
        case FieldKind::word:
            return one_of(field.words());
        case FieldKind::date:
            return "date";
        case FieldKind::months:
            return "months";
        case FieldKind::usable:
            return "number or unlimited";
    }
    return {};
}

std::string_view unit_in_words(std::string_view name) {
    for (const auto& [ending, words] : units_told) {
        if (name.ends_with(ending)) {
            return words;
        }
    }
    return unit_of_name(name);
}

std::string range_of(double low, double high) {
    return low < high ? fmt::format("{:.10g} to {:.10g}", low, high) : std::string();
}

std::string keys_page(std::string_view title, std::span<const KeyRow> keys,
                      std::string_view intro) {
    std::string page = fmt::format(
        "## {}\n\n{}\n\n| key | type | unit | range | default | what "
        "|\n|---|---|---|---|---|---|\n",
        title, intro);
    for (const KeyRow& key : keys) {
        const std::string standard = key.required ? "required" : std::string(key.standard);
        page +=
            fmt::format("| `{}` | {} | {} | {} | {} | {} |\n", key.name, type_of(key),
                        unit_in_words(key.name), range_of(key.low, key.high), standard, key.what);
    }
    return page + "\n";
}

}  // namespace farwater::io
