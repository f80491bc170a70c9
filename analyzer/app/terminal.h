// What a person sees while the program works: progress on standard error, at a terminal only.
#pragma once

#include <chrono>
#include <mutex>
#include <string>
#include <string_view>

namespace farwater::app {

// Writes to standard error. What cannot be written there (full disk, closed stream) is lost: that
// nobody can be told is no reason to give up a result.
void say(std::string_view text);

// What the caller has closed of the standard streams leads nowhere from now on, else the first
// files that the program opens would stand in their place. Call it before any file is opened.
void hold_standard_streams();

// False when something that was printed to standard output could not be written.
bool printed_all();

enum class Talk { quiet, normal, verbose };

// At a terminal one line that is redrawn, at most ten times a second; otherwise nothing but, when
// verbose, a line per stage. Never a carriage return without a terminal. For any thread.
class Terminal {
public:
    explicit Terminal(Talk talk);
    ~Terminal();
    Terminal(const Terminal&) = delete;
    Terminal& operator=(const Terminal&) = delete;

    void stage(std::string_view name);
    void progress(std::size_t done, std::size_t total);
    void clear();  // takes the progress line away, before other text

private:
    void draw(std::string_view text);

    Talk talk_;
    bool bar_;  // standard error is a terminal that can redraw a line
    std::mutex mutex_;
    std::string stage_;
    std::size_t drawn_ = 0;
    std::chrono::steady_clock::time_point began_, last_drawn_;
};

}  // namespace farwater::app
