#include "io/near_word.h"

#include <algorithm>

#include "io/records/parse_cell.h"

namespace farwater::io {

std::size_t spelling_distance(std::string_view a, std::string_view b) {
    const std::string one = lower_case(a);
    const std::string two = lower_case(b);
    const std::size_t width = two.size() + 1;
    std::vector<std::size_t> table((one.size() + 1) * width);
    const auto cell = [&](std::size_t i, std::size_t j) -> std::size_t& {
        return table[i * width + j];
    };
    for (std::size_t i = 0; i <= one.size(); ++i) {
        for (std::size_t j = 0; j <= two.size(); ++j) {
            if (i == 0 || j == 0) {
                cell(i, j) = i + j;
                continue;
            }
            const std::size_t change = one[i - 1] == two[j - 1] ? 0 : 1;
            std::size_t best = std::min(cell(i - 1, j), cell(i, j - 1)) + 1;
            best = std::min(best, cell(i - 1, j - 1) + change);
            const bool swapped =
                i > 1 && j > 1 && one[i - 1] == two[j - 2] && one[i - 2] == two[j - 1];
            cell(i, j) = swapped ? std::min(best, cell(i - 2, j - 2) + 1) : best;
        }
    }
    return table.back();
}

std::string_view nearest_word(std::string_view word, std::span<const std::string_view> list) {
    std::string_view nearest;
    std::size_t least = std::max<std::size_t>(1, word.size() / 3) + 1;
    for (const std::string_view candidate : list) {
        const std::size_t distance = spelling_distance(word, candidate);
        if (distance < least && distance < candidate.size()) {
            least = distance;
            nearest = candidate;
        }
    }
    return nearest;
}

std::string plain_name(std::string_view name) {
    std::string plain = lower_case(name);
    std::erase_if(plain, [](char c) { return c == ' ' || c == '_' || c == '-'; });
    return plain;
}

std::string did_you_mean(std::string_view word, std::span<const std::string_view> list) {
    const std::string_view nearest = nearest_word(word, list);
    return nearest.empty() ? "" : "; did you mean \"" + std::string(nearest) + "\"?";
}

std::string one_of(std::span<const std::string_view> list) {
    std::string text;
    for (std::size_t i = 0; i < list.size(); ++i) {
        text += i == 0 ? "" : (i + 1 == list.size() ? " or " : ", ");
        text += list[i];
    }
    return text;
}

}  // namespace farwater::io
