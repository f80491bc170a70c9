// The district file that is written beside generated data.
#pragma once

#include <string>

namespace farwater::sample {

// `alone`: the tables of one township; else those of a region of many.
std::string district_text(bool alone, bool buildings);

}  // namespace farwater::sample
