// How the program ends, for scripts.
#pragma once

namespace farwater::app {

inline constexpr int exit_done = 0;
inline constexpr int exit_internal = 1;
inline constexpr int exit_usage = 2;  // command line or district file
inline constexpr int exit_input = 3;
inline constexpr int exit_output = 4;
inline constexpr int exit_problems = 5;  // found by check, or under --strict
inline constexpr int exit_interrupted = 130;

}  // namespace farwater::app
