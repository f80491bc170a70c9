#include "analyzer/app/session.h"

#include <algorithm>
#include <cstdio>
#include <thread>

#include <fmt/format.h>
#include <malloc.h>

namespace farwater::app {
namespace {

Talk talk_of(const Options& options) {
    if (options.quiet) {
        return Talk::quiet;
    }
    return options.verbose ? Talk::verbose : Talk::normal;
}

unsigned threads_of(const Options& options) {
    return options.threads > 0 ? options.threads
                               : std::max(1U, std::thread::hardware_concurrency());
}

// Lists of a megabyte and more each have memory of their own, which goes back when they go; else
// the library learns from the first large ones to keep all up to 32 MB among the small things.
void keep_large_lists_apart() {
#ifdef __GLIBC__
    ::mallopt(M_MMAP_THRESHOLD, 1 << 20);
    ::mallopt(M_TRIM_THRESHOLD, 4 << 20);
#endif
}

// What the stage before let go of: the library would keep it for later, beside what comes now.
void give_memory_back() {
#ifdef __GLIBC__
    ::malloc_trim(0);
#endif
}

}  // namespace

Session::Session(const Options& options, io::Interrupt& interrupt)
    : says_(options.json || !options.quiet), terminal_(talk_of(options)) {
    keep_large_lists_apart();
    work_.stop = interrupt.token();
    work_.threads = threads_of(options);
    work_.progress = [this](std::string_view, std::size_t done, std::size_t total) {
        terminal_.progress(done, total);
    };
}

void Session::stage(std::string_view name) {
    give_memory_back();
    log_.stage(name);
    terminal_.stage(name);
}

void Session::say(std::string_view text) {
    terminal_.clear();
    if (says_) {
        fmt::print("{}", text);
        std::fflush(stdout);
    }
}

void Session::end() {
    log_.end();
    terminal_.stage("");
    terminal_.clear();
}

}  // namespace farwater::app
