// Runs the program as a user would, and keeps what it says.
#pragma once

#include <chrono>
#include <functional>
#include <string>
#include <vector>

namespace farwater::support {

struct Ended {
    int exit_code = -1;
    std::string out;
    std::string err;
};

inline bool contains(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

// With standard output and error as pipes, standard input empty.
Ended run_program(const std::string& program, const std::vector<std::string>& arguments);

// With a pseudo-terminal as standard error (and TERM=xterm); `err` is what was drawn there.
Ended run_program_at_terminal(const std::string& program,
                              const std::vector<std::string>& arguments);

// Sends `signal` as soon as `ready` says so (asked every millisecond) or the program has ended;
// also how long it took to end from then on.
struct Interrupted {
    Ended ended;
    std::chrono::milliseconds took{};
};
Interrupted interrupt_program(const std::string& program, const std::vector<std::string>& arguments,
                              int signal, const std::function<bool()>& ready);

}  // namespace farwater::support
