// What comes more than once, in order and each once.
#pragma once

#include <algorithm>
#include <vector>

namespace farwater {

// By < and ==.
template <class Item>
std::vector<Item> sorted_once(std::vector<Item> items) {
    std::ranges::sort(items);
    const auto rest = std::ranges::unique(items);
    items.erase(rest.begin(), rest.end());
    return items;
}

}  // namespace farwater
