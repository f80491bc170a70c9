// farwater: how much water a tanker shuttle can hold at every property of a fire district.
#include <exception>

#include <fmt/format.h>

#include "analyzer/app/commands/commands.h"
#include "analyzer/app/commands/options.h"
#include "analyzer/app/exit_code.h"
#include "analyzer/app/terminal.h"
#include "io/error.h"
#include "io/interrupt.h"

namespace {

using namespace farwater;

int run_chosen(const app::Options& options, io::Interrupt& interrupt) {
    switch (options.command) {
        case app::Command::run:
            return app::run_command(options, interrupt);
        case app::Command::check:
            return app::check_command(options, interrupt);
        case app::Command::drive_times:
            return app::drive_times_command(options, interrupt);
        case app::Command::calibrate:
            return app::calibrate_command(options, interrupt);
        case app::Command::explain:
            return app::explain_command(options, interrupt);
        case app::Command::cards:
            return app::cards_command(options, interrupt);
        case app::Command::propose:
            return app::propose_command(options, interrupt);
        case app::Command::improvements:
            return app::improvements_command(options, interrupt);
        case app::Command::init:
            return app::init_command(options, interrupt);
        case app::Command::compare:
            return app::compare_command(options, interrupt);
        case app::Command::shuttle:
            return app::shuttle_command(options);
        case app::Command::keys:
            return app::keys_command();
    }
    return app::exit_internal;
}

int complain(const std::exception& error, int exit_code) {
    app::say(fmt::format("farwater: {}\n", error.what()));
    return exit_code;
}

// The ladder: each kind of error is said once and becomes its exit code. What fails because the
// unfinished result was taken away after a signal is the signal's doing.
int run_and_catch(const app::Options& options, io::Interrupt& interrupt) {
    try {
        return run_chosen(options, interrupt);
    } catch (const io::SettingsError& error) {
        return complain(error, app::exit_usage);
    } catch (const io::InputError& error) {
        return complain(error, app::exit_input);
    } catch (const io::OutputError& error) {
        return interrupt.interrupted() ? app::exit_interrupted : complain(error, app::exit_output);
    }
}

// A script that reads half an answer must not take it for the whole.
int unless_lost(int exit_code) {
    if (app::printed_all()) {
        return exit_code;
    }
    app::say("farwater: standard output: cannot be written to; what was printed is not whole.\n");
    return app::exit_output;
}

}  // namespace

int main(int argc, char** argv) {
    app::hold_standard_streams();
    try {
        io::Interrupt interrupt;
        const app::ParsedCommandLine command_line = app::parse_command_line(argc, argv);
        if (!command_line.options) {
            fmt::print("{}", command_line.to_stdout);
            app::say(command_line.to_stderr);
            return unless_lost(command_line.exit_code);
        }
        const int exit_code = run_and_catch(*command_line.options, interrupt);
        return interrupt.interrupted() ? app::exit_interrupted : unless_lost(exit_code);
    } catch (const std::exception& error) {
        // Printing throws, too, when it cannot.
        return app::printed_all() ? complain(error, app::exit_internal)
                                  : unless_lost(app::exit_internal);
    }
}
