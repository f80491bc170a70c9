// What is wrong with a district file, collected so that a person sees all of it at once.
#pragma once

#include <string>
#include <vector>

#include "io/settings/toml_tree.h"

namespace farwater::io {

class Faults {
public:
    explicit Faults(std::string file) : file_(std::move(file)) {}
    void add(TomlPlace place, const std::string& what);
    // Throws SettingsError with a line for each fault, in the file's order, at most 20.
    void throw_if_any() const;

private:
    struct Fault {
        TomlPlace place;
        std::string what;
    };
    std::string file_;
    std::vector<Fault> faults_;
};

}  // namespace farwater::io
