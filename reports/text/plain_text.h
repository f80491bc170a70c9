// Text from the data as every reader takes it.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace farwater::reports {

// UTF-8 (RFC 3629). Bytes that are none, and control characters but tab and line feed, become
// U+FFFD. O(bytes).
std::string mended(std::string_view text);

// The same without tabs and line ends: names from a file, of which nothing may move a terminal's
// cursor.
std::string on_one_line(std::string_view name);

// The letters of UTF-8, so that columns stand under each other.
std::size_t letters(std::string_view words);

// A name as print shows it: on one line, mended; one of more than 90 letters with three dots behind
// its ninetieth, so that no id widens a table. Data layers keep the whole one.
std::string name_words(std::string_view name);

// A text whose words are each cut like names. O(bytes).
std::string with_names_cut(std::string_view text);

// A name as print shows it, with blanks behind it to so many letters.
std::string padded(std::string_view name, std::size_t width);

}  // namespace farwater::reports
