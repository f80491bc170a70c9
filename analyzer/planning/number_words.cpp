#include "analyzer/planning/number_words.h"

#include <cmath>
#include <cstdlib>

namespace farwater::planning {

std::string whole_words(double value) { return std::to_string(std::lround(value)); }

std::string tenths_words(double value) {
    const long tenths = std::lround(value * 10.0);
    const long size = std::abs(tenths);
    return (tenths < 0 ? "-" : "") + std::to_string(size / 10) + "." + std::to_string(size % 10);
}

std::string short_words(double value) {
    const bool whole = std::lround(value * 10.0) % 10 == 0;
    return whole ? whole_words(std::round(value * 10.0) / 10.0) : tenths_words(value);
}

}  // namespace farwater::planning
