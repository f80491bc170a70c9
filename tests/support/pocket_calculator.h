// Works out a sum as somebody would who has it on paper: knows numbers, + - x / ^ ( ), sqrt, and
// least and most of several; other words are units and names, and pass it by.
#pragma once

#include <optional>
#include <string_view>

namespace farwater::support {

// None where it is no sum.
std::optional<double> worked_out(std::string_view sum);

}  // namespace farwater::support
