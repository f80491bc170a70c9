// The three reasons why a run cannot go on. Thrown only in `io` and the command line, caught only
// in `main`, which prints the sentence and turns the kind into the exit code.
#pragma once

#include <stdexcept>

namespace farwater::io {

// Exit code 2: the district file or the command line is wrong.
struct SettingsError : std::runtime_error {
    using std::runtime_error::runtime_error;
};

// Exit code 3: an input cannot be used as it is.
struct InputError : std::runtime_error {
    using std::runtime_error::runtime_error;
};

// Exit code 4: the result cannot be written (disk, rights, open elsewhere).
struct OutputError : std::runtime_error {
    using std::runtime_error::runtime_error;
};

}  // namespace farwater::io
