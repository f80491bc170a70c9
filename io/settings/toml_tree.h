// A TOML document as plain values with their places, so that one .cpp needs the TOML library.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "analyzer/district/calendar.h"

namespace farwater::io {

struct TomlPlace {
    unsigned line = 1;  // from 1
    unsigned column = 1;
};

struct TomlEntry;
struct TomlNode;
using TomlTable = std::vector<TomlEntry>;  // in the file's order, every key once
using TomlArray = std::vector<TomlNode>;
struct TomlOther {};  // a time of day, a date with a time

struct TomlNode {
    TomlPlace place;
    std::variant<TomlOther, std::string, std::int64_t, double, bool, Date, TomlArray, TomlTable>
        value;

    template <class Type>
    const Type* as() const {
        return std::get_if<Type>(&value);
    }
};

struct TomlEntry {
    std::string key;
    TomlPlace key_place;
    TomlNode node;
};

// "a text", "a table", ...: what the value is, for messages.
std::string_view kind_name(const TomlNode& node);

const TomlEntry* find_entry(const TomlTable& table, std::string_view key);  // null when not there

// The document's top table. Throws SettingsError `NAME:LINE:COLUMN: ...` where the text is no TOML.
TomlTable parse_toml(std::string_view text, const std::string& name);

}  // namespace farwater::io
