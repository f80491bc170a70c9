// What the command line asked for.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "analyzer/district/choice_terms.h"
#include "analyzer/district/words.h"

namespace farwater::app {

enum class Command {
    run,
    check,
    keys,
    drive_times,
    shuttle,
    explain,
    propose,
    improvements,
    cards,
    init,
    compare,
    calibrate
};

// For whom `run` writes.
enum class Audience { officers, everybody };

// Of drive-times.
struct DriveOptions {
    std::string from, to;                       // sections of the district file, or data sets
    std::optional<std::string> from_id, to_id;  // columns; none = the likely one
    std::string season;                         // empty = the first
    std::string vehicle;                        // a unit; empty = the usual tanker
    std::optional<double> limit_min;            // none = trip_limit_min of the assumptions
};

// Of explain.
struct ExplainOptions {
    std::string place;           // a parcel's id, else a target's
    std::string season, period;  // empty = the worst of all
};

// Of propose.
struct ProposeOptions {
    ChoiceTerms terms;   // before those of the district file
    bool exact = false;  // the best choice there is, searched so long
    double exact_seconds = 60.0;
    bool every_gain = false;  // of places too that no choice takes
};

// Of improvements.
struct ImproveOptions {
    std::optional<double> yearly_budget;  // buys them year by year, worked out together
    std::optional<WeighBy> weigh_by;      // none: parcels
};

// Of compare: result folders, or their supply.gpkg.
struct CompareOptions {
    std::filesystem::path before, after;
};

struct Options {
    Command command = Command::run;
    std::filesystem::path district_file;  // of shuttle: the scenario file
    std::filesystem::path folder;         // of init: where the data lie
    std::optional<std::filesystem::path>
        out;  // none = beside it: folder "result", "proposals", "improvements" or "cards", of
              // compare "comparison" beside the later result
    std::optional<std::filesystem::path> csv;  // of drive-times and calibrate
    unsigned threads = 0;                      // 0 = as many as there are processors
    bool json = false;
    bool quiet = false;
    bool verbose = false;
    Audience audience = Audience::officers;  // of run
    bool strict = false;                     // problems of the data make exit code 5
    DriveOptions drives;
    ExplainOptions explain;
    ProposeOptions propose;
    ImproveOptions improve;
    CompareOptions compare;
};

// Either options, or what to print and the exit code with which to end (--help, --version, misuse).
struct ParsedCommandLine {
    std::optional<Options> options;
    std::string to_stdout;
    std::string to_stderr;
    int exit_code = 0;
};

ParsedCommandLine parse_command_line(int argc, const char* const* argv);

}  // namespace farwater::app
