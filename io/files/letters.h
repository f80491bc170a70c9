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

}  // namespace farwater::io
