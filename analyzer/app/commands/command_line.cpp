#include <map>
#include <utility>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include "analyzer/app/commands/options.h"
#include "analyzer/app/exit_code.h"
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
    "  farwater explain district.toml 042-017      the whole calculation of one parcel, on paper\n"
    "  farwater propose district.toml              where the next source of water helps most\n"
    "  farwater improvements district.toml         what a tanker, hose, aid, people do beside it\n"
    "  farwater cards district.toml                run cards to print, one for each dump site\n"
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
    command.add_flag("--quiet", options.quiet,
                     "No progress and no summary; errors, and what --json asks for");
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

constexpr std::string_view about_explain =
    "The whole calculation of one parcel as it is written on paper: what is needed, who comes "
    "when,\n"
    "dump site, fill site and the ways between, each tanker's trip, what is held and what limits "
    "it,\n"
    "and every assumption that it rests on. Each sum has its numbers in it, so that it can be "
    "worked\n"
    "out again by hand. The answer is the one of `run`; nothing is written.\n\n"
    "  farwater explain district.toml 042-017\n"
    "  farwater explain district.toml 042-017 --season winter --period weekday_day\n"
    "  farwater explain district.toml 042-017 --json\n\n"
    "The id is that of a parcel, else of a target. Without a season and a period the worst of all "
    "is\n"
    "shown, as in the results; with one of the two the worst that it leaves. An id that begins "
    "with a\n"
    "dash goes behind two of them: farwater explain district.toml -- -17";

void add_explain(CLI::App& command, ExplainOptions& explain) {
    command.add_option("place", explain.place, "Id of a parcel, or of a target")
        ->required()
        ->type_name("PARCEL");
    command.add_option("--season", explain.season, "Default: the worst")->type_name("NAME");
    command.add_option("--period", explain.period, "Default: the worst")->type_name("NAME");
}

std::map<std::string, WeighBy> ways_to_weigh() {
    std::map<std::string, WeighBy> ways;
    for (const std::string_view way : words_of(WeighBy{})) {
        ways[std::string(way)] = *parse_word<WeighBy>(way);
    }
    return ways;
}

constexpr std::string_view about_propose =
    "Where the next dry hydrant or cistern helps most: places in the order in which they are "
    "worth\n"
    "building, each with what it gains, for whom, what it costs and what must be found out "
    "first.\n\n"
    "  farwater propose district.toml                    the best five\n"
    "  farwater propose district.toml --sites 10 --out plan\n"
    "  farwater propose district.toml --budget 60000     the best that the money buys\n"
    "  farwater propose district.toml --planned C2 --rule-out DH-17\n"
    "  farwater propose district.toml --sites 8 --yearly-budget 20000   which year builds what\n"
    "  farwater propose district.toml --weigh-by building_area --exact\n\n"
    "Places to choose from are those of [proposals] in the district file, a dry hydrant wherever "
    "a\n"
    "road comes near [mapped_water], and cisterns at the junctions and on the public parcels that "
    "have\n"
    "most flow missing near them. Gains are worked out as `run` works out supply, with the place\n"
    "among the sources. To see for yourself, let [what_if_sources] name the layer "
    "source_proposals.\n"
    "Planned places come first and use up neither the number nor the budget. Results go to the\n"
    "folder proposals beside the district file, or to --out.";

void add_propose(CLI::App& command, Options& options) {
    command.add_option("--out", options.out, "Folder of the results")->type_name("DIR");
    ProposeOptions& propose = options.propose;
    CLI::Option* sites =
        command.add_option("--sites", propose.sites, "How many to choose; default: 5")
            ->type_name("N")
            ->check(CLI::Range(1, 1000));
    command.add_option("--budget", propose.budget, "What may be spent, in the money of the costs")
        ->type_name("X")
        ->check(CLI::Range(0.0, 1e12))
        ->excludes(sites);
    command
        .add_option("--yearly-budget", propose.yearly_budget,
                    "What each year has to spend: deals the chosen places into years")
        ->type_name("X")
        ->check(CLI::Range(0.01, 1e12));
    command
        .add_option("--weigh-by", propose.weigh_by,
                    "What a property counts for: parcels (each 1), building_area, value, people")
        ->transform(CLI::CheckedTransformer(ways_to_weigh(), CLI::ignore_case))
        ->type_name("WORD");
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
    command
        .add_option("--planned", propose.planned, "A place that is built in any case; repeatable")
        ->type_name("ID");
    command.add_option("--rule-out", propose.ruled_out, "A place that cannot be had; repeatable")
        ->type_name("ID");
}

