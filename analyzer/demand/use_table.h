// A standard's number for each word of a closed list: "hazard.dwelling", "construction.type_4".
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "analyzer/district/standard.h"
#include "analyzer/district/words.h"

namespace farwater::demand {

inline constexpr double half_millimetre = 0.0005;

template <class Enum>
struct ByWord {
    std::vector<double> numbers;  // by the enum's value
};

template <class Enum>
ByWord<Enum> by_word(const Standard& standard, std::string_view table) {
    ByWord<Enum> found;
    for (const std::string_view word : words_of(Enum{})) {
        found.numbers.push_back(standard.number(std::string(table) + "." + std::string(word)));
    }
    return found;
}

template <class Enum>
double of(const ByWord<Enum>& table, Enum value) {
    return table.numbers[static_cast<std::size_t>(value)];
}

}  // namespace farwater::demand
