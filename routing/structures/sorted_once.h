// Numbers in order, each once.
#pragma once

#include <algorithm>
#include <vector>

namespace farwater::routing {

template <class Number>
std::vector<Number> sorted_once(std::vector<Number> numbers) {
    std::ranges::sort(numbers);
    const auto rest = std::ranges::unique(numbers);
    numbers.erase(rest.begin(), rest.end());
    return numbers;
}

}  // namespace farwater::routing
