#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include "analyzer/app/exit_code.h"
#include "analyzer/app/options.h"
#include "analyzer/app/version.h"
#include "io/versions.h"

namespace farwater::app {
namespace {

constexpr std::string_view about =
    "How much water a tanker shuttle can hold at every property of a fire district.\n\n"
    "  farwater check district.toml                what is wrong with the data, nothing written\n"
    "  farwater run district.toml                  the analysis, into the folder result/ beside "
    "it\n"
    "  farwater run district.toml --out coverage   into another folder\n"
    "  farwater drive-times district.toml --from stations --to water_sources\n"
    "                                              minutes and miles, there and back\n"
    "  farwater shuttle scenario.toml              what a shuttle typed by hand can hold, no map\n"
    "  farwater keys                               every key of both kinds of file, with "
    "defaults\n";

constexpr std::string_view after =
    "Exit codes: 0 done, 1 internal failure, 2 usage or district file, 3 input refused, 4 output\n"
    "(disk, rights, result open elsewhere), 5 problems found by check or under --strict,\n"
    "130 interrupted. Results go to files and standard output, messages to standard error.\n"
    "Planning figures: prove them by a timed drill; local codes and the authority having\n"
    "jurisdiction go first.\n";

void add_common(CLI::App& command, Options& options) {
    command.add_option("district_file", options.district_file, "The district file")
        ->required()
        ->type_name("FILE");
    command
        .add_option("--threads", options.threads, "Processors to use; results do not depend on it")
        ->type_name("N")
        ->check(CLI::Range(1U, 1024U));
    command.add_flag("--json", options.json, "One JSON document on standard output");
    command.add_flag("--quiet", options.quiet, "No progress and no summary; errors only");
    command.add_flag("--verbose", options.verbose,
                     "Every stage with its time, every problem of the data");
    command.add_flag("--strict", options.strict, "Exit code 5 when the data have problems");
}

constexpr std::string_view about_drives =
    "Minutes and road miles between the points of two layers, loaded there and empty back, as "
    "`run`\n"
    "drives them: the same roads, speeds, limits and restrictions.\n\n"
    "  farwater drive-times district.toml --from stations --to water_sources\n"
    "  farwater drive-times district.toml --from water_sources --to parcels --csv drives.csv\n"
    "  farwater drive-times district.toml --from camps.gpkg:huts --to stations --season winter\n\n"
    "A layer is a section of the district file that has points or areas (stations, water_sources,\n"
    "dump_site_places, targets, parcels, buildings, address_points, mapped_water), or a file or\n"
    "connection that GDAL reads, with :LAYER behind it where it holds several. Vehicles drive "
    "from\n"
    "and to the nearest road that they may use; a parcel's drives end at its access point.";

void add_drives(CLI::App& command, DriveOptions& drives) {
    command.add_option("--from", drives.from, "Where loaded drives begin")
        ->required()
        ->type_name("LAYER");
    command.add_option("--to", drives.to, "Where they end")->required()->type_name("LAYER");
    command.add_option("--from-id", drives.from_id, "Column that names the points of a file")
        ->type_name("COLUMN");
    command.add_option("--to-id", drives.to_id, "Likewise")->type_name("COLUMN");
    command.add_option("--csv", drives.csv, "Write every pair there")->type_name("FILE");
    command.add_option("--season", drives.season, "Default: the district file's first")
        ->type_name("NAME");
    command
        .add_option("--vehicle", drives.vehicle,
                    "A unit; the vehicles that are routed with it. Default: most tankers")
        ->type_name("UNIT_ID");
    command
        .add_option("--limit-min", drives.limit_min,
                    "Longer drives are left out. Default: trip_limit_min of the district file")
        ->type_name("MINUTES")
        ->check(CLI::Range(0.1, 1440.0));
}

constexpr std::string_view about_shuttle =
    "What a tanker shuttle typed by hand can hold, how soon and for how long, what limits it, "
    "what\n"
    "one more of each thing gains, and where each tanker best fills. No map data are read.\n\n"
    "  farwater shuttle sample_region/shuttle.toml\n"
    "  farwater shuttle scenario.toml --json\n\n"
    "The file's tables and keys, with the defaults of what is left out: farwater keys";

void add_scenario(CLI::App& command, Options& options) {
    command.add_option("scenario_file", options.district_file, "The scenario")
        ->required()
        ->type_name("FILE");
    command.add_flag("--json", options.json, "One JSON document on standard output");
}

std::string version_text() {
    return fmt::format("farwater {}\n{}", program_version, io::library_versions());
}

ParsedCommandLine misuse(std::string_view what) {
    return {.options = std::nullopt,
            .to_stdout = {},
            .to_stderr = fmt::format("farwater: {}\nTry: farwater --help\n", what),
            .exit_code = exit_usage};
}

}  // namespace

ParsedCommandLine parse_command_line(int argc, const char* const* argv) {
    Options options;
    CLI::App app{std::string(about), "farwater"};
    app.footer(std::string(after));
    app.set_help_flag("--help", "This page, or a command's own");
    app.set_version_flag("--version", version_text());
    app.require_subcommand(1);
    CLI::App* run = app.add_subcommand("run", "Analyse a district and write its results");
    add_common(*run, options);
    std::string out;
    run->add_option("--out", out, "Folder of the results; default: result beside the district file")
        ->type_name("DIR");
    CLI::App* check =
        app.add_subcommand("check", "Read everything, say what is wrong, write nothing");
    add_common(*check, options);
    CLI::App* drive_times =
        app.add_subcommand("drive-times", "Minutes and miles between the points of two layers");
    add_common(*drive_times, options);
    add_drives(*drive_times, options.drives);
    CLI::App* shuttle =
        app.add_subcommand("shuttle", "What a shuttle typed by hand can hold; needs no map");
    add_scenario(*shuttle, options);
    const CLI::App* keys =
        app.add_subcommand("keys", "The reference of the files: keys, units, defaults, sources");
    try {
        app.parse(argc, argv);
    } catch (const CLI::CallForHelp&) {
        if (drive_times->parsed()) {
            drive_times->description(std::string(about_drives));
        }
        if (shuttle->parsed()) {
            shuttle->description(std::string(about_shuttle));
        }
        return {.options = std::nullopt,
                .to_stdout = app.help(),
                .to_stderr = {},
                .exit_code = exit_done};
    } catch (const CLI::CallForVersion&) {
        return {.options = std::nullopt,
                .to_stdout = version_text(),
                .to_stderr = {},
                .exit_code = exit_done};
    } catch (const CLI::ParseError& error) {
        return misuse(error.what());
    }
    if (options.quiet && options.verbose) {
        return misuse("--quiet and --verbose exclude each other");
    }
    options.command = check->parsed()         ? Command::check
                      : drive_times->parsed() ? Command::drive_times
                      : shuttle->parsed()     ? Command::shuttle
                      : keys->parsed()        ? Command::keys
                                              : Command::run;
    if (!out.empty()) {
        options.out = out;
    }
    return {.options = options, .to_stdout = {}, .to_stderr = {}, .exit_code = exit_done};
}

}  // namespace farwater::app
