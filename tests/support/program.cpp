#include "tests/support/program.h"

#include <array>
#include <csignal>
#include <cstdlib>
#include <stdexcept>
#include <thread>

#include <fcntl.h>
#include <poll.h>
#include <pty.h>
#include <sys/wait.h>
#include <unistd.h>

namespace farwater::support {
namespace {

struct Pipe {
    int reading = -1;
    int writing = -1;
};

Pipe make_pipe() {
    std::array<int, 2> ends{};
    if (::pipe2(ends.data(), O_CLOEXEC) != 0) {
        throw std::runtime_error("pipe2");
    }
    return {ends[0], ends[1]};
}

Pipe make_terminal() {
    Pipe terminal;
    if (::openpty(&terminal.reading, &terminal.writing, nullptr, nullptr, nullptr) != 0) {
        throw std::runtime_error("openpty");
    }
    ::fcntl(terminal.reading, F_SETFD, FD_CLOEXEC);
    return terminal;
}

pid_t start(const std::string& program, const std::vector<std::string>& arguments, const Pipe& out,
            const Pipe& err) {
    std::vector<char*> argv{const_cast<char*>(program.c_str())};
    for (const std::string& argument : arguments) {
        argv.push_back(const_cast<char*>(argument.c_str()));
    }
    argv.push_back(nullptr);
    const pid_t child = ::fork();
    if (child == 0) {
        const int nothing = ::open("/dev/null", O_RDONLY);
        ::dup2(nothing, STDIN_FILENO);
        ::dup2(out.writing, STDOUT_FILENO);
        ::dup2(err.writing, STDERR_FILENO);
        ::setenv("TERM", "xterm", 1);
        ::execv(program.c_str(), argv.data());
        ::_exit(127);
    }
    ::close(out.writing);
    ::close(err.writing);
    return child;
}

// Until both ends are closed by the program.
void collect(const Pipe& out, const Pipe& err, Ended& ended) {
    std::array<pollfd, 2> ends{pollfd{out.reading, POLLIN, 0}, pollfd{err.reading, POLLIN, 0}};
    std::array<std::string*, 2> texts{&ended.out, &ended.err};
    std::array<char, 4096> block{};
    while (ends[0].fd >= 0 || ends[1].fd >= 0) {
        ::poll(ends.data(), ends.size(), -1);
        for (std::size_t i = 0; i < ends.size(); ++i) {
            if (ends[i].fd < 0 || ends[i].revents == 0) {
                continue;
            }
            const ssize_t count = ::read(ends[i].fd, block.data(), block.size());
            if (count <= 0) {
                ::close(ends[i].fd);
                ends[i].fd = -1;
            } else {
                texts[i]->append(block.data(), static_cast<std::size_t>(count));
            }
        }
    }
}

int exit_code_of(pid_t child) {
    int status = 0;
    ::waitpid(child, &status, 0);
    return WIFEXITED(status) ? WEXITSTATUS(status) : 1000 + WTERMSIG(status);
}

Ended run_with(const std::string& program, const std::vector<std::string>& arguments,
               const Pipe& err) {
    const Pipe out = make_pipe();
    Ended ended;
    const pid_t child = start(program, arguments, out, err);
    collect(out, err, ended);
    ended.exit_code = exit_code_of(child);
    return ended;
}

}  // namespace

Ended run_program(const std::string& program, const std::vector<std::string>& arguments) {
    return run_with(program, arguments, make_pipe());
}

Ended run_program_at_terminal(const std::string& program,
                              const std::vector<std::string>& arguments) {
    return run_with(program, arguments, make_terminal());
}

Interrupted interrupt_program(const std::string& program, const std::vector<std::string>& arguments,
                              int signal, const std::function<bool()>& ready) {
    const Pipe out = make_pipe();
    const Pipe err = make_pipe();
    const pid_t child = start(program, arguments, out, err);
    siginfo_t ended_already{};
    while (!ready() && ended_already.si_pid == 0) {
        std::this_thread::sleep_for(std::chrono::milliseconds(1));
        ::waitid(P_PID, static_cast<id_t>(child), &ended_already, WEXITED | WNOHANG | WNOWAIT);
    }
    ::kill(child, signal);
    const auto sent = std::chrono::steady_clock::now();
    Interrupted interrupted;
    collect(out, err, interrupted.ended);
    interrupted.ended.exit_code = exit_code_of(child);
    interrupted.took = std::chrono::duration_cast<std::chrono::milliseconds>(
        std::chrono::steady_clock::now() - sent);
    return interrupted;
}

}  // namespace farwater::support
