// Text from the data as every reader takes it.
#pragma once

#include <string>
#include <string_view>

namespace farwater::reports {

// UTF-8 (RFC 3629). Bytes that are none, and control characters but tab and line feed, become
// U+FFFD. O(bytes).
std::string mended(std::string_view text);

}  // namespace farwater::reports
