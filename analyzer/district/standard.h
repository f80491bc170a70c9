// A published standard as numbers: each with where it stands and how sure it is. Which keys there
// are: analyzer/demand/standards.
#pragma once

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include "analyzer/district/words.h"

namespace farwater {

struct StandardValue {
    std::string key;              // "construction.type_4"; the last part ends in its unit
    std::vector<double> numbers;  // at least one, unless it is a text
    std::string text;             // of a value that is a word
    bool is_list = false;
    std::string section;
    Certainty certainty = Certainty::memory_low;
    std::string source;
};

struct Standard {
    std::string name;
    std::string edition;
    std::string not_looked_at;  // what it also asks for, in words; may be empty
    std::string own_file;       // the district's copy, as written; empty = as the program has it
    std::vector<StandardValue> values;

    // Null where there is no such key.
    const StandardValue* find(std::string_view key) const {
        const auto found = std::ranges::find(values, key, &StandardValue::key);
        return found == values.end() ? nullptr : &*found;
    }
    // 0 and nothing where there is no such key; a test holds every key that is asked for.
    double number(std::string_view key) const {
        const StandardValue* value = find(key);
        return value == nullptr || value->numbers.empty() ? 0.0 : value->numbers.front();
    }
    std::string_view text(std::string_view key) const {
        const StandardValue* value = find(key);
        return value == nullptr ? std::string_view() : std::string_view(value->text);
    }
    std::vector<double> list(std::string_view key) const {
        const StandardValue* value = find(key);
        return value == nullptr ? std::vector<double>{} : value->numbers;
    }
};

}  // namespace farwater
