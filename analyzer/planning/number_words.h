// Numbers in the sentences of this room.
#pragma once

#include <string>

namespace farwater::planning {

// "1250" of 1249.5.
std::string whole_words(double value);

// To the tenth, which always stands: "2.0" of 1.96, "-0.3", "8.0". No minus before 0.0.
std::string tenths_words(double value);

// The same without a tenth that is 0: "2", "2.5", "-0.3".
std::string short_words(double value);

}  // namespace farwater::planning
