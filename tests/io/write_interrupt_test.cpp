#include <chrono>
#include <csignal>
#include <fstream>
#include <vector>

#include <catch2/catch.hpp>
#include <sys/wait.h>
#include <unistd.h>

#include "io/interrupt.h"
#include "io/out_folder.h"
#include "tests/support/temporary_folder.h"

namespace {

using namespace std::chrono_literals;
using namespace farwater::io;
using farwater::support::put;
using farwater::support::TemporaryFolder;
using Clock = std::chrono::steady_clock;

struct End {
    int status = 0;
    double seconds = 0.0;
};

void wait_for(const std::filesystem::path& file) {
    while (!std::filesystem::exists(file)) {
        ::usleep(1000);
    }
}

// Runs `work` in a process of its own, sends it the signals once the file `ready` is there.
template <typename Action>
End end_of(const std::filesystem::path& ready, const std::vector<int>& signals, Action work) {
    const pid_t child = ::fork();
    REQUIRE(child >= 0);
    if (child == 0) {
        std::signal(SIGTERM, SIG_DFL);  // the test program has handlers of its own
        std::signal(SIGINT, SIG_DFL);
        ::_exit(work());
    }
    wait_for(ready);
    const auto begin = Clock::now();
    for (const int signal : signals) {
        ::kill(child, signal);
        ::usleep(20'000);
    }
    End end;
    ::waitpid(child, &end.status, 0);
    end.seconds = std::chrono::duration<double>(Clock::now() - begin).count();
    return end;
}

// A run that never looks at its stop token.
int deaf_run(const TemporaryFolder& home, std::chrono::milliseconds patience) {
    Interrupt interrupt(patience);
    OutFolder out = OutFolder::begin(home / "results", {});
    const CleanOnExit clean(interrupt, [&] { out.abandon(); });
    put(out.folder() / "supply.gpkg", "half");
    put(home / "ready", "");
    for (int i = 0;; ++i) {
        std::ofstream(out.folder() / std::to_string(i % 100)) << i;
    }
}

}  // namespace

TEST_CASE("an interrupted run removes its folder and ends with 130 soon") {
    const int signal = GENERATE(SIGINT, SIGTERM);
    const TemporaryFolder home;
    const End end = end_of(home / "ready", {signal}, [&] { return deaf_run(home, 300ms); });
    CHECK(WIFEXITED(end.status));
    CHECK(WEXITSTATUS(end.status) == 130);
    CHECK(end.seconds < 3.0);    // 0.4 s on a machine at rest
    CHECK(home.entries() == 1);  // `ready`
}

TEST_CASE("a second signal does not wait") {
    const TemporaryFolder home;
    const End end = end_of(home / "ready", {SIGINT, SIGINT}, [&] { return deaf_run(home, 60s); });
    CHECK(WEXITSTATUS(end.status) == 130);
    CHECK(end.seconds < 30.0);
    CHECK(home.entries() == 1);
}

TEST_CASE("a run that looks at its token ends by itself and the signal is known") {
    const TemporaryFolder home;
    const End end = end_of(home / "ready", {SIGTERM}, [&] {
        const Interrupt interrupt(60s);
        put(home / "ready", "");
        while (!interrupt.token().stop_requested()) {
            ::usleep(1000);
        }
        return interrupt.interrupted() ? 17 : 18;
    });
    CHECK(WEXITSTATUS(end.status) == 17);
}

TEST_CASE("without a signal the watch ends with its owner and the signals work as before") {
    for (int i = 0; i < 20; ++i) {
        const Interrupt interrupt;
        CHECK_FALSE(interrupt.interrupted());
    }
    const TemporaryFolder home;
    const End end = end_of(home / "ready", {SIGTERM}, [&] {
        {
            const Interrupt interrupt;
        }
        put(home / "ready", "");
        ::pause();
        return 0;
    });
    CHECK(WIFSIGNALED(end.status));
}
