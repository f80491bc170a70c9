// Reads one table of the district file against its rows of keys (io/settings/schema.h). Faults are
// collected, so that a person sees all of them at once.
#pragma once

#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "io/settings/faults.h"
#include "io/settings/schema.h"
#include "io/settings/toml_tree.h"

namespace farwater::io {

// Where a key belongs that a table does not have, "; it belongs in [roads]"; empty when nowhere.
using RightTable = std::string (*)(std::string_view key);
std::string right_table_of_district(std::string_view key);

class TableReader {
public:
    // `title` is how messages call the table, "[roads]". Unknown keys, wrong types, values out of
    // range or list, and missing keys become faults at once; what is faulty then reads as not
    // there. Entries named in `elsewhere` are left to others. The table must outlive the reader.
    TableReader(const TomlTable& table, TomlPlace place, std::string title,
                std::span<const KeyRow> keys, Faults& faults,
                std::span<const std::string_view> elsewhere = {},
                RightTable right_table = &right_table_of_district);

    std::string text(std::string_view key, std::string_view otherwise = {}) const;
    std::optional<double> number(std::string_view key) const;
    int whole(std::string_view key, int otherwise) const;
    bool yes_no(std::string_view key) const;  // false when not there
    std::optional<Date> date(std::string_view key) const;
    std::vector<std::string> texts(std::string_view key) const;
    bool unlimited(std::string_view key) const;   // of a limit: the word, not a number
    TomlTable table(std::string_view key) const;  // empty when not there

    bool has(std::string_view key) const { return find_node(key) != nullptr; }
    TomlPlace place() const { return place_; }    // of the table
    TomlPlace place(std::string_view key) const;  // of the value; of the table when not there

    // The keys that are there and right, in the file's order.
    const std::vector<std::string>& given() const { return given_; }

private:
    void take(const TomlEntry& entry);
    void report_unknown(const TomlEntry& entry, std::span<const std::string_view> elsewhere);
    void report_missing();
    const TomlNode* find_node(std::string_view key) const;
    template <class Type>
    const Type* find(std::string_view key) const {
        const TomlNode* node = find_node(key);
        return node == nullptr ? nullptr : node->as<Type>();
    }

    TomlPlace place_;
    std::string title_;
    std::span<const KeyRow> keys_;
    RightTable right_table_;
    Faults* faults_;
    std::map<std::string, const TomlNode*, std::less<>> nodes_;
    std::vector<std::string> given_;
};

// Of the table `name` at the top of the district file; none where it is not there or, which is a
// fault, is no table.
std::optional<TableReader> read_top_table(const TomlTable& top, std::string_view name,
                                          std::span<const KeyRow> keys, Faults& faults);

// The rows of [assumptions], from the table of all assumptions.
std::vector<KeyRow> assumption_keys();

}  // namespace farwater::io
