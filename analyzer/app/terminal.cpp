#include "analyzer/app/terminal.h"

#include <algorithm>
#include <cstdio>
#include <cstdlib>

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

namespace farwater::app {
namespace {

using Clock = std::chrono::steady_clock;

constexpr auto redraw_every = std::chrono::milliseconds(100);
constexpr std::size_t bar_width = 24;

bool can_redraw() {
    const char* term =
        std::getenv("TERM");  // NOLINT(concurrency-mt-unsafe): read once at the start
    return ::isatty(STDERR_FILENO) == 1 && term != nullptr && std::string_view(term) != "dumb";
}

std::string bar(std::size_t done, std::size_t total) {
    const std::size_t full = total == 0 ? 0 : std::min(bar_width, done * bar_width / total);
    return "[" + std::string(full, '#') + std::string(bar_width - full, '.') + "]";
}

}  // namespace

void say(std::string_view text) {
    // fmt's print would throw.
    static_cast<void>(std::fwrite(text.data(), 1, text.size(), stderr));
}

void hold_standard_streams() {
    for (int opened = 0; opened >= 0 && opened <= STDERR_FILENO;) {
        opened = ::open("/dev/null", O_RDWR);  // takes the lowest number that is free
        if (opened > STDERR_FILENO) {
            ::close(opened);
        }
    }
}

bool printed_all() { return std::fflush(stdout) == 0 && std::ferror(stdout) == 0; }

Terminal::Terminal(Talk talk) : talk_(talk), bar_(talk != Talk::quiet && can_redraw()) {}

Terminal::~Terminal() { clear(); }

void Terminal::stage(std::string_view name) {
    const std::lock_guard lock(mutex_);
    const auto now = Clock::now();
    if (talk_ == Talk::verbose && !stage_.empty()) {
        draw("");
        say(fmt::format("{:<32} {:7.2f} s\n", stage_,
                        std::chrono::duration<double>(now - began_).count()));
    }
    stage_ = name;
    began_ = now;
    last_drawn_ = now;
    if (bar_ && !stage_.empty()) {
        draw(stage_);
    }
}

void Terminal::progress(std::size_t done, std::size_t total) {
    if (!bar_) {
        return;
    }
    const std::lock_guard lock(mutex_);
    const auto now = Clock::now();
    if (now - last_drawn_ < redraw_every) {
        return;
    }
    last_drawn_ = now;
    draw(total == 0 ? fmt::format("{} {}", stage_, done)
                    : fmt::format("{} {} {:3.0f} %", bar(done, total), stage_,
                                  100.0 * static_cast<double>(done) / static_cast<double>(total)));
}

void Terminal::clear() {
    const std::lock_guard lock(mutex_);
    draw("");
}

// Overwrites what was drawn before; an empty text leaves an empty line.
void Terminal::draw(std::string_view text) {
    if (!bar_ || (text.empty() && drawn_ == 0)) {
        return;
    }
    const std::size_t blank = drawn_ > text.size() ? drawn_ - text.size() : 0;
    say(fmt::format("\r{}{}{}", text, std::string(blank, ' '), text.empty() ? "\r" : ""));
    std::fflush(stderr);
    drawn_ = text.size();
}

}  // namespace farwater::app
