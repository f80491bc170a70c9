// SIGINT and SIGTERM: the run is asked to stop, the unfinished result is removed, exit code 130
// within a second, the old result stays.
#pragma once

#include <chrono>
#include <functional>
#include <memory>
#include <stop_token>
#include <utility>

namespace farwater::io {

// Make one at the start of main, before any other thread: it blocks both signals in this thread
// (later threads inherit that) and starts the one thread that waits for them. On the first signal
// it requests stop, waits up to `patience` for its owner to be done with it (destructor), then runs
// the cleaning function and ends the process with 130. A second signal ends the process at once.
// SIGXFSZ is ignored, so that a file size limit is an error of writing like any other.
class Interrupt {
public:
    explicit Interrupt(std::chrono::milliseconds patience = std::chrono::milliseconds(300));
    ~Interrupt();  // ends the thread, unblocks the signals
    Interrupt(const Interrupt&) = delete;
    Interrupt& operator=(const Interrupt&) = delete;

    std::stop_token token() const;
    bool interrupted() const;  // exit code 130 is due

    // What is to be removed, called in the waiting thread. It must stay callable until it is
    // replaced by an empty one: CleanOnExit does that. Waits while a running call ends.
    void on_exit(std::function<void()> clean);

private:
    struct State;
    std::unique_ptr<State> state_;
};

// While it lives, an interrupted process runs `clean` (usually OutFolder::abandon) before its end.
class CleanOnExit {
public:
    CleanOnExit(Interrupt& interrupt, std::function<void()> clean) : interrupt_(interrupt) {
        interrupt_.on_exit(std::move(clean));
    }
    ~CleanOnExit() { interrupt_.on_exit({}); }
    CleanOnExit(const CleanOnExit&) = delete;
    CleanOnExit& operator=(const CleanOnExit&) = delete;

private:
    Interrupt& interrupt_;
};

}  // namespace farwater::io
