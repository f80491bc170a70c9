#include "analyzer/parallel/work.h"

#include <algorithm>
#include <atomic>

#include <oneapi/tbb/global_control.h>
#include <oneapi/tbb/parallel_for.h>
#include <oneapi/tbb/task_arena.h>

namespace farwater {

bool for_each_chunk(const Work& work, std::string_view stage, std::size_t count, std::size_t chunk,
                    const std::function<void(std::size_t, std::size_t)>& body) {
    const std::size_t chunks = (count + chunk - 1) / chunk;
    std::atomic<std::size_t> done{0};
    const auto run_chunk = [&](std::size_t c) {
        if (work.stopped()) {
            return;
        }
        const std::size_t begin = c * chunk;
        const std::size_t end = std::min(count, begin + chunk);
        body(begin, end);
        work.step(stage, done.fetch_add(end - begin) + (end - begin), count);
    };
    if (work.threads <= 1) {
        for (std::size_t c = 0; c < chunks && !work.stopped(); ++c) {
            run_chunk(c);
        }
    } else {
        // As many as were asked for, also on fewer cores: TBB would print a warning instead.
        using oneapi::tbb::global_control;
        const global_control allowed(global_control::max_allowed_parallelism, work.threads);
        oneapi::tbb::task_arena arena(static_cast<int>(work.threads));
        arena.execute([&] { oneapi::tbb::parallel_for(std::size_t{0}, chunks, run_chunk); });
    }
    return !work.stopped();
}

}  // namespace farwater
