#include "io/results/flat_settings.h"

#include <algorithm>
#include <string>
#include <type_traits>

#include <fmt/format.h>

#include "io/error.h"
#include "io/results/stored_layers.h"
#include "io/settings/toml_tree.h"

namespace farwater::io {
namespace {

constexpr int most_decimals = 9;

std::string plain_value(const TomlNode& node);

std::string list_in_words(const TomlArray& items) {
    std::string text;
    for (const TomlNode& item : items) {
        text += (text.empty() ? "" : ", ") + plain_value(item);
    }
    return text;
}

std::string table_in_words(const TomlTable& table) {
    std::string text;
    for (const TomlEntry& entry : table) {
        text += (text.empty() ? "" : ", ") + entry.key + " " + plain_value(entry.node);
    }
    return text;
}

std::string plain_value(const TomlNode& node) {
    return std::visit(
        [](const auto& value) -> std::string {
            using Value = std::decay_t<decltype(value)>;
            if constexpr (std::is_same_v<Value, std::string>) {
                return value;
            } else if constexpr (std::is_same_v<Value, std::int64_t>) {
                return std::to_string(value);
            } else if constexpr (std::is_same_v<Value, double>) {
                return number_text(value, most_decimals);
            } else if constexpr (std::is_same_v<Value, bool>) {
                return value ? "true" : "false";
            } else if constexpr (std::is_same_v<Value, Date>) {
                return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(value.year()),
                                   static_cast<unsigned>(value.month()),
                                   static_cast<unsigned>(value.day()));
            } else if constexpr (std::is_same_v<Value, TomlArray>) {
                return list_in_words(value);
            } else if constexpr (std::is_same_v<Value, TomlTable>) {
                return table_in_words(value);
            } else {
                return "a time";
            }
        },
        node.value);
}

bool is_list_of_tables(const TomlNode& node) {
    const auto* items = node.as<TomlArray>();
    return items != nullptr && !items->empty() &&
           std::ranges::all_of(
               *items, [](const TomlNode& item) { return item.as<TomlTable>() != nullptr; });
}

void add_node(StoredRecord& keys, const std::string& path, const TomlNode& node);

void add_table(StoredRecord& keys, const std::string& path, const TomlTable& table) {
    if (table.empty()) {
        keys.emplace_back(path, "");
    }
    for (const TomlEntry& entry : table) {
        add_node(keys, path.empty() ? entry.key : path + "." + entry.key, entry.node);
    }
}

void add_node(StoredRecord& keys, const std::string& path, const TomlNode& node) {
    if (const auto* table = node.as<TomlTable>()) {
        add_table(keys, path, *table);
    } else if (is_list_of_tables(node)) {
        std::size_t number = 0;
        for (const TomlNode& item : *node.as<TomlArray>()) {
            add_node(keys, fmt::format("{}.{}", path, ++number), item);
        }
    } else {
        keys.emplace_back(path, plain_value(node));
    }
}

}  // namespace

std::optional<FlatSettings> flat_settings(std::string_view text) {
    TomlTable top;
    try {
        top = parse_toml(text, "district file");
    } catch (const SettingsError&) {
        return std::nullopt;  // of another time: it is not told
    }
    FlatSettings settings;
    add_table(settings.keys, "", top);
    for (const TomlEntry& entry : top) {
        const auto* date = entry.key == "data_date" ? entry.node.as<Date>() : nullptr;
        settings.data_date = date != nullptr ? std::optional(*date) : settings.data_date;
    }
    return settings;
}

}  // namespace farwater::io