constexpr std::string_view about_improvements =
    "Spending of all kinds side by side, for the yearly budget: what a tanker, a portable tank, "
    "hose,\n"
    "an engine to fill, a dump valve, aid that comes by itself, a road kept open, a bridge that "
    "bears\n"
    "more, people in a thin period or a source would each do by itself, and what it costs.\n\n"
    "  farwater improvements district.toml\n"
    "  farwater improvements district.toml --out budget --json\n\n"
    "Each [[improvement]] of the district file is worked out by the whole analysis, as `run` does, "
    "with\n"
    "it made: buildings that come to meet their planned flow and that no longer do, gpm of "
    "shortfall\n"
    "taken away, rating, value, cost and yearly cost. The places of [proposals] stand beside them. "
    "A file\n"
    "without any gets one more of each usual thing, without a cost. That takes a run for each. "
    "Results\n"
    "go to the folder improvements beside the district file, or to --out.";

constexpr std::string_view about_cards =
    "Run cards for the cab: one printed page for each dump site, with map, who comes, fill sites, "
    "flow\n"
    "by minute, the gap, what to call for and room to write in by hand; in front an index from "
    "house\n"
    "number to card, behind them a page for each source that counts.\n\n"
    "  farwater cards district.toml\n"
    "  farwater cards district.toml --out /media/stick/cards\n\n"
    "The answers are those of `run`. Written are cards.pdf, cards.html with the same, "
    "dispatch.csv\n"
    "(address, card, dump site, fill sites, first tankers), wall_sheet.pdf (36 x 24 in) and "
    "atlas.pdf\n"
    "(11 x 17 in) with the same numbers, into the folder cards beside the district file, or "
    "--out.";

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

ParsedCommandLine only_text(std::string text) {
    return {.options = std::nullopt,
            .to_stdout = std::move(text),
            .to_stderr = {},
            .exit_code = exit_done};
}

// Those whose own help page says more than their line on the first page.
struct Explained {
    CLI::App* drive_times;
    CLI::App* shuttle;
    CLI::App* explain;
    CLI::App* propose;
    CLI::App* improvements;
    CLI::App* cards;

    void say_more() const {
        if (drive_times->parsed()) {
            drive_times->description(std::string(about_drives));
        }
        if (shuttle->parsed()) {
            shuttle->description(std::string(about_shuttle));
        }
        if (explain->parsed()) {
            explain->description(std::string(about_explain));
        }
        if (propose->parsed()) {
            propose->description(std::string(about_propose));
        }
        if (improvements->parsed()) {
            improvements->description(std::string(about_improvements));
        }
        if (cards->parsed()) {
            cards->description(std::string(about_cards));
        }
    }
};

CLI::App* add_command(CLI::App& app, Options& options, Command command, const char* name,
                      const char* line) {
    CLI::App* added = app.add_subcommand(name, line);
    added->callback([&options, command] { options.command = command; });
    return added;
}

Explained add_commands(CLI::App& app, Options& options) {
    CLI::App* run =
        add_command(app, options, Command::run, "run", "Analyse a district and write its results");
    add_common(*run, options);
    run->add_option("--out", options.out,
                    "Folder of the results; default: result beside the district file")
        ->type_name("DIR");
    run->add_option("--audience", options.audience,
                    "officers (default) or public: without parcels, owners, codes, phones, notes")
        ->type_name("WHO")
        ->transform(CLI::CheckedTransformer(std::map<std::string, Audience>{
            {"officers", Audience::officers}, {"public", Audience::everybody}}));
    add_common(*add_command(app, options, Command::check, "check",
                            "Read everything, say what is wrong, write nothing"),
               options);
    CLI::App* drive_times = add_command(app, options, Command::drive_times, "drive-times",
                                        "Minutes and miles between the points of two layers");
    add_common(*drive_times, options);
    add_drives(*drive_times, options.drives);
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
    improvements->add_option("--out", options.out, "Folder of the results")->type_name("DIR");
    CLI::App* cards = add_command(app, options, Command::cards, "cards",
                                  "Run cards to print, with an index of addresses");
    add_common(*cards, options);
    cards->add_option("--out", options.out, "Folder of the results")->type_name("DIR");
    CLI::App* shuttle = add_command(app, options, Command::shuttle, "shuttle",
                                    "What a shuttle typed by hand can hold; needs no map");
    add_scenario(*shuttle, options);
    add_command(app, options, Command::keys, "keys",
                "The reference of the files: keys, units, defaults, sources");
    return {drive_times, shuttle, explain, propose, improvements, cards};
}

}  // namespace

ParsedCommandLine parse_command_line(int argc, const char* const* argv) {
    Options options;
    CLI::App app{std::string(about), "farwater"};
    app.footer(std::string(after));
    app.set_help_flag("--help", "This page, or a command's own");
    app.set_version_flag("--version", version_text());
    app.require_subcommand(1);
    const Explained explained = add_commands(app, options);
    try {
        app.parse(argc, argv);
    } catch (const CLI::CallForHelp&) {
        explained.say_more();
        return only_text(app.help());
    } catch (const CLI::CallForVersion&) {
        return only_text(version_text());
    } catch (const CLI::ParseError& error) {
        return misuse(error.what());
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
