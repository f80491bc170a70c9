// Text from the data as XML may hold it (XML 1.0, 2.2 and 2.4).
#pragma once

#include <string>
#include <string_view>

namespace farwater::io {

// Valid UTF-8 without control characters but tab and line feed: bytes that are no UTF-8 become ?,
// characters that XML cannot hold are left out. O(bytes).
std::string xml_letters(std::string_view text);

// The same with & < > " ' escaped: between tags, or in a quoted attribute.
std::string xml_escaped(std::string_view text);

}  // namespace farwater::io
