#include "io/interrupt.h"

#include <atomic>
#include <chrono>
#include <csignal>
#include <ctime>
#include <mutex>
#include <thread>

#include <pthread.h>
#include <unistd.h>

namespace farwater::io {

namespace {

constexpr int exit_code = 130;
// Wakes the waiting thread without being a wish of the user's.
constexpr int end_of_watch = SIGUSR2;

sigset_t watched_signals() {
    sigset_t set;
    sigemptyset(&set);
    sigaddset(&set, SIGINT);
    sigaddset(&set, SIGTERM);
    sigaddset(&set, end_of_watch);
    return set;
}

}  // namespace

struct Interrupt::State {
    std::chrono::milliseconds patience{};
    std::stop_source stop;
    std::mutex cleaning;  // held while `clean` runs or changes
    std::function<void()> clean;
    std::atomic<bool> over{false};
    sigset_t before{};
    std::thread watcher;

    void watch();
    void leave();
};

// The process ends in here, or the owner's destructor ends the wait.
void Interrupt::State::watch() {
    const sigset_t signals = watched_signals();
    int signal = 0;
    while (sigwait(&signals, &signal) != 0 || (signal == end_of_watch && !over)) {
    }
    if (over) {
        return;
    }
    stop.request_stop();
    const auto until = std::chrono::steady_clock::now() + patience;
    while (std::chrono::steady_clock::now() < until) {
        const timespec slice{0, 50'000'000};
        signal = sigtimedwait(&signals, nullptr, &slice);
        if (over) {
            return;
        }
        if (signal == SIGINT || signal == SIGTERM) {
            break;
        }
    }
    leave();
}

void Interrupt::State::leave() {
    const std::lock_guard lock(cleaning);
    if (over) {
        return;
    }
    // From here on a further signal ends the process even if the cleaning hangs.
    sigset_t impatient = watched_signals();
    sigdelset(&impatient, end_of_watch);
    std::signal(SIGINT, [](int) { ::_exit(exit_code); });
    std::signal(SIGTERM, [](int) { ::_exit(exit_code); });
    pthread_sigmask(SIG_UNBLOCK, &impatient, nullptr);
    if (clean) {
        clean();
    }
    ::_exit(exit_code);
}

Interrupt::Interrupt(std::chrono::milliseconds patience) : state_(std::make_unique<State>()) {
    state_->patience = patience;
    std::signal(SIGXFSZ, SIG_IGN);
    const sigset_t signals = watched_signals();
    pthread_sigmask(SIG_BLOCK, &signals, &state_->before);
    state_->watcher = std::thread([state = state_.get()] { state->watch(); });
}

Interrupt::~Interrupt() {
    {
        const std::lock_guard lock(state_->cleaning);
        state_->over = true;
    }
    pthread_kill(state_->watcher.native_handle(), end_of_watch);
    state_->watcher.join();
    pthread_sigmask(SIG_SETMASK, &state_->before, nullptr);
}

std::stop_token Interrupt::token() const { return state_->stop.get_token(); }

bool Interrupt::interrupted() const { return state_->stop.stop_requested(); }

void Interrupt::on_exit(std::function<void()> clean) {
    const std::lock_guard lock(state_->cleaning);
    state_->clean = std::move(clean);
}

}  // namespace farwater::io
