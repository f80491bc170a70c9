#include "io/settings/toml_tree.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <tuple>

#include <fmt/format.h>
#include <toml++/toml.h>

#include "io/error.h"

namespace farwater::io {
namespace {

TomlPlace place_of(const toml::source_region& source) {
    return {source.begin.line, source.begin.column};
}

Date date_of(const toml::date& date) {
    return {std::chrono::year(date.year), std::chrono::month(date.month),
            std::chrono::day(date.day)};
}

// The parser has a limit for nested values but none for dotted keys, and every dot is a table in a
// table: some ten thousand of them overflow the stack. Our own keys have five parts at most.
constexpr int most_parts = 16;

// Behind the quotes that open at `at`: their closing ones, or the end of the line.
std::size_t behind_quotes(std::string_view line, std::size_t at) {
    const char quote = line[at];
    for (++at; at < line.size(); ++at) {
        if (line[at] == quote) {
            return at + 1;
        }
        at += quote == '"' && line[at] == '\\' ? 1U : 0U;
    }
    return line.size();
}

// Where in the line a key has more parts than that.
std::optional<std::size_t> too_many_parts(std::string_view line) {
    int dots = 0;
    for (std::size_t at = 0; at < line.size() && line[at] != '#';) {
        if (line[at] == '"' || line[at] == '\'') {
            at = behind_quotes(line, at);
            continue;
        }
        const bool other_key = std::string_view(",=[]{}").find(line[at]) != std::string_view::npos;
        dots = other_key ? 0 : dots + (line[at] == '.' ? 1 : 0);
        if (dots >= most_parts) {
            return at;
        }
        ++at;
    }
    return std::nullopt;
}

void check_parts(std::string_view text, const std::string& name) {
    for (std::size_t line = 1; !text.empty(); ++line) {
        const std::size_t end = std::min(text.find('\n'), text.size());
        if (const auto place = too_many_parts(text.substr(0, end))) {
            throw SettingsError(fmt::format("{}:{}:{}: no key has more than {} parts", name, line,
                                            *place + 1, most_parts));
        }
        text.remove_prefix(std::min(end + 1, text.size()));
    }
}

TomlNode node_of(const toml::node& node);

TomlArray array_of(const toml::array& array) {
    TomlArray items;
    for (const toml::node& item : array) {
        items.push_back(node_of(item));
    }
    return items;
}

TomlTable table_of(const toml::table& table) {
    TomlTable entries;
    for (const auto& [key, node] : table) {
        entries.push_back({std::string(key.str()), place_of(key.source()), node_of(node)});
    }
    const auto in_file = [](const TomlEntry& entry) {
        return std::tie(entry.key_place.line, entry.key_place.column);
    };
    std::stable_sort(entries.begin(), entries.end(), [&](const TomlEntry& a, const TomlEntry& b) {
        return in_file(a) < in_file(b);
    });
    return entries;
}

TomlNode node_of(const toml::node& node) {
    TomlNode result{place_of(node.source()), TomlOther{}};
    if (const auto* table = node.as_table()) {
        result.value = table_of(*table);
    } else if (const auto* array = node.as_array()) {
        result.value = array_of(*array);
    } else if (const auto* text = node.as_string()) {
        result.value = text->get();
    } else if (const auto* whole = node.as_integer()) {
        result.value = whole->get();
    } else if (const auto* number = node.as_floating_point()) {
        result.value = number->get();
    } else if (const auto* yes = node.as_boolean()) {
        result.value = yes->get();
    } else if (const auto* date = node.as_date()) {
        result.value = date_of(date->get());
    }
    return result;
}

}  // namespace

std::string_view kind_name(const TomlNode& node) {
    const auto* number = node.as<double>();
    if (number != nullptr && !std::isfinite(*number)) {
        return "nan or infinity";
    }
    constexpr std::array<std::string_view, 8> names{
        "a time",        "a text", "a whole number", "a decimal number",
        "true or false", "a date", "a list",         "a table"};
    return names[node.value.index()];
}

const TomlEntry* find_entry(const TomlTable& table, std::string_view key) {
    const auto found = std::find_if(table.begin(), table.end(),
                                    [key](const TomlEntry& entry) { return entry.key == key; });
    return found == table.end() ? nullptr : &*found;
}

TomlTable parse_toml(std::string_view text, const std::string& name) {
    check_parts(text, name);
    try {
        return table_of(toml::parse(text, std::string_view(name)));
    } catch (const toml::parse_error& error) {
        const TomlPlace place = place_of(error.source());
        std::string_view what = error.description();
        constexpr std::string_view opening = "Error while parsing ";
        what.remove_prefix(what.starts_with(opening) ? opening.size() : 0);
        throw SettingsError(
            fmt::format("{}:{}:{}: this is no TOML: {}", name, place.line, place.column, what));
    }
}

}  // namespace farwater::io
