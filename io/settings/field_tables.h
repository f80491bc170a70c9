// The sub-tables of an input section whose keys are the section's fields: columns, values, units.
#pragma once

#include <map>
#include <string>
#include <string_view>

#include "io/district_file.h"
#include "io/settings/faults.h"
#include "io/settings/schema.h"
#include "io/settings/toml_tree.h"

namespace farwater::io {

// Each of the three leaves out what is wrong and adds a fault for it.
class FieldTables {
public:
    // `title` is how messages call the table above them, "[roads]".
    FieldTables(const SectionRow& section, std::string title, Faults& faults)
        : section_(&section), title_(std::move(title)), faults_(&faults) {}

    std::map<std::string, std::string, std::less<>> columns(const TomlTable& table) const;
    std::map<std::string, std::string, std::less<>> units(const TomlTable& table) const;
    std::map<std::string, ValueMap, std::less<>> values(const TomlTable& table) const;

private:
    ValueMap value_map(const FieldRow& field, const TomlTable& pairs) const;
    const FieldRow* field_of(const TomlEntry& entry, std::string_view table) const;
    void add(TomlPlace place, const std::string& key, const std::string& what) const;

    const SectionRow* section_;
    std::string title_;
    Faults* faults_;
};

}  // namespace farwater::io
