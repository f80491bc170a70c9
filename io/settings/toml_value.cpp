#include "io/settings/toml_value.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "io/crs.h"
#include "io/near_word.h"
#include "io/records/parse_cell.h"
#include "io/records/unit_words.h"

namespace farwater::io {
namespace {

bool is_list_of_texts(const TomlNode& node) {
    const auto* list = node.as<TomlArray>();
    const auto is_text = [](const TomlNode& item) { return item.as<std::string>() != nullptr; };
    return list != nullptr && std::all_of(list->begin(), list->end(), is_text);
}

// What is wrong with a text that must be a word of the key's list; empty when nothing is.
std::string wrong_word(const std::string& text, const KeyRow& row) {
    const auto list = row.words();
    if (std::find(list.begin(), list.end(), text) != list.end()) {
        return {};
    }
    return fmt::format("must be {}, not \"{}\"{}", one_of(list), text, did_you_mean(text, list));
}

std::string wrong_number(double value, const KeyRow& row) {
    if (value >= row.low && value <= row.high) {
        return {};
    }
    const std::string_view unit = unit_of_name(row.name);
    return fmt::format("must be between {} and {}{}{}, not {}", row.low, row.high,
                       unit.empty() ? "" : " ", unit, value);
}

std::string wrong_months(const std::string& text) {
    if (parse_months(text)) {
        return {};
    }
    return fmt::format(
        "must be months such as \"4-11\", \"11-3\", \"4,5,6\" or \"all\", not \"{}\"", text);
}

std::string wrong_text(const std::string& text, const KeyRow& row) {
    if (row.kind == KeyKind::months) {
        return wrong_months(text);
    }
    if (row.kind == KeyKind::limit && text != unlimited_word) {
        return fmt::format("must be a number or \"{}\", not \"{}\"", unlimited_word, text);
    }
    if (row.kind == KeyKind::crs && !crs_from_text(text)) {
        return fmt::format("\"{}\" is no coordinate system that PROJ knows", text);
    }
    return row.words == nullptr ? std::string() : wrong_word(text, row);
}

}  // namespace

std::string_view wanted(KeyKind kind) {
    switch (kind) {
        case KeyKind::text:
        case KeyKind::crs:
        case KeyKind::word:
        case KeyKind::months:
            return "a text";
        case KeyKind::number:
            return "a number";
        case KeyKind::whole:
            return "a whole number";
        case KeyKind::yes_no:
            return "true or false";
        case KeyKind::date:
            return "a date such as 2026-05-31, without quotes";
        case KeyKind::texts:
        case KeyKind::words:
            return "a list of texts";
        case KeyKind::limit:
            return "a number or \"unlimited\"";
        case KeyKind::pairs:
            return "a table of texts";
        case KeyKind::pair_tables:
            return "a table of tables";
    }
    return {};
}

bool is_kind(const TomlNode& node, KeyKind kind) {
    switch (kind) {
        case KeyKind::text:
        case KeyKind::crs:
        case KeyKind::word:
        case KeyKind::months:
            return node.as<std::string>() != nullptr;
        case KeyKind::number:
            return number_of(node).has_value();
        case KeyKind::whole:
            return node.as<std::int64_t>() != nullptr;
        case KeyKind::yes_no:
            return node.as<bool>() != nullptr;
        case KeyKind::date:
            return node.as<Date>() != nullptr;
        case KeyKind::texts:
        case KeyKind::words:
            return is_list_of_texts(node);
        case KeyKind::limit:
            return node.as<std::string>() != nullptr || number_of(node).has_value();
        case KeyKind::pairs:
        case KeyKind::pair_tables:
            return node.as<TomlTable>() != nullptr;
    }
    return false;
}

std::string wrong_value(const TomlNode& node, const KeyRow& row) {
    if (const auto* text = node.as<std::string>()) {
        return wrong_text(*text, row);
    }
    if (const auto* date = node.as<Date>()) {
        return date->ok() ? "" : "is a day that no calendar has";
    }
    if (const std::optional<double> number = number_of(node)) {
        return wrong_number(*number, row);
    }
    for (const std::string& item : texts_of(node)) {
        if (std::string wrong = wrong_text(item, row); !wrong.empty()) {
            return wrong;
        }
    }
    return {};
}

std::optional<double> number_of(const TomlNode& node) {
    if (const auto* whole = node.as<std::int64_t>()) {
        return static_cast<double>(*whole);
    }
    const auto* number = node.as<double>();
    return number != nullptr && std::isfinite(*number) ? std::optional(*number) : std::nullopt;
}

std::optional<std::string> spelled(const TomlNode& node) {
    if (const auto* text = node.as<std::string>()) {
        return *text;
    }
    if (const auto* yes = node.as<bool>()) {
        return *yes ? "true" : "false";
    }
    const std::optional<double> number = number_of(node);
    return number ? std::optional(fmt::format("{}", *number)) : std::nullopt;
}

std::vector<std::string> texts_of(const TomlNode& node) {
    std::vector<std::string> texts;
    if (const auto* list = node.as<TomlArray>()) {
        for (const TomlNode& item : *list) {
            texts.push_back(spelled(item).value_or(""));
        }
    }
    return texts;
}

}  // namespace farwater::io
