// A thing of a list by the name that the command line gave.
#pragma once

#include <algorithm>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include <fmt/format.h>

#include "io/error.h"
#include "io/near_word.h"

namespace farwater::app {

// Its position. Throws SettingsError, saying which there are, when it is not among them; `name`
// takes a thing.
template <class Things, class Name>
std::size_t position_of(const Things& things, const std::string& wanted, const char* what,
                        Name name) {
    std::vector<std::string_view> names;
    for (const auto& thing : things) {
        names.push_back(name(thing));
    }
    const auto found = std::ranges::find(names, wanted);
    if (found == names.end()) {
        throw io::SettingsError(fmt::format("there is no {} \"{}\"{}; the district has {}", what,
                                            wanted, io::did_you_mean(wanted, names),
                                            names.empty() ? "none" : io::one_of(names)));
    }
    return static_cast<std::size_t>(found - names.begin());
}

}  // namespace farwater::app
