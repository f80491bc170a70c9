#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include "analyzer/app/commands/help_texts.h"
#include "analyzer/app/commands/options.h"
#include "analyzer/app/exit_code.h"
#include "analyzer/app/version.h"
#include "io/near_word.h"
#include "io/versions.h"

namespace farwater::app {
namespace {

void add_common(CLI::App& command, Options& options) {
    command.add_option("district_file", options.district_file, "The district file")
        ->required()
        ->type_name("FILE");
    command
        .add_option("--threads", options.threads, "Processors to use; results do not depend on it")
        ->type_name("N")
        ->check(CLI::Range(1U, 1024U));
    command.add_flag("--json", options.json, "One JSON document on standard output");
    command.add_flag("--quiet", options.quiet,
                     "No progress and no summary; errors, and what --json asks for");
    command.add_flag("--verbose", options.verbose,
                     "Every stage with its time, every problem of the data");
    command.add_flag("--strict", options.strict, "Exit code 5 when the data have problems");
}

void add_drives(CLI::App& command, DriveOptions& drives) {
    command.add_option("--from", drives.from, "Where loaded drives begin")
        ->required()
        ->type_name("LAYER");
    command.add_option("--to", drives.to, "Where they end")->required()->type_name("LAYER");
    command.add_option("--from-id", drives.from_id, "Column that names the points of a file")
        ->type_name("COLUMN");
    command.add_option("--to-id", drives.to_id, "Likewise")->type_name("COLUMN");
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

void add_explain(CLI::App& command, ExplainOptions& explain) {
    command.add_option("place", explain.place, "Id of a parcel, or of a target")
        ->required()
        ->type_name("PARCEL");
    command.add_option("--season", explain.season, "Default: the worst")->type_name("NAME");
    command.add_option("--period", explain.period, "Default: the worst")->type_name("NAME");
}

// An option for one of a few words; `take` says whether it is one.
CLI::Option* add_word(CLI::App& command, const std::string& name, const std::string& says,
                      std::vector<std::string_view> words,
                      std::function<bool(const std::string&)> take) {
    const auto take_or_tell = [name, words = std::move(words),
                               take = std::move(take)](const std::string& word) {
        if (!take(CLI::detail::to_lower(word))) {
            throw CLI::ValidationError(
                name, fmt::format("\"{}\" is none of its words, {}", word, io::one_of(words)));
        }
    };
    return command.add_option_function<std::string>(name, take_or_tell, says);
}

void add_weigh_by(CLI::App& command, std::optional<WeighBy>& weigh_by) {
    const auto words = words_of(WeighBy{});
    add_word(command, "--weigh-by",
             "What a property counts for: parcels (each 1), building_area, value, people",
             {words.begin(), words.end()},
             [&weigh_by](const std::string& word) {
                 weigh_by = parse_word<WeighBy>(word);
                 return weigh_by.has_value();
             })
        ->type_name("WORD");
}

void add_audience(CLI::App& command, Audience& audience) {
    add_word(command, "--audience",
             "officers (default) or public: without parcels, owners, codes, phones, notes",
             {"officers", "public"},
             [&audience](const std::string& word) {
                 audience = word == "public" ? Audience::everybody : Audience::officers;
                 return word == "public" || word == "officers";
             })
        ->type_name("WHO");
}

void add_propose(CLI::App& command, Options& options) {
    command.add_option("--out", options.out, "Folder of the results")->type_name("DIR");
    ProposeOptions& propose = options.propose;
    ChoiceTerms& terms = propose.terms;
    CLI::Option* sites =
        command.add_option("--sites", terms.sites, "How many to choose; default: 5")
            ->type_name("N")
            ->check(CLI::Range(1, 1000));
    command.add_option("--budget", terms.budget, "What may be spent, in the money of the costs")
        ->type_name("X")
        ->check(CLI::Range(0.0, 1e12))
        ->excludes(sites);
    command
        .add_option("--yearly-budget", terms.yearly_budget,
                    "What each year has to spend: deals the chosen places into years")
        ->type_name("X")
        ->check(CLI::Range(0.01, 1e12));
    add_weigh_by(command, terms.weigh_by);
    CLI::Option* exact = command.add_flag(
        "--exact", propose.exact, "Search the best choice there is, and prove that it is the best");
    command
        .add_option("--exact-seconds", propose.exact_seconds,
                    "Stop that search after so long; default: 60")
        ->needs(exact)
        ->type_name("S")
        ->check(CLI::Range(1.0, 1e6));
    command.add_flag("--every-gain", propose.every_gain,
                     "Work out what each place gains, also where a bound rules out its choice");
    command.add_option("--planned", terms.planned, "A place that is built in any case; repeatable")
        ->type_name("ID");
    command.add_option("--rule-out", terms.ruled_out, "A place that cannot be had; repeatable")
        ->type_name("ID");
}

void add_improve(CLI::App& command, Options& options) {
    command.add_option("--out", options.out, "Folder of the results")->type_name("DIR");
    command
        .add_option("--yearly-budget", options.improve.yearly_budget,
                    "What each year has to spend: which year buys what, worked out together")
        ->type_name("X")
        ->check(CLI::Range(0.01, 1e12));
    add_weigh_by(command, options.improve.weigh_by);
}

void add_compare(CLI::App& command, Options& options) {
    command
        .add_option("earlier", options.compare.before,
                    "The earlier result: its folder, or supply.gpkg")
        ->required()
        ->type_name("LAST");
    command.add_option("later", options.compare.after, "The later result, likewise")
        ->required()
        ->type_name("THIS");
    command
        .add_option("--out", options.out,
                    "Folder of the results; default: comparison beside the later result")
        ->type_name("DIR");
    command.add_flag("--json", options.json, "One JSON document on standard output");
    command.add_flag("--quiet", options.quiet,
                     "No progress and no summary; errors, and what --json asks for");
    command.add_flag("--verbose", options.verbose, "Every stage with its time");
}

void add_scenario(CLI::App& command, Options& options) {
    command.add_option("scenario_file", options.district_file, "The scenario")
        ->required()
        ->type_name("FILE");
    command.add_flag("--json", options.json, "One JSON document on standard output");
}

void add_init(CLI::App& command, Options& options) {
    command.add_option("folder", options.folder, "The folder that the data lie in")
        ->required()
        ->type_name("FOLDER");
    command.add_flag("--json", options.json, "One JSON document on standard output");
    command.add_flag("--quiet", options.quiet,
                     "No progress and no summary; errors, and what --json asks for");
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

ParsedCommandLine only_text(std::string text) {
    return {.options = std::nullopt,
            .to_stdout = std::move(text),
            .to_stderr = {},
            .exit_code = exit_done};
}

// A command whose own help page says more than its line on the first page.
struct LongPage {
    CLI::App* command;
    std::string_view text;
};

CLI::App* add_command(CLI::App& app, Options& options, Command command, const char* name,
                      const char* line) {
    CLI::App* added = app.add_subcommand(name, line);
    added->callback([&options, command] { options.command = command; });
    return added;
}

std::vector<LongPage> add_commands(CLI::App& app, Options& options) {
    CLI::App* init = add_command(app, options, Command::init, "init",
                                 "From a folder of data to a first district file");
    add_init(*init, options);
    CLI::App* run =
        add_command(app, options, Command::run, "run", "Analyse a district and write its results");
    add_common(*run, options);
    run->add_option("--out", options.out,
                    "Folder of the results; default: result beside the district file")
        ->type_name("DIR");
    add_audience(*run, options.audience);
    add_common(*add_command(app, options, Command::check, "check",
                            "Read everything, say what is wrong, write nothing"),
               options);
    CLI::App* drive_times = add_command(app, options, Command::drive_times, "drive-times",
                                        "Minutes and miles between the points of two layers");
    add_common(*drive_times, options);
    add_drives(*drive_times, options.drives);
    drive_times->add_option("--csv", options.csv, "Write every pair there")->type_name("FILE");
    CLI::App* calibrate = add_command(app, options, Command::calibrate, "calibrate",
                                      "Timed runs beside the planned turnouts and drives");
    add_common(*calibrate, options);
    calibrate->add_option("--csv", options.csv, "Write every run there")->type_name("FILE");
    CLI::App* explain = add_command(app, options, Command::explain, "explain",
                                    "The whole calculation of one parcel, on paper");
    add_common(*explain, options);
    add_explain(*explain, options.explain);
    CLI::App* propose = add_command(app, options, Command::propose, "propose",
                                    "Where the next source of water helps most");
    add_common(*propose, options);
    add_propose(*propose, options);
    CLI::App* improvements = add_command(app, options, Command::improvements, "improvements",
                                         "What spending of each kind would do, side by side");
    add_common(*improvements, options);
    add_improve(*improvements, options);
    CLI::App* cards = add_command(app, options, Command::cards, "cards",
                                  "Run cards to print, with an index of addresses");
    add_common(*cards, options);
    cards->add_option("--out", options.out, "Folder of the results")->type_name("DIR");
    CLI::App* compare = add_command(app, options, Command::compare, "compare",
                                    "What changed between two results, and why");
    add_compare(*compare, options);
    CLI::App* shuttle = add_command(app, options, Command::shuttle, "shuttle",
                                    "What a shuttle typed by hand can hold; needs no map");
    add_scenario(*shuttle, options);
    add_command(app, options, Command::keys, "keys",
                "The reference of the files: keys, units, defaults, sources");
    return {{init, help::init},          {drive_times, help::drive_times},
            {shuttle, help::shuttle},    {explain, help::explain},
            {propose, help::propose},    {improvements, help::improvements},
            {cards, help::cards},        {compare, help::compare},
            {calibrate, help::calibrate}};
}

// Of a first word that is no command, rather than that one is required; else what the parser says.
std::string no_such_command(const CLI::App& app, int argc, const char* const* argv,
                            const char* parser_says) {
    const std::string_view word = argc > 1 ? argv[1] : "";
    if (word.empty() || word.starts_with('-')) {
        return parser_says;
    }
    std::vector<std::string> names;
    for (const CLI::App* command : app.get_subcommands({})) {
        names.push_back(command->get_name());
    }
    const std::vector<std::string_view> commands(names.begin(), names.end());
    return fmt::format("there is no command \"{}\"{}", word, io::did_you_mean(word, commands));
}

}  // namespace

ParsedCommandLine parse_command_line(int argc, const char* const* argv) {
    Options options;
    CLI::App app{std::string(help::first_page), "farwater"};
    app.footer(std::string(help::first_page_foot));
    app.set_help_flag("--help", "This page, or a command's own");
    app.set_version_flag("--version", version_text());
    app.require_subcommand(1);
    const std::vector<LongPage> long_pages = add_commands(app, options);
    try {
        app.parse(argc, argv);
    } catch (const CLI::CallForHelp&) {
        for (const LongPage& page : long_pages) {
            if (page.command->parsed()) {
                page.command->description(std::string(page.text));
            }
        }
        return only_text(app.help());
    } catch (const CLI::CallForVersion&) {
        return only_text(version_text());
    } catch (const CLI::ParseError& error) {
        return misuse(app.get_subcommands().empty() ? no_such_command(app, argc, argv, error.what())
                                                    : error.what());
    }
    if (options.quiet && options.verbose) {
        return misuse("--quiet and --verbose exclude each other");
    }
    if (options.out && options.out->empty()) {
        options.out.reset();
    }
    return {.options = options, .to_stdout = {}, .to_stderr = {}, .exit_code = exit_done};
}

}  // namespace farwater::app
