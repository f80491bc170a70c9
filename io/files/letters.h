// The letters of texts that come from elsewhere.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace farwater::io {

// Length of the valid UTF-8 sequence at the start of `text`; 0 where there is none (RFC 3629).
// Precondition: not empty.
std::size_t letter_length(std::string_view text);

bool is_utf8(std::string_view text);  // O(bytes)

// The text itself where it is UTF-8, else read as Windows-1252, which spreadsheets write where they
// are not told otherwise; its five bytes without a letter become U+FFFD. Always UTF-8. O(bytes).
// Table: WHATWG Encoding Standard, index windows-1252 (from memory).
std::string as_utf8(std::string_view text);

// A text that comes out of seen_letters as it is, for ASCII alone: no control characters. O(bytes).
bool is_plain_ascii(std::string_view text);

struct SeenLetters {
    std::string text;
    bool left_out = false;  // more than line ends and tabs
};

// The text as it would be read aloud: line ends and tabs are one blank each run, and what nobody
// sees is left out: control characters, marks that turn the direction of writing, letters without
// width, language tags. Such letters make two names look the same, or one name look like another.
// Sets: Unicode 15, Default_Ignorable_Code_Point without variation selectors, and Cc (from memory).
// Precondition: UTF-8. O(bytes).
SeenLetters seen_letters(std::string_view text);

// The text with its line ends and tabs, otherwise like seen_letters. Precondition: UTF-8. O(bytes).
std::string without_hidden(std::string_view text);

// The first `most` letters, and " ..." behind them where there were more. Precondition: UTF-8.
std::string first_letters(std::string_view text, std::size_t most);

}  // namespace farwater::io
