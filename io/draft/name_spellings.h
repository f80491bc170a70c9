// The words of columns' names with their abbreviations, and units as names spell them.
#pragma once

#include <map>
#include <string_view>

namespace farwater::io {

// From each spelling, in lower case, to the one word that stands for it; empty for words that say
// nothing.
const std::map<std::string_view, std::string_view, std::less<>>& spelled_words();

// Units that can stand in the middle of a run of letters or of a name, where nothing else is meant.
bool is_plain_unit(std::string_view token);
// Units only where they end a name: elsewhere they are other words.
bool is_last_unit(std::string_view token);

}  // namespace farwater::io
