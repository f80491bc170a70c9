#include "io/settings/keys_page.h"

#include <fmt/format.h>

#include "io/near_word.h"

namespace farwater::io {
namespace {

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

std::string range_of(double low, double high) {
    return low < high ? fmt::format("{:.10g} to {:.10g}", low, high) : std::string();
}

std::string keys_page(std::string_view title, std::span<const KeyRow> keys,
                      std::string_view intro) {
    std::string page = fmt::format(
        "## {}\n\n{}\n\n| key | type | range | default | what |\n|---|---|---|---|---|\n", title,
        intro);
    for (const KeyRow& key : keys) {
        const std::string standard = key.required ? "required" : std::string(key.standard);
        page += fmt::format("| `{}` | {} | {} | {} | {} |\n", key.name, type_of(key),
                            range_of(key.low, key.high), standard, key.what);
    }
    return page + "\n";
}

}  // namespace farwater::io
