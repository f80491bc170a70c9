// How a stage is told to stop, tells how far it is, and uses more than one core. The core has no
// clock, no exception and no global for any of it: whoever starts the work owns the token and sink.
#pragma once

#include <cstddef>
#include <functional>
#include <stop_token>
#include <string_view>

namespace farwater {

struct Work {
    std::stop_token stop;
    unsigned threads = 1;
    // Called from any thread, at most once per chunk; may be empty. `total` 0 = not known.
    std::function<void(std::string_view stage, std::size_t done, std::size_t total)> progress;

    bool stopped() const { return stop.stop_requested(); }
    void step(std::string_view stage, std::size_t done, std::size_t total) const {
        if (progress) {
            progress(stage, done, total);
        }
    }

    // For answers to questions of the same kind, one after the other: how many are done is told,
    // not the stages of each.
    Work told_by_number() const {
        Work quiet = *this;
        quiet.progress = nullptr;
        return quiet;
    }
};

// Calls body(begin, end) for fixed chunks of [0, count): the same chunks for every thread count, so
// a body that writes only its own slots gives the same bytes. Returns false when stopped before the
// end; the caller then discards what it has. The body must not throw. O(count / chunk) overhead.
bool for_each_chunk(const Work& work, std::string_view stage, std::size_t count, std::size_t chunk,
                    const std::function<void(std::size_t begin, std::size_t end)>& body);

}  // namespace farwater
