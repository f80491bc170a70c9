// One function per command: takes the checked options, returns the exit code. Throws what `main`
// catches: io::SettingsError, io::InputError, io::OutputError.
#pragma once

#include "analyzer/app/commands/options.h"
#include "io/interrupt.h"

namespace farwater::app {

int run_command(const Options& options, io::Interrupt& interrupt);
int check_command(const Options& options, io::Interrupt& interrupt);
int calibrate_command(const Options& options, io::Interrupt& interrupt);
int drive_times_command(const Options& options, io::Interrupt& interrupt);
int explain_command(const Options& options, io::Interrupt& interrupt);
int cards_command(const Options& options, io::Interrupt& interrupt);
int propose_command(const Options& options, io::Interrupt& interrupt);
int improvements_command(const Options& options, io::Interrupt& interrupt);
int init_command(const Options& options, io::Interrupt& interrupt);
int compare_command(const Options& options, io::Interrupt& interrupt);
int shuttle_command(const Options& options);
int keys_command();

}  // namespace farwater::app
