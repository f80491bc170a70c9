// Whole numbers and texts as few bytes, and bytes as letters that are safe anywhere in a page.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

namespace farwater::reports {

// Seven bits to the byte, low ones first, the top bit says that more follow (LEB128).
void append_count(std::string& bytes, std::uint64_t number);

// Small numbers of either sign as small counts: 0, -1, 1, -2, ... become 0, 1, 2, 3, ...
void append_signed(std::string& bytes, std::int64_t number);

// Its length as a count, then its bytes, mended (reports/text/plain_text.h).
void append_text(std::string& bytes, std::string_view text);

// RFC 4648, with padding: letters, digits, + / =, so nothing in it can end a page's element.
std::string base64(std::string_view bytes);

}  // namespace farwater::reports
